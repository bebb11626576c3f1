package sky

import (
	"fmt"
	"math"
)

// Angle is a plane angle, in radians inside. Write it with a unit, 20*Degree, and read it with one,
// a.Degrees(). It has no range of its own: Wrapped and Signed give the two that people print.
type Angle float64

// Units of angle. An Hour is an hour of right ascension or hour angle, 15°.
const (
	Radian    Angle = 1
	Degree          = Radian * math.Pi / 180
	Arcminute       = Degree / 60
	Arcsecond       = Arcminute / 60
	Hour            = 15 * Degree
	Turn            = 360 * Degree
)

// Radians returns a in radians.
func (a Angle) Radians() float64 { return float64(a) }

// Degrees returns a in degrees.
func (a Angle) Degrees() float64 { return float64(a / Degree) }

// Arcminutes returns a in minutes of arc.
func (a Angle) Arcminutes() float64 { return float64(a / Arcminute) }

// Arcseconds returns a in seconds of arc.
func (a Angle) Arcseconds() float64 { return float64(a / Arcsecond) }

// Hours returns a in hours of 15°.
func (a Angle) Hours() float64 { return float64(a / Hour) }

// Sin returns the sine of a.
func (a Angle) Sin() float64 { return math.Sin(float64(a)) }

// Cos returns the cosine of a.
func (a Angle) Cos() float64 { return math.Cos(float64(a)) }

// Abs returns the size of a without its sign.
func (a Angle) Abs() Angle { return Angle(math.Abs(float64(a))) }

// Wrapped returns the same direction in [0°, 360°), the range of azimuths, right ascensions and
// position angles.
func (a Angle) Wrapped() Angle {
	w := math.Mod(float64(a), 2*math.Pi)
	if w < 0 {
		w += 2 * math.Pi
	}
	if w >= 2*math.Pi { // a tiny negative angle rounds up to the full turn
		return 0
	}
	return Angle(w)
}

// Signed returns the same direction in (−180°, 180°], the range of hour angles, parallactic angles
// and differences.
func (a Angle) Signed() Angle {
	w := float64(a.Wrapped())
	if w > math.Pi {
		w -= 2 * math.Pi
	}
	return Angle(w)
}

// String prints a in degrees to four decimals. Screens choose their own number of digits.
func (a Angle) String() string { return fmt.Sprintf("%.4f°", a.Degrees()) }

// asin returns the angle of sine x, held to ±90° where rounding carried x past ±1.
func asin(x float64) Angle { return Angle(math.Asin(math.Max(-1, math.Min(1, x)))) }
