package command

import (
	"bytes"
	"fmt"

	"duskhand/plan"
	"duskhand/plan/choose"
	"duskhand/plan/light"
	"duskhand/sky"
	"duskhand/sky/words"
	"duskhand/ui/say"
)

// moonText gives rise and set in the order in which they happen, and how bright it is.
func moonText(night *plan.Night, local words.Wall) string {
	rise, set := "rises "+local.Event(night.Moonrise), "sets "+local.Event(night.Moonset)
	first, second := rise, set
	if night.Moonset.OK && (!night.Moonrise.OK || night.Moonset.At.Before(night.Moonrise.At)) {
		first, second = set, rise
	}
	moon := moonAtMidnight(night)
	return fmt.Sprintf("%s, %s; %s lit, magnitude %s", first, second, words.Percent(moon.Illuminated, 0),
		words.Number(light.MoonMagnitude(light.PhaseAngle(moon)), 1))
}

// moonAtMidnight returns the Moon in the middle of the night, for how bright it is.
func moonAtMidnight(night *plan.Night) sky.Moon {
	return night.Frame.Moon(night.Span.From.Add(night.Span.Length() / 2))
}

// writeMoon writes what the Moon does to a target while it can be used.
func writeMoon(out *bytes.Buffer, p planned, t plannedTarget, local words.Wall) {
	if len(t.runs.Windows) == 0 {
		return
	}
	moon, through := p.moons.MoonOn(t.target, t.runs.Windows)
	if moon.Up == 0 {
		line(out, "  Moon", "down all the while")
		return
	}
	text := fmt.Sprintf("up for %s of it, %s away at the nearest", words.Lasting(moon.Up), words.Degrees(moon.Nearest, 0))
	if moon.Rises.OK {
		text += ", rises " + local.Minute(moon.Rises.At)
	}
	if moon.Sets.OK {
		text += ", sets " + local.Minute(moon.Sets.At)
	}
	most := 0.0
	for _, t := range through {
		most = max(most, t.MoonTakes)
	}
	line(out, "  Moon", "%s; %s", text, say.MoonCosts(through, most))
}

// writeUnsuited writes which of the kit's filters hardly suit a target.
func writeUnsuited(out *bytes.Buffer, p planned, t plannedTarget) {
	if little := say.Unsuited(p.moons.Unsuited(t.target)); little != "" {
		line(out, "  Filters", "%s", little)
	}
}

// moonOnJSON is what the Moon does to a target in its windows.
type moonOnJSON struct {
	moonLight
	Through []throughJSON `json:"through" doc:"the filters that suit the target, or that it has of its own"`
}

func moonOnOf(moon choose.Moon, through []choose.Through) moonOnJSON {
	j := moonOnJSON{moonLightOf(moon), []throughJSON{}}
	for _, t := range through {
		j.Through = append(j.Through, throughOf(t))
	}
	return j
}

func moonLightOf(moon choose.Moon) moonLight {
	j := moonLight{Up: whole(moon.Up), Lit: thousandths(moon.Illuminated)}
	if moon.Up > 0 {
		j.Nearest = pointer(rounded(moon.Nearest, 1))
	}
	return j
}

func throughOf(t choose.Through) throughJSON {
	return throughJSON{t.Filter, thousandths(t.Suits), thousandths(t.Height), thousandths(t.MoonTakes), t.Guessed}
}
