package plan

import (
	"slices"

	"duskhand/sky"
	"duskhand/sky/catalog"
)

// search tries other stars in the sights' places.
type search struct {
	frame  *sky.Frame
	sights []Sight
	how    Sighting
	seen   seen
}

// How likely a change is before one looks at the fit. All three are our choice: mounts put down by eye
// lean by some degrees; one takes a wrong star near the right one; and there are three times as many stars to
// each magnitude, so that a faint one fits by chance three times as often.
const (
	usualTilt     = 4 * sky.Degree
	usualMistake  = 20 * sky.Degree
	perMagnitude  = 2.2 // 2 ln 3
	exchangedCost = 2.0 // names exchanged: as likely as taking a star of first magnitude
)

// substituted returns the changes of one star for a candidate after which the sights are honest.
func (s search) substituted(candidates []catalog.Object) []Suspect {
	var suspects []Suspect
	for _, candidate := range candidates {
		fixed := s.frame.Fix(candidate.Star)
		for i, sight := range s.sights {
			over := s.frame.Direction(fixed, sight.At)
			if over.Z < lowestTaken.Sin() {
				continue
			}
			over = lifted(over, s.how.Air)
			fit, ok := s.with(i, over)
			if !ok {
				continue
			}
			far := float64(over.Separation(s.seen.over[i]) / usualMistake)
			cost := s.cost(fit) + far*far + perMagnitude*candidate.Magnitude.Value
			suspects = append(suspects, Suspect{Sight: i, Other: i, Taken: candidate, Fit: fit, cost: cost})
		}
	}
	return suspects
}

// with returns the fit with sight i at another place, and whether that is a way out: a star of its own,
// and the sights honest with it.
func (s search) with(i int, over sky.Direction) (AxisFit, bool) {
	changed := s.seen
	changed.over = slices.Clone(s.seen.over)
	changed.over[i] = over
	for j := range changed.over {
		if over.Separation(s.seen.over[j]) < nearestSights/10 {
			return AxisFit{}, false // the star named, or that of another sight
		}
	}
	// Two separations that differ by more than twice the residual allowed leave no fit honest: half of it
	// stays with each. Most candidates end here.
	if len(changed.over) == 2 && changed.misfit() > 3*max(honestResidual, 3*centring(s.sights[i], s.how)) {
		return AxisFit{}, false
	}
	if changed.checkGeometry(s.sights) != nil {
		return AxisFit{}, false
	}
	fit := changed.fit()
	return fit, honest(fit, s.sights, s.how)
}

// exchanged returns the exchanges of two names after which the sights are honest.
func (s search) exchanged() []Suspect {
	var suspects []Suspect
	for j := range s.sights {
		for i := range j {
			sights := slices.Clone(s.sights)
			sights[i].Star, sights[j].Star = sights[j].Star, sights[i].Star
			changed := see(s.frame, sights, s.how)
			if fit := changed.fit(); honest(fit, sights, s.how) {
				suspects = append(suspects, Suspect{Sight: i, Other: j, Fit: fit, cost: s.cost(fit) + exchangedCost})
			}
		}
	}
	return suspects
}

// cost returns the squared residuals in centring errors, and the squared tilt in usual ones.
func (s search) cost(fit AxisFit) float64 {
	lean := float64(fit.Axis.Tilt / usualTilt)
	cost := lean * lean
	for i, r := range fit.Residuals {
		cost += s.seen.weights[i] * float64(r*r)
	}
	return cost
}

// leftOut returns the only sight of three or more without which the others are honest, or −1.
func (s search) leftOut() int {
	odd := -1
	if len(s.sights) < 3 {
		return odd
	}
	for i := range s.sights {
		others := slices.Delete(slices.Clone(s.sights), i, i+1)
		fit, err := FitAxis(s.frame, others, s.how)
		if err != nil || !honest(fit, others, s.how) {
			continue
		}
		if odd >= 0 {
			return -1
		}
		odd = i
	}
	return odd
}
