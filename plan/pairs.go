package plan

import (
	"time"

	"duskhand/sky"
)

// Pair is two stars to align on, in the order to take them: the second is the one to stay on for the
// focus, or the one nearer the target.
type Pair struct {
	First, Second *Candidate
	Separation    sky.Angle
	Pointing      sky.Angle // rms error to expect at the target, both axes together, for the kit's centring error
	Roll          sky.Angle // rms turn about the line of sight there
	PerArcminute  float64   // arcminutes of Pointing for each arcminute of centring error
	RollPerArcmin float64   // arcminutes of Roll likewise
	ToFirst       sky.Angle // from the target
	ToSecond      sky.Angle
	SecondFocuses bool       // the second will do as focus star of the main telescope too
	Leaving       *Candidate // the one of the two that leaves first, nil if both stay for hours
	Reason        string     // why it stands where it does, one sentence
}

// Leaves returns when the first of the two ceases to be fit.
func (p Pair) Leaves() Leaving {
	if p.Leaving == nil {
		return Leaving{}
	}
	return p.Leaving.Leaves
}

// Pairs returns the pairs of fit stars whose separation lies in the kit's window, the best for a target in
// the direction aim first, at most so many; 0 for all.
//
// Worth:  stars with a name of the IAU, where the kit does not say which stars are known; then the pointing
// error to expect at the target; of those within 5 % of the best left, the pair clear of named obstructions,
// then the brighter one, then the one with less roll.
// Frame:  aim is east, north, up, where the target will be used: Course.Aim gives it.
// Source: AttitudeCovariance for both errors, with CentringError for each star.
func (s *StarSky) Pairs(aim sky.Direction, atMost int) []Pair {
	all := s.rank(aim)
	if atMost > 0 && len(all) > atMost {
		all = all[:atMost]
	}
	pairs := make([]Pair, len(all))
	focuses := s.focusing()
	for i, r := range all {
		pairs[i] = s.pairOf(r, aim, focuses)
		pairs[i].Reason = s.pairReason(pairs[i], pairs[0])
	}
	return pairs
}

// focusing tells of each fit star whether it suits the focus of the main telescope too.
func (s *StarSky) focusing() []bool {
	all, main := make([]bool, len(s.Fit)), MainTelescope(s.Kit.Optics)
	for i, c := range s.Fit {
		all[i] = s.focuses(c, main)
	}
	return all
}

func (s *StarSky) rank(aim sky.Direction) []ranked {
	information := make([]Covariance, len(s.Fit))
	for i, c := range s.Fit {
		information[i] = Centring{c.Direction, c.Centring}.information()
	}
	beside := s.besideNamed()
	all := make([]ranked, 0, len(s.Fit)*(len(s.Fit)-1)/2)
	for i := range s.Fit {
		for j := i + 1; j < len(s.Fit); j++ {
			r := ranked{i: int32(i), j: int32(j), separation: s.Fit[i].Direction.Separation(s.Fit[j].Direction)}
			if r.separation < s.Kit.Stars.Nearest || r.separation > s.Kit.Stars.Farthest {
				continue
			}
			p := information[i].plus(information[j]).inverse()
			r.pointing, r.rolls = p.Pointing(aim), p.Roll(aim)
			for _, k := range []int{i, j} {
				r.unnamed += one(len(s.Kit.Stars.Known) == 0 && !s.Fit[k].Star.HasName())
				r.beside += one(beside[k])
				r.fainter = max(r.fainter, s.Fit[k].Star.Magnitude.Value)
			}
			all = append(all, r)
		}
	}
	ordered(all)
	return all
}

// one counts what holds.
func one(holds bool) int {
	if holds {
		return 1
	}
	return 0
}

func (s *StarSky) pairOf(r ranked, aim sky.Direction, focuses []bool) Pair {
	p := Pair{First: s.Fit[r.i], Second: s.Fit[r.j], Separation: r.separation, Pointing: r.pointing, Roll: r.rolls,
		PerArcminute: float64(r.pointing / s.Kit.Stars.Centring), RollPerArcmin: float64(r.rolls / s.Kit.Stars.Centring)}
	p.ToFirst, p.ToSecond = aim.Separation(p.First.Direction), aim.Separation(p.Second.Direction)
	firstFocuses, secondFocuses := focuses[r.i], focuses[r.j]
	if firstFocuses && !secondFocuses || firstFocuses == secondFocuses && p.ToFirst < p.ToSecond {
		p.First, p.Second, p.ToFirst, p.ToSecond = p.Second, p.First, p.ToSecond, p.ToFirst
		secondFocuses = firstFocuses
	}
	p.SecondFocuses = secondFocuses
	for _, c := range []*Candidate{p.First, p.Second} {
		if c.Leaves.OK && (p.Leaving == nil || c.Leaves.At.Before(p.Leaving.Leaves.At)) {
			p.Leaving = c
		}
	}
	return p
}

// Aim returns where the target stands when it is first used from an instant on, and when that is: now if
// it can be used now, else at the start of its next window, else now for want of a better.
func (c *Course) Aim(from time.Time) (sky.Direction, time.Time) {
	at := from
	for _, w := range c.Windows() {
		if w.To.After(from) {
			if w.From.After(from) {
				at = w.From
			}
			break
		}
	}
	return c.track.At(at), at
}
