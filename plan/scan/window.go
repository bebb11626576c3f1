package scan

import (
	"time"

	"duskhand/plan"
	"duskhand/sky"
)

// rooms is how far each condition is from being violated, negative when it is. The first two say whether the
// target is clear, the others whether it can be followed.
type rooms [5]float64

// bounds names what the rooms stand for.
func bounds() [5]plan.Bound {
	return [5]plan.Bound{plan.ByFloor, plan.ByHorizon, plan.ByKeyhole, plan.ByAzimuthRate, plan.ByDerotatorRate}
}

const clearance = 2 // rooms before it are about being clear

// rooms are those of plan.Course: floor airless, horizon profile with refraction, the rest about the axis.
func (s *Sky) rooms(d sky.Direction) (r rooms) {
	place := d.Horizontal()
	r[0] = float64(place.Altitude - s.Kit.Mount.Floor)
	r[1] = float64(place.Altitude - s.skyline)
	if r[1] < 0 { // only then what stands at this azimuth matters, and refraction
		r[1] = float64(place.Altitude + s.air.Refraction(place.Altitude) - s.Kit.Horizon.At(place.Azimuth))
	}
	r[2] = float64(s.Kit.Mount.Ceiling - (90*sky.Degree - d.Separation(s.nominal) + s.radius)) // for the nearest axis
	r[3] = left(s.Kit.Mount.LargestAzimuthRate)(sky.AzimuthRate(s.pole, d, s.nominal))
	r[4] = left(s.Kit.Derotator.LargestRate)(sky.FieldRate(s.pole, d, s.nominal))
	return r
}

func left(largest sky.Rate) func(rate sky.Rate, ok bool) float64 {
	return func(rate sky.Rate, ok bool) float64 {
		if !ok {
			return -float64(largest)
		}
		return float64(largest) - float64(sky.Angle(rate).Abs())
	}
}

// worst returns the least of the first so many rooms.
func (r rooms) worst(of int) float64 {
	least := r[0]
	for _, room := range r[1:of] {
		least = min(least, room)
	}
	return least
}

// windowsOf finds where the conditions begin and cease to hold in one dark span.
func (p *Path) windowsOf(b block) {
	s := p.sky
	before := s.rooms(p.directions[b.first])
	open := plan.Window{Span: plan.Span{From: b.From}, OpensAfter: s.edge(b.From)}
	clear := plan.Span{From: b.From}
	for i := b.first + 1; i <= b.last; i++ {
		here := s.rooms(p.directions[i])
		if at, _, rises, passes := s.pass(before, here, i, clearance); passes && rises {
			clear.From = at
		} else if passes {
			p.Clear = append(p.Clear, plan.Span{From: clear.From, To: at})
		}
		if at, by, rises, passes := s.pass(before, here, i, len(here)); passes && rises {
			open = plan.Window{Span: plan.Span{From: at}, OpensAfter: by}
		} else if passes {
			p.close(open, at, by, i)
		}
		before = here
	}
	if before.worst(clearance) >= 0 {
		p.Clear = append(p.Clear, plan.Span{From: clear.From, To: b.To})
	}
	if before.worst(len(before)) >= 0 {
		p.close(open, b.To, s.edge(b.To), b.last)
	}
}

// edge says what an end of a dark span is: dusk or dawn, or the noon that bounds a night without them.
func (s *Sky) edge(at time.Time) plan.Bound {
	const half = 12 * time.Hour // a frame's middle is midnight
	if middle := s.frame.Middle(); at.Equal(middle.Add(-half)) || at.Equal(middle.Add(half)) {
		return plan.ByNight
	}
	return plan.ByDarkness
}

func (p *Path) close(w plan.Window, at time.Time, by plan.Bound, sample int) {
	w.To, w.ClosesBefore = at, by
	if by == plan.ByHorizon {
		w.Obstruction = p.sky.Kit.Horizon.ObstructionAt(p.directions[sample].Horizontal().Azimuth)
	}
	p.Windows = append(p.Windows, w)
	p.reached = append(p.reached, reach{})
}

// pass returns where between sample i−1 and i the first so many rooms begin or cease all to be positive, and
// which of them was the last to come or the first to go.
func (s *Sky) pass(before, here rooms, i, of int) (at time.Time, by plan.Bound, rises, passes bool) {
	was, is := before.worst(of) >= 0, here.worst(of) >= 0
	if was == is {
		return time.Time{}, 0, false, false
	}
	share := 0.0
	if was {
		share = 1
	}
	for c := range of {
		crossing := before[c] / (before[c] - here[c])
		switch {
		case (before[c] >= 0) == (here[c] >= 0):
		case is && crossing >= share, was && crossing <= share:
			share, by = crossing, bounds()[c]
		}
	}
	from, to := s.times[i-1], s.times[i]
	return from.Add(time.Duration(share * float64(to.Sub(from)))), by, is, true
}
