package plan

import (
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Setting is one setting for stars that a person may ease when no pair is left.
type Setting string

// The settings.
const (
	FainterStars Setting = "magnitude"
	LowerStars   Setting = "altitude"
	NearerStars  Setting = "apart"
	NearerMoon   Setting = "moon"
)

// Easier is a setting eased so that there is a pair now, and that pair.
type Easier struct {
	Setting       Setting
	Magnitude     float64   // of FainterStars
	Angle         sky.Angle // of the others
	First, Second *Candidate
}

// easing is a setting and the values to try, the harmless first: degrees, or magnitudes of FainterStars.
type easing struct {
	setting Setting
	tries   []float64
}

func easings() []easing {
	return []easing{{FainterStars, []float64{3, 3.5, 4}}, {LowerStars, []float64{15, 10}}, {NearerStars, []float64{20}}, {NearerMoon, []float64{4}}}
}

// ease eases a setting; eased is false when it is as easy already.
func (e Easier) ease(s *kit.Stars) (eased bool) {
	lower := func(setting *sky.Angle) bool {
		before := *setting
		*setting = min(before, e.Angle)
		return before > e.Angle
	}
	switch e.Setting {
	case FainterStars:
		before := s.FaintestMag
		s.FaintestMag = max(before, e.Magnitude)
		return before < e.Magnitude
	case LowerStars:
		return lower(&s.Lowest)
	case NearerStars:
		return lower(&s.Nearest)
	}
	return lower(&s.MoonGlare)
}

// helps returns which single settings would give a pair now. While the Sun is up none is offered.
func (s *StarSky) helps() (all []Easier) {
	if s.sunUp {
		return nil
	}
	for _, e := range easings() {
		for _, to := range e.tries {
			easier := Easier{Setting: e.setting, Angle: sky.Angle(to) * sky.Degree}
			if e.setting == FainterStars {
				easier.Magnitude, easier.Angle = to, 0
			}
			k := s.Kit
			if !easier.ease(&k.Stars) {
				continue
			}
			if a, b, found := s.again(k, s.At).anyPair(); found {
				easier.First, easier.Second = a, b
				all = append(all, easier)
				break
			}
		}
	}
	return all
}
