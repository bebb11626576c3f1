package sky

import (
	"fmt"
	"time"
)

// Rate is an angle per time, in radians per second inside. Its sign is that of the angle it is the
// rate of.
type Rate float64

// Units of rate.
const (
	RadianPerSecond Rate = 1
	DegreePerSecond      = Rate(Degree)
	DegreePerHour        = DegreePerSecond / 3600
)

// SiderealRate is the Earth's rotation against the stars, ω in the handbook: 15.041067 °/h.
// Source: IERS Conventions (2010), table 1.1, 7.292115e-5 rad/s, which is 15.041067″/s.
const SiderealRate Rate = 7.292115e-5

// DegreesPerHour returns r in degrees per hour.
func (r Rate) DegreesPerHour() float64 { return float64(r / DegreePerHour) }

// DegreesPerSecond returns r in degrees per second.
func (r Rate) DegreesPerSecond() float64 { return float64(r / DegreePerSecond) }

// Times returns the angle turned through in d.
func (r Rate) Times(d time.Duration) Angle { return Angle(float64(r) * d.Seconds()) }

// String prints r in degrees per hour to three decimals.
func (r Rate) String() string { return fmt.Sprintf("%.3f°/h", r.DegreesPerHour()) }
