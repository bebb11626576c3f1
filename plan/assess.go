package plan

import (
	"time"

	"duskhand/sky"
)

// sunSafe is how near the Sun no telescope is sent while it is up: a wide berth for a slew that goes
// astray. Our choice.
const sunSafe = 30 * sky.Degree

// How a star's way is followed: finely while it must stay fit, then in longer steps. Between samples its
// path is straight enough to be measured against the horizon profile point by point: 0.5′ at most.
const (
	fineStep   = time.Minute
	coarseStep = 4 * time.Minute
	followed   = 4 * time.Hour
)

// spot is where a star stands at an instant.
type spot struct {
	at    time.Time
	d     sky.Direction
	place sky.Horizontal
	about sky.Angle
}

func (s *StarSky) spotOf(d sky.Direction, at time.Time) spot {
	return spot{at, d, d.Horizontal(), 90*sky.Degree - d.Separation(s.axis)}
}

// assess looks at one star, its neighbours left aside. The candidate in the result is filled in either case.
func (s *StarSky) assess(l *listed, w AltitudeLimits) (r Rejected, fit bool) {
	fixed := s.frame.Fix(l.star.Star)
	now, end := s.spotOf(s.frame.Direction(fixed, s.At), s.At), s.frame.Direction(fixed, s.until)
	r = Rejected{Limits: w, Sun: s.Sun}
	r.Candidate = Candidate{Star: *l.star, Place: now.place, Direction: now.d, AboutAxis: now.about,
		Rising: s.frame.Direction(fixed, s.At.Add(fineStep)).Z > now.d.Z}
	if apart := min(now.d.Separation(s.suns[0]), end.Separation(s.suns[1])); s.sunUp && apart < sunSafe {
		r.Unfit, r.Apart = NearSun, apart
		return r, false
	}
	if by, ok := s.unmet(now, w); !ok {
		r.Unfit, r.Obstruction = by, s.Kit.Horizon.ObstructionAt(now.place.Azimuth)
		return r, false
	}
	if l.star.Magnitude.Value > s.FaintestMag {
		r.Unfit = TooFaint
		return r, false
	}
	if apart, near := s.moonlit(now.d, end); near {
		r.Unfit, r.Apart = NearMoon, apart
		return r, false
	}
	r.Centring = CentringError(s.Kit.Stars.Centring, now.place.Altitude)
	r.Leaves = s.leaving(fixed, now, w, s.At.Add(max(followed, s.Kit.Stars.StayFine)))
	if r.Leaves.OK && !r.Leaves.At.After(s.until) {
		r.Unfit, r.In, r.Obstruction = r.Leaves.By, r.Leaves.At.Sub(s.At), r.Leaves.Obstruction
		return r, false
	}
	return r, true
}

// unmet returns which limit of its place a star does not keep; ok is true when it keeps all.
func (s *StarSky) unmet(p spot, w AltitudeLimits) (by Unfit, ok bool) {
	switch {
	case p.place.Altitude < 0:
		return Down, false
	case p.about < w.Lowest || p.place.Altitude < w.LeastTrue:
		return TooLow, false
	case p.about > w.Highest:
		return TooHigh, false
	case s.clearance(p) < 0:
		return Obstructed, false
	}
	return 0, true
}

// clearance is how far a star stands above the horizon profile, which was measured by eye, so that
// refraction helps it over.
func (s *StarSky) clearance(p spot) sky.Angle {
	return s.apparent(p.place.Altitude) - s.Kit.Horizon.At(p.place.Azimuth)
}

func (s *StarSky) apparent(airless sky.Angle) sky.Angle { return airless + s.air.Refraction(airless) }

// moonlit tells whether a star is in the Moon's glare at the instant or at the end of the time that it
// must stay fit. A Moon below the horizon glares on nobody.
func (s *StarSky) moonlit(now, end sky.Direction) (apart sky.Angle, near bool) {
	apart = 180 * sky.Degree
	if s.Moon.Altitude > sky.SunAtHorizon {
		apart = now.Separation(s.Moon.Direction())
	}
	if s.moonEnd.Horizontal().Altitude > sky.SunAtHorizon {
		apart = min(apart, end.Separation(s.moonEnd))
	}
	return apart, apart < s.Kit.Stars.MoonGlare
}

// leaving follows a star that is fit now until it is no more, or to last.
func (s *StarSky) leaving(fixed sky.Fixed, now spot, w AltitudeLimits, last time.Time) Leaving {
	for before := now; before.at.Before(last); {
		step := coarseStep
		if before.at.Before(s.until) {
			step = min(fineStep, s.until.Sub(before.at))
		}
		at := before.at.Add(step)
		after := s.spotOf(s.frame.Direction(fixed, at), at)
		if leaves, gone := s.between(fixed, before, after, w); gone {
			return leaves
		}
		before = after
	}
	return Leaving{}
}

// between finds whether a star leaves between two spots, of which the first is fit.
func (s *StarSky) between(fixed sky.Fixed, before, after spot, w AltitudeLimits) (Leaving, bool) {
	if point, at, hit := s.passes(before, after); hit {
		clear := func(t time.Time) sky.Angle { return s.clearance(s.spotOf(s.frame.Direction(fixed, t), t)) }
		if clear(before.at) >= 0 && clear(at) < 0 {
			at = sky.Root(clear, before.at, at)
		}
		return Leaving{sky.Event{At: at, OK: true}, Obstructed, s.skyline[point].Name}, true
	}
	by, ok := s.unmet(after, w)
	if ok {
		return Leaving{}, false
	}
	room := func(t time.Time) sky.Angle {
		p := s.spotOf(s.frame.Direction(fixed, t), t)
		switch by {
		case TooLow, Down:
			return min(p.about-w.Lowest, p.place.Altitude-w.LeastTrue)
		case TooHigh:
			return w.Highest - p.about
		}
		return s.clearance(p)
	}
	leaves := Leaving{Event: sky.Event{At: after.at, OK: true}, By: by}
	if room(before.at) >= 0 && room(after.at) < 0 {
		leaves.At = sky.Root(room, before.at, after.at)
	}
	if by == Obstructed {
		leaves.Obstruction = s.Kit.Horizon.ObstructionAt(s.frame.Direction(fixed, leaves.At).Horizontal().Azimuth)
	}
	return leaves, true
}

// passes finds the point of the horizon profile, between two spots, that stands above the star's way: a
// chimney may hide it for less than a step. It returns the first on that way.
func (s *StarSky) passes(before, after spot) (point int, at time.Time, hit bool) {
	across := (after.place.Azimuth - before.place.Azimuth).Signed()
	first := 2.0
	for i, p := range s.skyline {
		share := float64((p.Azimuth - before.place.Azimuth).Signed() / across)
		if across == 0 || share <= 0 || share >= 1 || share >= first {
			continue
		}
		altitude := before.place.Altitude + sky.Angle(share)*(after.place.Altitude-before.place.Altitude)
		if s.apparent(altitude) < p.Altitude {
			point, first, hit = i, share, true
		}
	}
	if !hit {
		return 0, time.Time{}, false
	}
	return point, before.at.Add(time.Duration(first * float64(after.at.Sub(before.at)))), true
}
