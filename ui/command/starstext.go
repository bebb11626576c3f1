package command

import (
	"fmt"
	"io"
	"math"
	"strings"
	"text/tabwriter"

	"duskhand/plan"
	"duskhand/sky"
	"duskhand/sky/words"
	"duskhand/ui/say"
)

// pairsShown and unfitShown are how many lines the text gives; --json gives all.
const pairsShown, unfitShown = 8, 12

// hundredths keeps two decimals, as many as the errors and magnitudes are worth.
func hundredths(x float64) float64 { return math.Round(x*100)/100 + 0 }

func writeStarsText(to io.Writer, c chosenStars) error {
	var out strings.Builder
	s, k := c.stars, c.tonight.Kit
	if k.Example {
		out.WriteString("EXAMPLE: the built-in kit, all equipment invented; make your own with: duskhand kit new\n\n")
	}
	local := words.WallOf(c.tonight.Night.Span.From, c.tonight.Night.Span.To, k.Site.Zone)
	fmt.Fprintf(&out, "Stars at %s (%s) over %s, %s\n", local.Minute(s.At), words.MinuteUTC(s.At), k.Site.Name, local.Heading())
	used := "first used at " + local.MinuteFrom(s.AimAt)
	if !s.Usable {
		used = "not usable any more tonight; placed for " + local.MinuteFrom(s.AimAt)
	}
	fmt.Fprintf(&out, "Target    %s, %s: %s\n", c.tonight.Target.Name, used, whereText(s.Aim))
	fmt.Fprintf(&out, "Sun       %s; stars to magnitude %s\n", words.Degrees(s.Sky.Sun, 1), words.Number(min(s.Sky.FaintestMag, k.Stars.FaintestMag), 1))
	fmt.Fprintf(&out, "Axis      tilted %s towards azimuth %s, uncertain by ±%s\n\n", words.Degrees(c.tonight.Axis.Tilt, 1), words.Direction(c.tonight.Axis.Toward, 0), words.Degrees(c.tonight.Axis.Uncertainty, 1))
	if len(s.Pairs) == 0 {
		fmt.Fprintf(&out, "No two stars will do. %s\n", say.NoPair(s.Sky, s.None))
	} else {
		writePairs(&out, c, local)
	}
	writeUnfit(&out, s.Sky.Unfit)
	writeFocus(&out, c)
	out.WriteString("\nNever point an unfiltered telescope or finder at the Sun.\n")
	_, err := io.WriteString(to, out.String())
	return err
}

func writePairs(out *strings.Builder, c chosenStars, local words.Wall) {
	best := c.stars.Pairs[0]
	fmt.Fprintf(out, "Two stars: %s, then %s\n", best.First.Star.Name(), best.Second.Star.Name())
	fmt.Fprintf(out, "  %s\n  The target comes within %s for each 1′ of centring error, and the field is turned by %s.\n", say.Pair(c.stars.Sky, best), perArcminute(best.PerArcminute), perArcminute(best.RollPerArcmin))
	fmt.Fprintf(out, "  first  %s\n  then   %s\n", starText(best.First, local), starText(best.Second, local))
	if check, ok := c.stars.Check(0); ok {
		fmt.Fprintf(out, "  to be sure  %s\n              %s\n", starText(check.Star, local), say.CheckStar(check, best))
	}
	out.WriteString("\nOther pairs\n")
	table := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	for _, pair := range c.stars.Pairs[1:min(len(c.stars.Pairs), pairsShown)] {
		fmt.Fprintf(table, "  %s, then %s\t%s, turned %s\t%s\n", pair.First.Star.Name(), pair.Second.Star.Name(), perArcminute(pair.PerArcminute), perArcminute(pair.RollPerArcmin), say.Pair(c.stars.Sky, pair))
	}
	_ = table.Flush() // to a strings.Builder, which takes everything
}

// starText is one star in full.
func starText(c *plan.Candidate, local words.Wall) string {
	name := c.Star.Name()
	if bayer := c.Star.Bayer(); bayer != "" && bayer != name {
		name += " (" + bayer + ")"
	}
	way := "setting"
	if c.Rising {
		way = "rising"
	}
	text := fmt.Sprintf("%s, magnitude %s, %s, %s", name, words.Number(c.Star.Magnitude.Value, 1), whereText(c.Place), way)
	if c.Leaves.OK {
		text += ", fit until " + local.Minute(c.Leaves.At)
	}
	return text
}

func whereText(h sky.Horizontal) string {
	return fmt.Sprintf("%s up, azimuth %s (%s)", words.Degrees(h.Altitude, 0), words.Direction(rounded10(h.Azimuth), 0), words.Compass(h.Azimuth))
}

// perArcminute prints an error at the target for each minute of arc at the stars.
func perArcminute(minutes float64) string {
	return words.Arcminutes(sky.Angle(minutes)*sky.Arcminute, 1)
}

func writeUnfit(out *strings.Builder, unfit []plan.Rejected) {
	shown := 0
	for _, star := range unfit {
		if star.Place.Altitude <= 0 || shown == unfitShown {
			continue
		}
		if shown == 0 {
			out.WriteString("\nBright stars that will not do\n")
		}
		shown++
		fmt.Fprintf(out, "  %s %s\n", star.Star.Name(), say.Unfit(star))
	}
}

func writeFocus(out *strings.Builder, c chosenStars) {
	if len(c.stars.Focus) == 0 {
		fmt.Fprintf(out, "\nNo star to focus on. %s\n", say.NoFocus(c.stars.Sky, c.stars.WhyNot))
		return
	}
	best := c.stars.Focus[0]
	fmt.Fprintf(out, "\nFocus on %s: %s\n", best.Star.Name(), say.FocusStar(c.stars.Sky, best))
	main := plan.MainTelescope(c.tonight.Kit.Optics)
	fmt.Fprintf(out, "  the focus of the %s holds within ±%.0f µm\n", main.Name, main.ZoneUM()/2)
	if guide, ok := plan.GuideTelescope(c.tonight.Kit.Optics); ok {
		fmt.Fprintf(out, "  that of the %s within ±%.0f µm\n", guide.Name, guide.ZoneUM()/2)
	}
}
