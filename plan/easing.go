package plan

import (
	"fmt"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// easing is one setting for stars that a person may ease when no pair is left, and the values to try, the
// harmless first. ease sets one and says so; it returns "" when the setting is as easy already.
type easing struct {
	tries []float64
	ease  func(s *kit.Stars, to float64) string
}

func easings() []easing {
	return []easing{
		{[]float64{3, 3.5, 4}, func(s *kit.Stars, mag float64) string {
			if s.FaintestMag >= mag {
				return ""
			}
			s.FaintestMag = mag
			return fmt.Sprintf("stars to magnitude %.1f (stars.faintest_mag)", mag)
		}},
		{[]float64{15, 10}, func(s *kit.Stars, degrees float64) string {
			return lower(&s.Lowest, degrees, "stars down to %s (stars.lowest_deg)")
		}},
		{[]float64{20}, func(s *kit.Stars, degrees float64) string {
			return lower(&s.Nearest, degrees, "stars as near as %s to each other (stars.nearest_deg)")
		}},
		{[]float64{4}, func(s *kit.Stars, degrees float64) string {
			return lower(&s.MoonGlare, degrees, "stars as near as %s to the Moon (stars.moon_glare_deg)")
		}},
	}
}

func lower(setting *sky.Angle, degrees float64, words string) string {
	to := sky.Angle(degrees) * sky.Degree
	if *setting <= to {
		return ""
	}
	*setting = to
	return fmt.Sprintf(words, whole(to))
}

// helps returns which single settings would give a pair now. While the Sun is up none is offered.
func (s *StarSky) helps() (all []string) {
	if s.sunUp {
		return nil
	}
	for _, e := range easings() {
		for _, to := range e.tries {
			k := s.Kit
			words := e.ease(&k.Stars, to)
			if words == "" {
				continue
			}
			if a, b, found := s.again(k, s.At).anyPair(); found {
				all = append(all, fmt.Sprintf("With %s, %s and %s would do now.", words, a.Star.Name(), b.Star.Name()))
				break
			}
		}
	}
	return all
}
