package say

import (
	"fmt"
	"strings"

	"duskhand/plan/exposure"
	"duskhand/sky/words"
)

// What is worth a word. Our choice.
const (
	brightened    = 0.1  // magnitudes by which the Moon is said to brighten the sky
	muchOfTheWell = 0.25 // from here on the sky itself takes the stars' room
)

// exposed says how long subs should be in plain sentences, what the kit lacks last.
func exposed(a exposure.Advice) []string {
	var all []string
	for _, sentence := range []string{skyWords(a), exposureWords(a), shortestWords(a), saturatesWords(a), wellWords(a),
		moonWords(a), signalWords(a), runWords(a), stillWords(a), lacksWords(a)} {
		if sentence != "" {
			all = append(all, sentence)
		}
	}
	return all
}

func skyWords(a exposure.Advice) string {
	s := a.Sky.Value
	switch {
	case !a.Sky.OK && len(a.Sky.Lacks) == 0:
		return "The target is below the horizon."
	case !a.Sky.OK:
		return ""
	case s.Twilight:
		return fmt.Sprintf("It is twilight, the Sun %s down: the sky at the target has %.1f magnitudes per square second of arc.", words.Degrees(-s.Sun, 0), s.Mag)
	case !s.MoonUp:
		return fmt.Sprintf("The sky at the target has %.1f magnitudes per square second of arc; the Moon is down.", s.Mag)
	case s.Brightening() < brightened:
		return fmt.Sprintf("The sky at the target has %.1f magnitudes per square second of arc; the Moon, %s lit and %s away, hardly brightens it.",
			s.Mag, words.Percent(s.MoonLit, 0), words.Degrees(s.MoonSeparation, 0))
	}
	return fmt.Sprintf("The sky at the target has %.1f magnitudes per square second of arc: the Moon, %s lit and %s away, brightens it by %.1f.",
		s.Mag, words.Percent(s.MoonLit, 0), words.Degrees(s.MoonSeparation, 0), s.Brightening())
}

// exposureWords says what the kit's exposure makes of the read noise.
func exposureWords(a exposure.Advice) string {
	if !a.ReadNoise.OK {
		return ""
	}
	verdict := "long enough"
	if a.ReadNoise.Value > a.Share {
		verdict = "too short"
	}
	return fmt.Sprintf("%s of %s is %s: reading adds %s of noise, where %s is allowed.", words.Exposure(a.Filter.Exposure), a.Filter.Name, verdict,
		perCent(a.ReadNoise.Value), perCent(a.Share))
}

func shortestWords(a exposure.Advice) string {
	switch dark := words.ExposureAtLeast(a.ShortestDark.Value); {
	case a.Shortest.OK && a.ShortestDark.OK:
		return fmt.Sprintf("The shortest sub that holds to that is %s under this sky, and %s under a moonless one overhead.", words.ExposureAtLeast(a.Shortest.Value), dark)
	case a.Shortest.OK:
		return fmt.Sprintf("The shortest sub that holds to that is %s under this sky.", words.ExposureAtLeast(a.Shortest.Value))
	case a.ShortestDark.OK:
		return fmt.Sprintf("The shortest sub in which reading adds no more than %s of noise is %s under a moonless sky overhead.", perCent(a.Share), dark)
	case len(a.Shortest.Lacks) == 0 && a.Sky.OK:
		return "So little sky comes through this filter that no sub of a night loses the read noise in it."
	}
	return ""
}

func saturatesWords(a exposure.Advice) string {
	if !a.Saturates.OK {
		return ""
	}
	return fmt.Sprintf("Stars brighter than magnitude %.1f saturate in %s.", a.Saturates.Value, words.Exposure(a.Filter.Exposure))
}

func wellWords(a exposure.Advice) string {
	switch share := a.WellShare.Value; {
	case !a.WellShare.OK || share < muchOfTheWell:
		return ""
	case share >= 1:
		return fmt.Sprintf("The sky alone fills every pixel in %s; take shorter subs.", words.Exposure(a.Filter.Exposure))
	default:
		return fmt.Sprintf("The sky alone fills %s of every pixel; shorter subs leave the stars more room.", perCent(share))
	}
}

func signalWords(a exposure.Advice) string {
	if !a.Signal.OK {
		return ""
	}
	s := a.Signal.Value
	return fmt.Sprintf("In the %d × %s of %s that the kit wants the target's light, %s, reaches a signal to noise of %s in a square second of arc and %s in a pixel.",
		s.Subs, words.Exposure(a.Filter.Exposure), a.Filter.Name, brightness(s), ratio(s.PerArcsec2), ratio(s.PerPixel))
}

// brightness says how bright the target is taken to be, and by what.
func brightness(s exposure.Signal) string {
	if s.Source.ByLines() {
		return fmt.Sprintf("%.0f rayleigh in Hα %s", s.Source.Hα(), s.Source.Origin.Text())
	}
	return fmt.Sprintf("%.1f magnitudes per square second of arc %s", s.Source.SurfaceMag, s.Source.Origin.Text())
}

// ratio prints a signal to noise, small ones with a figure that says something.
func ratio(x float64) string {
	if x < 10 {
		return fmt.Sprintf("%.1f", x)
	}
	return fmt.Sprintf("%.0f", x)
}

// moonWords says what the Moon costs through the filter.
func moonWords(a exposure.Advice) string {
	if !a.MoonTakes.OK || !a.Sky.Value.MoonUp || a.MoonTakes.Value < 0.005 {
		return ""
	}
	return fmt.Sprintf("Through %s the Moon takes %s of what a minute is worth.", a.Filter.Name, perCent(a.MoonTakes.Value))
}

func runWords(a exposure.Advice) string {
	end := "the target's window closes"
	if a.Longest.ByLimit {
		end = "the rewind"
	}
	switch run := a.Longest.Run; {
	case run <= 0:
		return fmt.Sprintf("No sub fits any more before %s.", end)
	case run < a.Filter.Exposure:
		return fmt.Sprintf("Only %s fit before %s: %s no longer do.", words.ExposureAtMost(run), end, words.Exposure(a.Filter.Exposure))
	default:
		return fmt.Sprintf("A sub that begins now may last %s, until %s.", words.ExposureAtMost(run), end)
	}
}

func stillWords(a exposure.Advice) string {
	if !a.Longest.Still.OK {
		return ""
	}
	return fmt.Sprintf("If the derotator stood still, a star in the corner would trail by a pixel in %s.", words.ExposureAtMost(a.Longest.Still.Value))
}

// lacksWords names each figure that the kit's silence takes away, and what would give it.
func lacksWords(a exposure.Advice) string {
	var parts []string
	for _, each := range []struct {
		name  string
		lacks []string
	}{
		{"the sky with the Moon", a.Sky.Lacks}, {"the shortest sub under it", a.Shortest.Lacks},
		{"the shortest sub without Moon", a.ShortestDark.Lacks}, {"which stars saturate", a.Saturates.Lacks},
		{"the signal to noise", a.Signal.Lacks},
	} {
		if len(each.lacks) > 0 {
			parts = append(parts, fmt.Sprintf("%s (give %s)", each.name, strings.Join(each.lacks, ", ")))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return fmt.Sprintf("The kit does not give %s.", strings.Join(parts, "; "))
}

// perCent prints a share with as many digits as say something.
func perCent(share float64) string {
	if share < 0.01 {
		return words.Percent(share, 1)
	}
	return words.Percent(share, 0)
}
