package say

import (
	"fmt"
	"math"
	"strings"
	"time"

	"duskhand/plan"
	"duskhand/plan/choose"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/words"
)

// Choice says what makes a target worth what it is tonight, in one line of reasons, the name aside.
func Choice(c choose.Choice, k kit.Kit) string {
	var parts []string
	for _, f := range c.Factors {
		if said := Factor(c, f, k); said != "" {
			parts = append(parts, said)
		}
	}
	return strings.Join(parts, "; ")
}

// Factor says why one of a choice's factors leaves what it does; "" where there is nothing to say.
func Factor(c choose.Choice, f choose.Factor, k kit.Kit) string {
	if !f.Told {
		return ""
	}
	switch f.Of {
	case choose.ByTurning:
		return turns(c, f, k)
	case choose.ByHeight:
		return fmt.Sprintf("highest %s at %s, worth %s of the zenith", words.Degrees(c.Highest, 0), words.Minute(c.HighestAt, k.Site.Zone), words.Percent(f.Share, 0))
	case choose.ByMoon:
		return moonlight(c, f, k)
	case choose.ByFraming:
		return fit(c.Size)
	case choose.ByGoal:
		return leftToDo(c)
	}
	return shines(c)
}

// turns also says that a target is not up.
func turns(c choose.Choice, f choose.Factor, k kit.Kit) string {
	if c.NotUp != choose.IsUp {
		return notUp(c, k)
	}
	var up []string
	for _, w := range c.Windows {
		up = append(up, fmt.Sprintf("%s to %s", words.MinuteFrom(w.From, k.Site.Zone), words.Minute(w.To, k.Site.Zone)))
	}
	said := fmt.Sprintf("up %s in the dark, %s, ", words.Lasting(c.Up), strings.Join(up, " and "))
	lost := words.Percent(1-f.Share, 0)
	switch {
	case c.Working == 0:
		said += "but no sub fits"
	case c.OneRun:
		said += "in one run"
	case c.Rewinds == 0:
		said += "no rewind, waiting costs " + lost
	case c.Rewinds == 1:
		said += "1 rewind costs " + lost
	default:
		said += fmt.Sprintf("%d rewinds cost %s", c.Rewinds, lost)
	}
	if c.Keyhole >= time.Minute {
		said += ", the keyhole takes " + words.Lasting(c.Keyhole)
	}
	return said
}

// notUp says why there is no window, or none any more.
func notUp(c choose.Choice, k kit.Kit) string {
	switch c.NotUp {
	case choose.NeverDark:
		return fmt.Sprintf("the Sun never sinks %s below the horizon", words.Degrees(-k.DarkSunFor(c.Target), 0))
	case choose.NoMore:
		return "no more tonight: " + over(c.Over, k)
	case choose.InKeyhole:
		return "in the keyhole all the time that it is up in the dark"
	}
	return neverAbove(k)
}

func neverAbove(k kit.Kit) string {
	return fmt.Sprintf("never above %s and clear of the horizon in the dark", words.Degrees(k.Mount.Floor, 0))
}

// over says what ended a last window.
func over(last plan.Window, k kit.Kit) string {
	at := words.Minute(last.To, k.Site.Zone)
	switch last.ClosesBefore {
	case plan.ByFloor:
		return fmt.Sprintf("below %s since %s", words.Degrees(k.Mount.Floor, 0), at)
	case plan.ByHorizon:
		if last.Obstruction != "" {
			return fmt.Sprintf("behind the horizon (%s) since %s", last.Obstruction, at)
		}
		return "behind the horizon since " + at
	case plan.ByDarkness:
		return "twilight since " + at
	case plan.ByKeyhole:
		return "into the keyhole at " + at
	case plan.ByAzimuthRate:
		return "too fast for the mount at " + at
	case plan.ByDerotatorRate:
		return "too fast for the derotator at " + at
	}
	return "over at " + at
}

// moonlight says what the Moon does while the target is up, and what that costs.
func moonlight(c choose.Choice, f choose.Factor, k kit.Kit) string {
	said := moon(c.Moon, func(t time.Time) string { return words.Minute(t, k.Site.Zone) })
	if lost := 1 - f.Share; c.Moon.Up > 0 && lost >= 0.005 {
		said += ", " + MoonCosts(c.Through, lost)
	}
	return said
}

// moon says how bright the Moon is, when it is up while the target is, and how near it comes: "Moon 96 % lit, up all the
// while, 33° away at the nearest". clock prints an instant.
func moon(m choose.Moon, clock func(time.Time) string) string {
	if m.Up == 0 {
		return "no Moon"
	}
	var up []string
	if m.Rises.OK {
		up = append(up, "rises "+clock(m.Rises.At))
	}
	if m.Sets.OK {
		up = append(up, "sets "+clock(m.Sets.At))
	}
	if len(up) == 0 {
		up = []string{"up all the while"}
	}
	return fmt.Sprintf("Moon %s lit, %s, %s away at the nearest", words.Percent(m.Illuminated, 0), strings.Join(up, ", "), words.Degrees(m.Nearest, 0))
}

// worthOwnWords is by how much filters must differ in what the Moon takes for each to be told. Our choice.
const worthOwnWords = 0.05

// MoonCosts says what the Moon takes, of each filter where they differ, else of all together: lost.
func MoonCosts(through []choose.Through, lost float64) string {
	least, most := 1.0, 0.0
	for _, t := range through {
		least, most = math.Min(least, t.MoonTakes), math.Max(most, t.MoonTakes)
	}
	if most-least < worthOwnWords {
		return "costs " + words.Percent(lost, 0)
	}
	var parts []string
	for _, t := range through {
		parts = append(parts, fmt.Sprintf("%s through %s", words.Percent(t.MoonTakes, 0), t.Filter))
	}
	return "costs " + strings.Join(parts, ", ")
}

// fit says how an object fits the chip.
func fit(s choose.Size) string {
	if len(s.Lacks) > 0 {
		return fmt.Sprintf("the kit lacks %s: give it to see what fits; times and runs are answered without", strings.Join(s.Lacks, ", "))
	}
	field := fmt.Sprintf("a field of %s × %s", words.Degrees(s.Width, 1), words.Degrees(s.Height, 1))
	if max(s.Width, s.Height) < 2*sky.Degree {
		field = fmt.Sprintf("a field of %s × %s", words.Arcminutes(s.Width, 0), words.Arcminutes(s.Height, 0))
	}
	size := words.Size(s.Object.Major)
	switch s.Fit {
	case choose.Tiny:
		return size + " is tiny in " + field
	case choose.Small:
		return size + " is small in " + field
	case choose.Fits:
		return size + " fits " + field
	case choose.Larger:
		return fmt.Sprintf("%s is larger than %s: one shows %s, all needs a mosaic of %d × %d", size, field, words.Percent(s.Shown, 0), s.Columns, s.Rows)
	}
	return "its size is not known; times and runs are answered without"
}

// leftToDo says what earlier nights have left to do.
func leftToDo(c choose.Choice) string {
	if c.Goal.Left <= 0 {
		return "complete: " + words.Lasting(c.Goal.Taken) + " taken"
	}
	said := words.Lasting(c.Goal.Left) + " wanted"
	if c.Goal.Taken > 0 {
		said = words.Lasting(c.Goal.Left) + " left of what is begun"
	}
	if c.Spare {
		said += ", less than the night gives"
	}
	return said
}

// shines says which filters are not made for a target's light.
func shines(c choose.Choice) string {
	var parts []string
	for _, t := range c.Through {
		if percent := math.Round(100 * t.Suits); percent < 100 {
			parts = append(parts, fmt.Sprintf("%s gives %.0f %%", t.Filter, percent))
		}
	}
	said := "shines in all colours: a luminance filter would do better"
	if c.ByLines {
		said = "is a glowing gas: a narrow filter for its line would do better"
	}
	return fmt.Sprintf("%s (%s of that)", said, strings.Join(parts, ", "))
}

// Unsuited says what becomes of filters that hardly suit a target, and what would be right; "" for none.
func Unsuited(filters []choose.Through) string {
	var parts []string
	for _, f := range filters {
		gives := words.Percent(f.Suits, 0)
		if f.Suits < 0.005 {
			gives = "less than 1 %"
		}
		parts = append(parts, f.Filter+" gives "+gives)
	}
	if len(parts) == 0 {
		return ""
	}
	return words.List(parts) + " of what a filter for its light would; [[target.filter]] gives the target filters of its own"
}
