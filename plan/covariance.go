package plan

import (
	"fmt"
	"math"

	"duskhand/sky"
)

// Centring is a star that the mount has been centred on: where it stands, and the rms error of the
// centring in each of two axes across the line of sight.
type Centring struct {
	Direction sky.Direction
	Error     sky.Angle
}

// Covariance is how uncertain an attitude is: the covariance of its small rotation vector, in the frame
// of the directions that it was made from.
type Covariance struct{ xx, yy, zz, xy, xz, yz float64 } // rad²

// indistinct is how near each other, or how near opposite, directions leave the attitude undetermined:
// the camera shows one star there.
const indistinct = 60 * sky.Arcsecond

// AttitudeCovariance returns the covariance of the attitude that fits the centred stars best:
// P = [Σ (I − uᵢuᵢᵀ)/σᵢ²]⁻¹.
//
// Frame:  any one frame for all directions.
// Error:  in words when the stars determine no attitude: fewer than two, all in one direction or
// opposite to within 1′, or an error that is not above 0.
// Source: Shuster & Oh 1981, J. Guidance and Control 4(1), 70–77, for the weights 1/σᵢ².
func AttitudeCovariance(stars ...Centring) (Covariance, error) {
	if err := determined(stars); err != nil {
		return Covariance{}, err
	}
	var sum Covariance
	for _, s := range stars {
		sum = sum.plus(s.information())
	}
	return sum.inverse(), nil
}

// information returns (I − uuᵀ)/σ², what one star tells of the attitude: the inverse of a covariance, had
// it one.
func (c Centring) information() Covariance {
	u, w := c.Direction, 1/(c.Error.Radians()*c.Error.Radians())
	return Covariance{
		xx: w * (u.Y*u.Y + u.Z*u.Z), // 1 − x², without the cancelling
		yy: w * (u.X*u.X + u.Z*u.Z),
		zz: w * (u.X*u.X + u.Y*u.Y),
		xy: -w * u.X * u.Y, xz: -w * u.X * u.Z, yz: -w * u.Y * u.Z,
	}
}

func (p Covariance) plus(q Covariance) Covariance {
	return Covariance{p.xx + q.xx, p.yy + q.yy, p.zz + q.zz, p.xy + q.xy, p.xz + q.xz, p.yz + q.yz}
}

func determined(stars []Centring) error {
	if len(stars) < 2 {
		return fmt.Errorf("one star leaves the turn about it undetermined; give two, some 30° to 150° apart")
	}
	distinct, opposite := false, false
	for i, s := range stars {
		if !(s.Error > 0) {
			return fmt.Errorf("a centring error must be above 0; give what your stars are off the middle, as 1′")
		}
		apart := stars[0].Direction.Separation(s.Direction)
		opposite = opposite || apart > 180*sky.Degree-indistinct
		distinct = distinct || i > 0 && apart > indistinct && apart < 180*sky.Degree-indistinct
	}
	switch {
	case distinct:
		return nil
	case opposite:
		return fmt.Errorf("the stars stand opposite each other, which leaves the turn about them undetermined; take two some 30° to 150° apart")
	}
	return fmt.Errorf("the stars stand at one place, or are the same star twice, which leaves the turn about it undetermined; take two some 30° to 150° apart")
}

// inverse of a symmetric matrix, by its cofactors.
func (m Covariance) inverse() Covariance {
	c := Covariance{
		xx: m.yy*m.zz - m.yz*m.yz, yy: m.xx*m.zz - m.xz*m.xz, zz: m.xx*m.yy - m.xy*m.xy,
		xy: m.xz*m.yz - m.xy*m.zz, xz: m.xy*m.yz - m.xz*m.yy, yz: m.xy*m.xz - m.xx*m.yz,
	}
	det := m.xx*c.xx + m.xy*c.xy + m.xz*c.xz
	return Covariance{c.xx / det, c.yy / det, c.zz / det, c.xy / det, c.xz / det, c.yz / det}
}

// along returns vᵀPv.
func (p Covariance) along(v sky.Direction) float64 {
	return p.xx*v.X*v.X + p.yy*v.Y*v.Y + p.zz*v.Z*v.Z + 2*(p.xy*v.X*v.Y+p.xz*v.X*v.Z+p.yz*v.Y*v.Z)
}

// Pointing returns the rms error of pointing at a target, both axes together: √tr(P(I − vvᵀ)).
func (p Covariance) Pointing(target sky.Direction) sky.Angle {
	return sky.Angle(math.Sqrt(math.Max(0, p.xx+p.yy+p.zz-p.along(target))))
}

// Roll returns the rms error of the turn about the line of sight to a target: √(vᵀPv).
func (p Covariance) Roll(target sky.Direction) sky.Angle {
	return sky.Angle(math.Sqrt(math.Max(0, p.along(target))))
}

// The refraction of a standard atmosphere, and the share of it that may be wrong: a thousand metres of
// height or 28 K change it by a tenth, which a mount that knows neither leaves in. Our choice.
const unsureRefraction = 0.1

func standardAir() sky.Air { return sky.Air{PressureHPa: 1010, TemperatureC: 10} }

// CentringError returns the rms error per axis of a star centred at an airless altitude: that of the
// centring itself, and a tenth of the refraction for the air that nobody measured.
//
// It is 1′ and 0.26′ together at 20°. Refraction errs in altitude only; taking it for both axes is a
// little severe on low stars. Our choice.
func CentringError(centring, airless sky.Angle) sky.Angle {
	return sky.Angle(math.Hypot(centring.Radians(), unsureRefraction*standardAir().Refraction(airless).Radians()))
}
