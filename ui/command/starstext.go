package command

import (
	"fmt"
	"io"
	"math"
	"strings"
	"text/tabwriter"

	"duskhand/plan"
	"duskhand/sky"
	"duskhand/ui/screens"
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
	local := timesOf(c.tonight.Night.Span, k.Site.Zone)
	fmt.Fprintf(&out, "Stars at %s (%s) over %s, %s\n", local.of(s.At), utc(s.At), k.Site.Name, local.heading(c.tonight.Night.Span))
	used := "first used at " + local.of(s.AimAt)
	if !s.Usable {
		used = "not usable any more tonight; placed for " + local.of(s.AimAt)
	}
	fmt.Fprintf(&out, "Target    %s, %s: %s\n", c.tonight.Target.Name, used, whereText(s.Aim))
	fmt.Fprintf(&out, "Sun       %s°; stars to magnitude %s\n", minus(fmt.Sprintf("%.1f", s.Sky.Sun.Degrees())), minus(fmt.Sprintf("%.1f", min(s.Sky.FaintestMag, k.Stars.FaintestMag))))
	fmt.Fprintf(&out, "Axis      tilted %.1f° towards azimuth %.0f°, uncertain by ±%.1f°\n\n", c.tonight.Axis.Tilt.Degrees(), c.tonight.Axis.Toward.Wrapped().Degrees(), c.tonight.Axis.Uncertainty.Degrees())
	if len(s.Pairs) == 0 {
		fmt.Fprintf(&out, "No two stars will do. %s\n", s.None.Text())
	} else {
		writePairs(&out, c, local)
	}
	writeUnfit(&out, s.Sky.Unfit)
	writeFocus(&out, c)
	out.WriteString("\nNever point an unfiltered telescope or finder at the Sun.\n")
	_, err := io.WriteString(to, out.String())
	return err
}

func writePairs(out *strings.Builder, c chosenStars, local localTimes) {
	best := c.stars.Pairs[0]
	fmt.Fprintf(out, "Two stars: %s, then %s\n", best.First.Star.Name(), best.Second.Star.Name())
	fmt.Fprintf(out, "  %s\n  The target within %.1f′ for each 1′ of centring error, turned by %.1f′.\n", best.Reason, best.PerArcminute, best.RollPerArcmin)
	fmt.Fprintf(out, "  first  %s\n  then   %s\n", starText(best.First, local), starText(best.Second, local))
	if check, ok := c.stars.Check(0); ok {
		fmt.Fprintf(out, "  to be sure  %s\n              %s\n", starText(check.Star, local), check.Reason)
	}
	out.WriteString("\nOther pairs\n")
	table := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	for _, pair := range c.stars.Pairs[1:min(len(c.stars.Pairs), pairsShown)] {
		fmt.Fprintf(table, "  %s, then %s\t%.1f′, turned %.1f′\t%s\n", pair.First.Star.Name(), pair.Second.Star.Name(), pair.PerArcminute, pair.RollPerArcmin, pair.Reason)
	}
	_ = table.Flush() // to a strings.Builder, which takes everything
}

// starText is one star in full.
func starText(c *plan.Candidate, local localTimes) string {
	name := c.Star.Name()
	if bayer := c.Star.Bayer(); bayer != "" && bayer != name {
		name += " (" + bayer + ")"
	}
	way := "setting"
	if c.Rising {
		way = "rising"
	}
	text := fmt.Sprintf("%s, magnitude %s, %s, %s", name, minus(fmt.Sprintf("%.1f", c.Star.Magnitude.Value)), whereText(c.Place), way)
	if c.Leaves.OK {
		text += ", fit until " + local.of(c.Leaves.At)
	}
	return text
}

func whereText(h sky.Horizontal) string {
	return fmt.Sprintf("%s° up, azimuth %.0f° (%s)", minus(fmt.Sprintf("%.0f", h.Altitude.Degrees())), rounded10(h.Azimuth).Degrees(), screens.CompassWords(h.Azimuth))
}

func minus(number string) string { return strings.Replace(number, "-", "−", 1) }

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
		fmt.Fprintf(out, "  %s %s\n", star.Star.Name(), star.Reason())
	}
}

func writeFocus(out *strings.Builder, c chosenStars) {
	if len(c.stars.Focus) == 0 {
		fmt.Fprintf(out, "\nNo star to focus on. %s\n", c.stars.WhyNot)
		return
	}
	best := c.stars.Focus[0]
	fmt.Fprintf(out, "\nFocus on %s: %s\n", best.Star.Name(), best.Reason)
	main := plan.MainTelescope(c.tonight.Kit.Optics)
	fmt.Fprintf(out, "  the focus of the %s holds within ±%.0f µm\n", main.Name, main.ZoneUM()/2)
	if guide, ok := plan.GuideTelescope(c.tonight.Kit.Optics); ok {
		fmt.Fprintf(out, "  that of the %s within ±%.0f µm\n", guide.Name, guide.ZoneUM()/2)
	}
}
