package plan

import (
	"time"

	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/catalog"
)

// Candidate is a star that was looked at for the alignment or the focus, at the instant of its StarSky.
type Candidate struct {
	Star      catalog.Object
	Place     sky.Horizontal // airless
	Direction sky.Direction  // the same, east, north, up
	AboutAxis sky.Angle      // altitude about the mount's axis, 90° at the axis
	Rising    bool           // its altitude is growing
	Centring  sky.Angle      // expected error of centring it, rms per axis
	Leaves    Leaving
}

// Leaving is when a star ceases to be fit by its place in the sky: not OK if it stays for the four hours
// that are looked at.
type Leaving struct {
	sky.Event
	By          Unfit  // TooLow, TooHigh or Obstructed
	Obstruction string // what the horizon profile names there
}

// AltitudeLimits are what a star's altitude must lie in: about the mount's axis, and above the true horizon too where
// focusing asks for it.
type AltitudeLimits struct{ Lowest, Highest, LeastTrue sky.Angle }

// Lower returns the lower bound that counts.
func (l AltitudeLimits) Lower() sky.Angle { return max(l.Lowest, l.LeastTrue) }

// StarSky is the stars over the site at an instant, each either fit for the alignment or not.
type StarSky struct {
	Kit         kit.Kit
	At          time.Time
	Sun         sky.Angle    // altitude of its centre, airless
	Moon        sky.Moon     // at the instant
	Fit         []*Candidate // brightest first; shared with the pairs, don't change them
	Unfit       []Rejected   // brightest first, of the stars that the kit's magnitude lets through
	FaintestMag float64      // V magnitude that the twilight leaves, now or at the end of the time that stars must stay fit

	frame   *sky.Frame
	leaning kit.Axis
	axis    sky.Direction
	list    []listed
	air     sky.Air
	skyline []kit.HorizonPoint
	until   time.Time // the end of the time that a star must stay fit
	moonEnd sky.Direction
	suns    [2]sky.Direction // at the instant and at until
	sunUp   bool
}

// Stars returns the catalogue's stars over the site of the night at an instant, chosen by the kit's
// settings for stars, for a mount whose azimuth axis leans as axis says.
//
// Valid: within the night or a few hours of it.
func (n *Night) Stars(axis kit.Axis, at time.Time) *StarSky {
	return starSkyOf(n.Kit, n.Frame, axis, at, catalogueStars())
}

func starSkyOf(k kit.Kit, frame *sky.Frame, axis kit.Axis, at time.Time, list []listed) *StarSky {
	s := &StarSky{Kit: k, At: at, frame: frame, leaning: axis, axis: sky.MountAxis(axis.Tilt, axis.Toward), list: list,
		air: sky.Air{PressureHPa: k.Site.PressureHPa, TemperatureC: k.Site.TemperatureC}, skyline: k.Horizon.Points()}
	s.until = at.Add(k.Stars.StayFine)
	s.Moon, s.moonEnd = frame.Moon(at), frame.Moon(s.until).Direction()
	now, then := frame.Sun(at), frame.Sun(s.until)
	s.Sun, s.suns = now.Altitude, [2]sky.Direction{now.Direction(), then.Direction()}
	brightest := max(now.Altitude, then.Altitude) // at dawn the later of the two
	s.sunUp, s.FaintestMag = brightest > sky.SunAtHorizon, FaintestMagInTwilight(brightest)
	s.sort()
	return s
}

// SunUp tells that the Sun is up now, or at the end of the time that a star must stay fit.
func (s *StarSky) SunUp() bool { return s.sunUp }

// AlignmentLimits is the window for the two stars: the kit's, and the keyhole.
func (s *StarSky) AlignmentLimits() AltitudeLimits {
	return AltitudeLimits{Lowest: s.Kit.Stars.Lowest, Highest: min(s.Kit.Stars.Highest, s.Kit.Mount.Ceiling)}
}

// sort parts the stars that the kit's magnitude lets through into fit and unfit.
func (s *StarSky) sort() {
	w := s.AlignmentLimits()
	known := s.Kit.Stars.KnownNames()
	for i := range s.list {
		l := &s.list[i]
		if l.star.Magnitude.Value > s.Kit.Stars.FaintestMag {
			break
		}
		rejected, fit := s.assess(l, w)
		if fit {
			if alike := l.confusable(); len(alike) > 0 {
				fit, rejected.Unfit = false, Confusable
				rejected.Alike, rejected.Apart = alike[0].Name(), l.star.Star.Place.Direction().Separation(alike[0].Star.Place.Direction())
			}
		}
		if name, listed := known[l.star.ID]; fit && len(known) > 0 {
			if fit = listed; listed {
				rejected.Star = named(*l.star, name)
			} else {
				rejected.Unfit = NotKnown
			}
		}
		if fit {
			candidate := rejected.Candidate
			s.Fit = append(s.Fit, &candidate)
		} else {
			s.Unfit = append(s.Unfit, rejected)
		}
	}
}

// named returns a star with a name before its others.
func named(star catalog.Object, name string) catalog.Object {
	star.Names = append([]string{name}, star.Names...)
	return star
}
