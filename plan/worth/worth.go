// Package worth says what a minute of a target's subs is worth through each of the kit's filters, over a night, and
// why their order is what it is.
package worth

import (
	"time"

	"duskhand/plan"
	"duskhand/plan/exposure"
	"duskhand/plan/kit"
	"duskhand/plan/light"
	"duskhand/sky"
)

// step is how far apart the instants are: the Moon and a target move by a degree in it.
const step = 4 * time.Minute

// Sequence returns the start of a target's sequence, with what its subs are worth that night, or without where the kit
// wants its filters to take turns as written.
func Sequence(night *plan.Night, target kit.Target) plan.Sequence {
	return With(plan.NewSequence(night.Kit.SubsFor(target)), night, target)
}

// With is Sequence for one that has begun.
func With(s plan.Sequence, night *plan.Night, target kit.Target) plan.Sequence {
	return s.By(Of(night, target))
}

// Of returns what subs of a target are worth, from the first dusk that is dark enough for it to the last dawn; nil where
// the order does not depend on it: the kit wants its filters as written, fewer than two are wanted, or it is never
// dark. It is the worth against the best conditions, times what the filter counts for.
//
// Error:  that of light.Moonlight and of light.TwilightColours, and of how bright the object is said to be.
// Source: light.Prospect.
func Of(night *plan.Night, target kit.Target) *plan.Worth {
	k, dark := night.Kit.For(target), night.DarkFor(target)
	if k.Subs.Order != kit.ByWorth || len(k.Subs.Wanted()) < 2 || len(dark) == 0 {
		return nil
	}
	within := plan.Span{From: dark[0].From, To: dark[len(dark)-1].To}
	w := &plan.Worth{From: within.From, Step: step, ByFilter: make([][]float64, len(k.Subs.Filters))}
	source, star := light.SourceOf(target.Object), night.Frame.Fix(target.Star)
	prospects := make([]light.Prospect, len(k.Subs.Filters))
	for i, f := range k.Subs.Filters {
		prospects[i] = light.NewProspect(light.Through(f, k.Site), source, k.Site, exposure.DetectorPhotons(k, f))
	}
	counts := counting(target, k.Subs, prospects)
	for t := within.From; t.Before(within.To.Add(step)); t = t.Add(step) {
		at := instantOf(night, star, t)
		for i, p := range prospects {
			w.ByFilter[i] = append(w.ByFilter[i], counts[i]*at.worth(p))
		}
	}
	return w
}

// counting returns by how much a minute through each filter counts: alike where the target has filters of its own; of
// those that serve all targets by how well they suit this one, against the one that does best. A galaxy's subs through
// Hα are then what is left out, or comes last.
func counting(target kit.Target, subs kit.Subs, prospects []light.Prospect) []float64 {
	counts, most := make([]float64, len(prospects)), 0.0
	for i, p := range prospects {
		if counts[i] = 1; len(target.Filters) == 0 {
			counts[i] = p.Suits
		}
		if subs.Filters[i].Count > 0 {
			most = max(most, counts[i])
		}
	}
	for i := range counts {
		if most > 0 {
			counts[i] /= most
		}
	}
	return counts
}

// instant is the sky about a target at one instant.
type instant struct {
	altitude, fromMoon, sun sky.Angle
	moon                    light.Moonlight
}

func instantOf(night *plan.Night, star sky.Fixed, t time.Time) instant {
	place, moon := night.Frame.Direction(star, t), night.Frame.Moon(t)
	return instant{
		altitude: place.Horizontal().Altitude, fromMoon: moon.Direction().Separation(place), sun: night.Frame.Sun(t).Altitude,
		moon: light.Moonlight{PhaseAngle: light.PhaseAngle(moon), MoonAltitude: moon.Altitude},
	}
}

func (i instant) worth(p light.Prospect) float64 {
	if i.altitude <= 0 {
		return 0
	}
	return p.Worth(i.altitude, p.View.Moonlit(p.View.Under(i.moon), i.altitude, i.fromMoon)+p.View.Twilit(i.sun))
}
