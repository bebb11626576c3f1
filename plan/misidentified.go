package plan

import (
	"sort"

	"duskhand/sky"
	"duskhand/sky/catalog"
)

// LargestTilt is by how much no mount leans that one would image with. Our choice.
const LargestTilt = 15 * sky.Degree

// What an honest set of sights keeps to. Centring is good to arcminutes and the axes of a decent mount are
// square to a few; a wrong star is wrong by degrees.
const (
	honestResidual = 10 * sky.Arcminute // rms over the sights, or 3σ where a sight is worse than usual
	lowestTaken    = 3 * sky.Degree     // nobody centres a star lower than that
)

// Suspect is one way in which the sights could be right after all: that star instead of the one named.
type Suspect struct {
	Sight int            // whose star it was not, counted from 0
	Taken catalog.Object // the star that was centred instead
	Other int            // when the names of two sights were exchanged, the second of them; otherwise Sight
	Fit   AxisFit        // with the stars as they then would be

	cost float64 // −2 log of how likely, up to a constant
}

// Suspicion is what there is to say of sights that can't all be of the stars they are named for.
type Suspicion struct {
	Fit      AxisFit   // of the sights as named
	Sight    int       // the one that is probably wrong, −1 when it can't be told
	Suspects []Suspect // best first; empty when no candidate explains the sights
	Clear    bool      // three sights or more, and the first suspect at least five times as likely as the next
	Names    []string  // of the sights; none of the zero Suspicion
}

// Misidentified tells whether a star was probably taken for another, and if so which and for which:
// every sight in turn is given to every candidate, and the change that brings the residual back to
// arcminutes, with a tilt below 15°, is the suspect. ok is false when the sights are honest, or too poor
// to be fitted at all, which FitAxis says in words.
//
// Two sights show a wrong star by its separation from the other: one in some hundreds passes by chance, and
// swapped names pass when the two stand alike. A mistyped readout looks like a wrong star among two, so that
// nothing is clear there. Three show more: with three, the sight without which the
// other two agree is named even when no candidate explains it.
// Valid:  one wrong star, or two exchanged; candidates as from catalog.Stars. Planets are no candidates.
func Misidentified(frame *sky.Frame, sights []Sight, how Sighting, candidates []catalog.Object) (suspicion Suspicion, ok bool) {
	fit, err := FitAxis(frame, sights, how)
	if err != nil || honest(fit, sights, how) {
		return Suspicion{}, false
	}
	s := Suspicion{Fit: fit, Sight: -1}
	for i, sight := range sights {
		s.Names = append(s.Names, sight.called(i))
	}
	search := search{frame: frame, sights: sights, how: how, seen: see(frame, sights, how)}
	s.Suspects = append(search.substituted(candidates), search.exchanged()...)
	sort.SliceStable(s.Suspects, func(i, j int) bool { return s.Suspects[i].cost < s.Suspects[j].cost })
	s.Clear = len(sights) > 2 && s.clear()
	s.Sight = s.oddOneOut()
	if s.Sight < 0 {
		s.Sight = search.leftOut()
	}
	return s, true
}

// honest tells whether a fit is as good and as upright as right stars make it.
func honest(fit AxisFit, sights []Sight, how Sighting) bool {
	allowed := honestResidual
	for _, sight := range sights {
		allowed = max(allowed, 3*centring(sight, how))
	}
	return fit.RMS <= allowed && fit.Axis.Tilt <= LargestTilt
}

// fiveTimes is 2 ln 5: the difference in cost that makes one suspect five times as likely as another.
const fiveTimes = 3.2

func (s Suspicion) clear() bool {
	return len(s.Suspects) == 1 || len(s.Suspects) > 1 && s.Suspects[1].cost-s.Suspects[0].cost >= fiveTimes
}

// oddOneOut returns the sight that all likely suspects agree on, or −1.
func (s Suspicion) oddOneOut() int {
	if len(s.Suspects) == 0 || s.Suspects[0].Other != s.Suspects[0].Sight {
		return -1
	}
	for _, suspect := range s.Suspects {
		if suspect.cost-s.Suspects[0].cost < fiveTimes && suspect.Sight != s.Suspects[0].Sight {
			return -1
		}
	}
	return s.Suspects[0].Sight
}
