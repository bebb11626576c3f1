package plan

import (
	"math"
	"time"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// Sight is a star that was centred at an instant, and what the mount's two axes read then, before any
// alignment.
type Sight struct {
	Name    string // for messages; "" is called by its number
	Star    sky.Star
	At      time.Time
	Readout sky.Horizontal // raw: altitude about the mount's own axis, azimuth from wherever it counts
	Error   sky.Angle      // centring error per axis of this sight; 0: that of the Sighting
}

// Sighting is what holds for all sights of a fit.
type Sighting struct {
	Air   sky.Air   // the air they were made through; the zero Air lifts nothing, for airless readouts
	Error sky.Angle // centring error per axis, one standard deviation; 0: UsualCentring
}

// UsualCentring is the centring error per axis when nothing better is known: a star put on the cross of a
// camera's live view, and the backlash of two axes (common practice).
const UsualCentring = 2 * sky.Arcminute

// AxisFit is how the mount stands, from sights.
type AxisFit struct {
	Axis        kit.Axis    // Uncertainty holds 95 %, and grows when the sights agree badly
	AzimuthZero sky.Angle   // readout azimuth = azimuth in the tilted frame + this, (−180°, 180°]
	Residuals   []sky.Angle // by sight: between the star and where the fit puts it
	RMS         sky.Angle   // of the residuals, weighted as the sights are
	Misfit      sky.Angle   // the largest difference between the stars' separations, measured and true
	Spread      Spread      // from the centring errors alone
	Honest      Spread      // the same, grown when the sights agree badly: what Uncertainty and bounds come from

	turn triad // from the mount's frame to east, north, up
	air  sky.Air
}

// FitAxis returns the tilt of the mount's azimuth axis and its azimuth zero that fit the sights best, by
// least squares of the chords.
//
// Frame:  east, north, up. The tilted frame is the horizon frame carried by the smallest rotation from
// the zenith to the axis; azimuth in it counts from north through east.
// Range:  two or more sights, of which two are between 5° and 175° apart. The azimuth that an upright
// axis leans towards is 0°.
// Error:  0.00002° for readouts without noise (testdata/reference/tiltfit.csv); Spread otherwise. A mount
// whose axes are not square, or whose altitude does not read 0 square to its axis, fits worse.
// Source: Wahba 1965, SIAM Review 7, 409; Markley 1988 for the solution; Shuster & Oh 1981, J. Guidance
// and Control 4, 70, for the covariance.
func FitAxis(frame *sky.Frame, sights []Sight, how Sighting) (AxisFit, error) {
	if err := checkSights(frame, sights); err != nil {
		return AxisFit{}, err
	}
	seen := see(frame, sights, how)
	if err := seen.checkGeometry(sights); err != nil {
		return AxisFit{}, err
	}
	return seen.fit(), nil
}

// Readout returns what the mount's raw axes will show when star is centred at t: where a third star
// should appear, if the fit is right.
func (f AxisFit) Readout(frame *sky.Frame, star sky.Star, t time.Time) sky.Horizontal {
	over := lifted(frame.Direction(frame.Fix(star), t), f.air)
	mount := sky.Direction{X: f.turn[0].Dot(over), Y: f.turn[1].Dot(over), Z: f.turn[2].Dot(over)}
	return mount.Horizontal()
}

// seen is sights as vectors: where the stars stood over the site, and where the readouts point in the
// mount's frame.
type seen struct {
	over, mount []sky.Direction
	weights     []float64 // 1/σ², σ in radians
	air         sky.Air
}

func see(frame *sky.Frame, sights []Sight, how Sighting) seen {
	s := seen{air: how.Air}
	for _, sight := range sights {
		over := frame.Direction(frame.Fix(sight.Star), sight.At)
		s.over = append(s.over, lifted(over, how.Air))
		s.mount = append(s.mount, sight.Readout.Direction())
		sigma := float64(centring(sight, how))
		s.weights = append(s.weights, 1/(sigma*sigma))
	}
	return s
}

func centring(sight Sight, how Sighting) sky.Angle {
	for _, known := range []sky.Angle{sight.Error, how.Error} {
		if known > 0 {
			return known
		}
	}
	return UsualCentring
}

// lifted returns an airless direction as it appears through air.
func lifted(d sky.Direction, air sky.Air) sky.Direction {
	place := d.Horizontal()
	place.Altitude += air.Refraction(place.Altitude)
	return place.Direction()
}

func (s seen) fit() AxisFit {
	turn := attitude(s.over, s.mount, s.weights)
	f := AxisFit{turn: turn, air: s.air, Misfit: s.misfit()}
	f.Axis.Tilt, f.Axis.Toward = tiltOf(turn[2])
	tilted := tiltedFrame(turn[2])
	// Where the readout azimuth is 0 the tilted frame's is minus the zero.
	f.AzimuthZero = -sky.Angle(math.Atan2(turn[1].Dot(tilted[0]), turn[1].Dot(tilted[1])))
	f.AzimuthZero = f.AzimuthZero.Signed()
	var chi2, weights float64
	for i := range s.over {
		r := turn.apply(s.mount[i]).Separation(s.over[i])
		f.Residuals = append(f.Residuals, r)
		chi2 += s.weights[i] * float64(r*r)
		weights += s.weights[i]
	}
	f.RMS = sky.Angle(math.Sqrt(chi2 / weights))
	f.Spread = s.spread(tilted)
	free := float64(2*len(s.over) - 3)                             // two numbers from each sight, three for the attitude
	f.Honest = f.Spread.widened(math.Max(1, math.Sqrt(chi2/free))) // sights that agree badly were centred badly
	f.Axis.Uncertainty = f.Honest.Radius()
	return f
}

// spread returns the covariance of the tilt vector. A small rotation φ moves the axis by φ × m, which
// is φ·north towards the tilted frame's east and −φ·east towards its north.
func (s seen) spread(tilted triad) Spread {
	var centred []Centring
	for i, u := range s.over {
		centred = append(centred, Centring{Direction: u, Error: sky.Angle(1 / math.Sqrt(s.weights[i]))})
	}
	p, _ := AttitudeCovariance(centred...) // checkGeometry asks for more than it does
	east, north := tilted[0], tilted[1]
	alongBoth := (p.along(east.Plus(1, north)) - p.along(east) - p.along(north)) / 2 // eastᵀ P north
	return spreadOf(p.along(north), p.along(east), -alongBoth)
}

func (s seen) misfit() (largest sky.Angle) {
	for i := range s.over {
		for j := range i {
			off := s.over[i].Separation(s.over[j]) - s.mount[i].Separation(s.mount[j])
			largest = max(largest, off.Abs())
		}
	}
	return largest
}
