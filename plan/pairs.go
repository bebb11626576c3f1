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
	Beside        Beside     // how it compares with the best of its list
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
		pairs[i].Beside = besideOf(pairs[i], pairs[0])
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
			r, fit := s.weigh(s.Fit[i], s.Fit[j], information[i], information[j], aim)
			if !fit {
				continue
			}
			r.i, r.j = int32(i), int32(j)
			r.beside = counted(beside[i]) + counted(beside[j])
			all = append(all, r)
		}
	}
	ordered(all)
	return all
}

// counted is 1 for what holds.
func counted(holds bool) int {
	if holds {
		return 1
	}
	return 0
}

// weigh is worth, for two stars that the kit's window of separations lets be a pair.
func (s *StarSky) weigh(one, other *Candidate, known, also Covariance, aim sky.Direction) (r ranked, fit bool) {
	r.separation = one.Direction.Separation(other.Direction)
	if r.separation < s.Kit.Stars.Nearest || r.separation > s.Kit.Stars.Farthest {
		return r, false
	}
	return s.worth(one, other, known, also, aim), true
}

// worth returns what counts of a pair, without its places in Fit and what it stands beside, from what the centring of each star tells.
func (s *StarSky) worth(one, other *Candidate, known, also Covariance, aim sky.Direction) ranked {
	p := known.plus(also).inverse()
	r := ranked{separation: one.Direction.Separation(other.Direction), pointing: p.Pointing(aim), rolls: p.Roll(aim)}
	for _, c := range []*Candidate{one, other} {
		r.unnamed += counted(len(s.Kit.Stars.Known) == 0 && !c.Star.HasName())
		r.fainter = max(r.fainter, c.Star.Magnitude.Value)
	}
	return r
}

// pairIn returns a pair in the order given, without its reason.
func pairIn(r ranked, first, second *Candidate, centring sky.Angle, aim sky.Direction) Pair {
	p := Pair{First: first, Second: second, Separation: r.separation, Pointing: r.pointing, Roll: r.rolls,
		PerArcminute: float64(r.pointing / centring), RollPerArcmin: float64(r.rolls / centring)}
	p.ToFirst, p.ToSecond = aim.Separation(p.First.Direction), aim.Separation(p.Second.Direction)
	for _, c := range []*Candidate{p.First, p.Second} {
		if c.Leaves.OK && (p.Leaving == nil || c.Leaves.At.Before(p.Leaving.Leaves.At)) {
			p.Leaving = c
		}
	}
	return p
}

// pairOf puts the pair into the order in which to take it.
func (s *StarSky) pairOf(r ranked, aim sky.Direction, focuses []bool) Pair {
	first, second, firstFocuses, secondFocuses := s.Fit[r.i], s.Fit[r.j], focuses[r.i], focuses[r.j]
	if firstFocuses && !secondFocuses ||
		firstFocuses == secondFocuses && aim.Separation(first.Direction) < aim.Separation(second.Direction) {
		first, second, secondFocuses = second, first, firstFocuses
	}
	p := pairIn(r, first, second, s.Kit.Stars.Centring, aim)
	p.SecondFocuses = secondFocuses
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
