package scan

import (
	"math"
	"time"

	"duskhand/plan"
	"duskhand/sky"
)

// field is χ at one sample, unwrapped within its window, and how far it lies from there for an axis at the
// end of either half axis of the uncertainty's ellipse. For the axes between it is taken as linear: over the
// whole ellipse χ then lies within ±√(east² + north²).
type field struct{ chi, east, north sky.Angle }

// reach is χ at the samples of one window, one beyond either edge included.
type reach struct {
	first  int
	fields []field
}

// reach returns χ through a window, computed when first asked for.
func (p *Path) reach(window int) *reach {
	r := &p.reached[window]
	if r.fields != nil {
		return r
	}
	s, w := p.sky, p.Windows[window]
	b := s.blockAt(w.From)
	r.first = max(b.first, b.after(w.From)-1)
	last := min(b.last, b.after(w.To))
	r.fields = make([]field, 0, last-r.first+1)
	before := field{}
	for i := r.first; i <= last; i++ {
		before = s.field(p.directions[i], before)
		r.fields = append(r.fields, before)
	}
	return r
}

func (s *Sky) field(d sky.Direction, before field) field {
	chi, ok := sky.FieldAngle(s.pole, d, s.nominal)
	if !ok {
		return before
	}
	f := field{chi: before.chi + (chi - before.chi).Signed()}
	if s.uncertain {
		f.east, f.north = s.half(d, 0), s.half(d, 1)
	}
	return f
}

// half returns half the difference of χ between two opposite axes.
func (s *Sky) half(d sky.Direction, pair int) sky.Angle {
	one, _ := sky.FieldAngle(s.pole, d, s.pairs[pair][0])
	other, _ := sky.FieldAngle(s.pole, d, s.pairs[pair][1])
	return (one - other).Signed() / 2
}

// at returns χ at an instant within the window.
func (p *Path) at(window int, t time.Time) field {
	r := p.reach(window)
	b := p.sky.blockAt(p.Windows[window].From)
	along := float64(t.Sub(p.sky.times[b.first]))/float64(b.step) + float64(b.first-r.first)
	i := max(0, min(int(along), len(r.fields)-2))
	return between(r.fields[i], r.fields[i+1], sky.Angle(along-float64(i)))
}

func between(a, b field, share sky.Angle) field {
	return field{a.chi + share*(b.chi-a.chi), a.east + share*(b.east-a.east), a.north + share*(b.north-a.north)}
}

// swing is the range that the mechanical angle has covered since a start, over all axes.
type swing struct{ low, high sky.Angle }

// guard is what plan.PlannedRun leaves of the travel where the field turns back in a run.
const guard = 0.1 * sky.Degree

// past returns how much further than the travel the swing is, for a stage that starts where it lasts longest.
func (s swing) past(travel sky.Angle) sky.Angle {
	if s.low < 0 && s.high > 0 {
		return s.high - s.low - travel + 2*guard
	}
	return s.high - s.low - travel
}

// stretch returns the longest run from an instant within a window.
func (p *Path) stretch(window int, from, until time.Time) plan.Stretch {
	d := p.sky.Kit.Derotator
	if d.StopsAnywhere {
		s, end := p.swing(window, from, until, func(s swing) sky.Angle { return s.past(d.Travel()) })
		start := (d.Min - s.low + d.Max - s.high) / 2
		spent := end.Before(until)
		switch {
		case spent && s.low == 0:
			start = d.Min
		case spent && s.high == 0:
			start = d.Max
		}
		return plan.Stretch{Start: max(d.Min, min(start, d.Max)), Until: end, Spent: spent}
	}
	_, atMin := p.swing(window, from, until, func(s swing) sky.Angle { return max(-s.low, s.high-d.Travel()) })
	_, atMax := p.swing(window, from, until, func(s swing) sky.Angle { return max(s.high, -s.low-d.Travel()) })
	if atMax.After(atMin) {
		return plan.Stretch{Start: d.Max, Until: atMax, Spent: atMax.Before(until)}
	}
	return plan.Stretch{Start: d.Min, Until: atMin, Spent: atMin.Before(until)}
}

// swing grows from an instant on until past says that it is further than allowed, or until.
func (p *Path) swing(window int, from, until time.Time, past func(swing) sky.Angle) (s swing, end time.Time) {
	r, sense := p.reach(window), sky.Angle(p.sky.Kit.Derotator.Sense)
	start, before, at := p.at(window, from), past(swing{}), from
	b := p.sky.blockAt(p.Windows[window].From)
	for i := b.after(from); ; i++ {
		here, t := field{}, until
		if i-r.first < len(r.fields) && p.sky.times[i].Before(until) {
			here, t = r.fields[i-r.first], p.sky.times[i]
		} else {
			here = p.at(window, until)
		}
		n := sense * (here.chi - start.chi)
		rim := sky.Angle(math.Hypot(float64(here.east-start.east), float64(here.north-start.north)))
		grown := swing{min(s.low, n-rim), max(s.high, n+rim)}
		now := past(grown)
		if now > 0 {
			share := max(0, -before/(now-before))
			s.low, s.high = s.low+share*(grown.low-s.low), s.high+share*(grown.high-s.high)
			return s, at.Add(time.Duration(float64(share) * float64(t.Sub(at))))
		}
		if s, before, at = grown, now, t; !t.Before(until) {
			return s, until
		}
	}
}
