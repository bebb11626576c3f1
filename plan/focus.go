package plan

import (
	"cmp"
	"math"
	"slices"

	"duskhand/sky"
)

// The window for a focus star: magnitudes for a diffraction mask on a telescope of the aperture that most
// imagers of this trade carry, and altitudes (the project's handbook, section 8). That the magnitudes hold
// for 80 mm is our choice.
const (
	brightestFocusMag, faintestFocusMag = 0.0, 3.5
	focusApertureMM                     = 80
	lowestFocus, highestFocus           = 35 * sky.Degree, 75 * sky.Degree
	faintestFound                       = 5.0 // V magnitude that is still found without a chart
)

// FocusMagnitudes returns the V magnitudes of a good focus star for an aperture: 0 to 3.5 for 80 mm, moved
// by 5·log₁₀(D/80) so that the camera gets as much light; never fainter than 5, which is not found easily.
func FocusMagnitudes(apertureMM float64) (brightest, faintest float64) {
	moved := 5 * math.Log10(apertureMM/focusApertureMM)
	return brightestFocusMag + moved, math.Min(faintestFocusMag+moved, faintestFound)
}

// Focus is a star to focus on.
type Focus struct {
	Candidate
	ToTarget     sky.Angle
	SecondOfPair bool // it is the pair's second star, which the mount points at already
}

// FocusLimits is the window for a focus star, 35° above the true horizon too, for the air's sake.
func (s *StarSky) FocusLimits() AltitudeLimits {
	return AltitudeLimits{Lowest: 0, Highest: min(highestFocus, s.Kit.Mount.Ceiling), LeastTrue: lowestFocus}
}

// magnitudesFor returns the magnitudes that suit all the telescopes.
func magnitudesFor(telescopes []Telescope) (brightest, faintest float64) {
	brightest, faintest = math.Inf(-1), faintestFound
	for _, t := range telescopes {
		b, f := FocusMagnitudes(t.ApertureMM)
		brightest, faintest = math.Max(brightest, b), math.Min(faintest, f)
	}
	return brightest, faintest
}

// focuses tells whether an alignment star will do as focus star.
func (s *StarSky) focuses(c *Candidate, telescopes ...Telescope) bool {
	brightest, faintest := magnitudesFor(telescopes)
	w, m := s.FocusLimits(), c.Star.Magnitude.Value
	if m < brightest || m > faintest || c.Place.Altitude < w.LeastTrue || c.AboutAxis > w.Highest {
		return false
	}
	fixed := s.frame.Fix(c.Star.Star)
	return !s.leaving(fixed, s.spotOf(c.Direction, s.At), w, s.until).OK
}

// FocusStars returns the stars that suit the focus of all the telescopes given, the best first, at most so
// many: the pair's second star if it qualifies, then by distance from the target. pair may be nil.
//
// Range:  magnitudes by FocusMagnitudes; altitude 35° to 75°, clear of the horizon profile, and staying so
// for the kit's time; away from Sun and Moon. A neighbour does no harm here.
// None:   why says what is missing; it is SomeFocus otherwise.
func (s *StarSky) FocusStars(aim sky.Direction, pair *Pair, atMost int, telescopes ...Telescope) (stars []Focus, why NoFocus) {
	brightest, faintest := magnitudesFor(telescopes)
	w := s.FocusLimits()
	counts := map[Unfit]int{}
	for i := range s.list {
		l := &s.list[i]
		if m := l.star.Magnitude.Value; m > faintest {
			break // they are sorted
		} else if m < brightest {
			continue
		}
		if r, fit := s.assess(l, w); fit {
			stars = append(stars, s.focusOf(r.Candidate, aim, pair))
		} else {
			counts[r.Unfit]++
		}
	}
	slices.SortStableFunc(stars, func(a, b Focus) int {
		if a.SecondOfPair != b.SecondOfPair {
			return map[bool]int{true: -1, false: 1}[a.SecondOfPair]
		}
		return cmp.Compare(a.ToTarget, b.ToTarget)
	})
	if len(stars) == 0 {
		return nil, s.noFocus(brightest, faintest, counts)
	}
	if atMost > 0 && len(stars) > atMost {
		stars = stars[:atMost]
	}
	return stars, NoFocus{}
}

func (s *StarSky) focusOf(c Candidate, aim sky.Direction, pair *Pair) Focus {
	f := Focus{Candidate: c, ToTarget: aim.Separation(c.Direction)}
	f.SecondOfPair = pair != nil && pair.Second.Star.ID == c.Star.ID
	return f
}

// NoFocus is why there is no star to focus on; the zero NoFocus: there is one.
type NoFocus struct {
	Why                 NoFocusWhy
	Brightest, Faintest float64   // V magnitudes that suit the telescopes
	Shown               float64   // of SkyBright: to which magnitude stars show
	Lowest, Highest     sky.Angle // altitudes that would do
}

// NoFocusWhy is a kind of NoFocus.
type NoFocusWhy string

// The kinds.
const (
	SomeFocus   NoFocusWhy = ""
	SunIsUp     NoFocusWhy = "the sun"
	NoneForBoth NoFocusWhy = "apertures"  // the telescopes want magnitudes that do not overlap
	SkyBright   NoFocusWhy = "bright sky" // too bright yet for the stars that would do
	NoneStands  NoFocusWhy = "none"       // where it would do, and stays so
)

// noFocus says why there is no star to focus on.
func (s *StarSky) noFocus(brightest, faintest float64, counts map[Unfit]int) NoFocus {
	none := NoFocus{Why: NoneStands, Brightest: brightest, Faintest: faintest, Shown: s.FaintestMag, Lowest: lowestFocus, Highest: s.FocusLimits().Highest}
	switch {
	case s.sunUp:
		none.Why = SunIsUp
	case brightest > faintest:
		none.Why = NoneForBoth
	case counts[TooFaint] > 0 && s.FaintestMag < faintest:
		none.Why = SkyBright
	}
	return none
}
