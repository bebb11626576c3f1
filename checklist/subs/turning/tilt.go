package turning

import (
	"errors"
	"math"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Tilt is the mount's axis that would explain a slow turning: the derotator turned as for the axis of the
// course, and this one is where the mount really turned about.
type Tilt struct {
	Axis     kit.Axis
	Change   sky.Angle // from the course's axis
	RMS      sky.Angle // of the camera's angles about what that axis would do
	Explains bool      // RMS is within the angles' errors, and Change no more than 10°
	Unique   bool      // no very different axis would do as well: the ellipse of 95 % is small against Change
}

// The bounds of a tilt that explains; choices of ours.
const (
	mostTiltChange = 10 * sky.Degree
	unknownTilt    = 3 * sky.Degree // of an axis that is said to be known exactly
	mostTiltPoints = 40
)

// ExplainByTilt returns the smallest change of the mount's axis that explains how the camera turned during a
// run, by least squares. Two parts of a tilt need a run long enough for χ to bend; until then the smaller one is
// a lower bound, and Unique is false. It takes three lights and a known parity: with the other one another axis
// altogether explains the same lights.
//
// Source: the readings that a derotator would have given that followed the true axis, s·(χ + what the camera
// turned), fitted as readings are; the project's handbook, section 5.
func ExplainByTilt(c *plan.Course, turned []Turned, parity Parity) (Tilt, error) {
	if len(turned) < 3 {
		return Tilt{}, errors.New("the tilt takes three lights of one run that can be compared; go on exposing")
	}
	if parity == UnknownParity {
		return Tilt{}, errors.New("the tilt takes the parity, which a rewind between two lights shows")
	}
	return tiltFor(c, turned)
}

// mostOfChange is which part of the change the axis may be uncertain by and count as the only one. Our choice.
const mostOfChange = 0.5

func tiltFor(c *plan.Course, turned []Turned) (Tilt, error) {
	course := *c
	if course.Axis.Uncertainty <= 0 {
		course.Axis.Uncertainty = unknownTilt
	}
	every := (len(turned) + mostTiltPoints - 1) / mostTiltPoints
	var readings []plan.Anchor
	var square float64
	for i := len(turned) - 1; i >= 0; i -= every {
		angle := c.FieldAngle(turned[i].At) + turned[i].Camera
		readings = append(readings, plan.Anchor{At: turned[i].At, Angle: sky.Angle(c.Kit.Derotator.Sense) * angle})
		square += float64(turned[i].Error * turned[i].Error)
	}
	sigma := sky.Angle(math.Sqrt(square / float64(len(readings))))
	fit, err := course.FitTilt(readings, sigma)
	if err != nil {
		return Tilt{}, err
	}
	was, is := sky.MountAxis(c.Axis.Tilt, c.Axis.Toward), sky.MountAxis(fit.Axis.Tilt, fit.Axis.Toward)
	t := Tilt{Axis: fit.Axis, Change: was.Separation(is), RMS: fit.RMS}
	t.Explains = t.RMS <= 2*sigma && len(fit.Doubtful) == 0 && t.Change <= mostTiltChange
	t.Unique = float64(fit.Spread.Major())*certainty <= mostOfChange*float64(t.Change)
	return t, nil
}

// certainty is how many standard deviations of a plane's normal distribution hold 95 %: √χ²(2; 0.95).
const certainty = 2.4477
