package plan

import (
	"errors"
	"math"
	"time"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// CameraSeen is a camera angle as the stars of a light show it: the position angle of the chip's up at the target, of
// date, and one σ of it.
type CameraSeen struct {
	At            time.Time
	Camera, Error sky.Angle
}

// StageSpan is a time in which the derotator's stage did one thing. Still: it stood where it was, and the camera
// turned with the field. Else it tracked: the camera angle stood, and the stage turned.
type StageSpan struct {
	Course   *Course // of the target that was looked at
	Still    bool
	Cameras  []CameraSeen
	Readings []Anchor // of the stage, and known starts
}

// JointPrior is what was known before: the mount's axis with its spread, and the camera angle at reading 0, the
// chip's up from the mount's, with one σ, which is 0 where nobody knows it.
type JointPrior struct {
	Axis            kit.Axis
	Spread          *Spread // nil: Axis.Uncertainty holds 95 % in every direction
	Zero, ZeroError sky.Angle
}

// JointFit is what readings, placed lights and what was known before say together.
type JointFit struct {
	Axis      kit.Axis // Uncertainty holds 95 %
	Spread    Spread
	Zero      sky.Angle // of the camera angle at reading 0, (−180°, 180°]
	ZeroError sky.Angle // one σ
	Sense     int       // of the derotator, as the observations fit it better
	// Against is by how much the sum of squares is larger for the other sense: from 9 on the sense is beyond doubt.
	Against float64
	// Misfit is the sum of squares over what it should be; where it is above 1 the errors are made larger by its root.
	Misfit float64
}

// SenseSettled is from which difference of the sums of squares the other sense is out: three σ.
const SenseSettled = 9.0

// FitJoint fits the tilt of the mount's axis, the camera angle at reading 0 and the derotator's sense to all that
// the stretches of a night show, with what was known before, by least squares:
//
//	θ = χ(t; tilt) + zero − s·m,
//
// where θ is the camera angle and m the stage's. While the stage tracks, θ stands still whatever the axis is; what
// tells of it is m known otherwise: a stage that stands still, starts of runs after rewinds to known angles,
// readings. A stretch adds one unknown, its θ or its m, so that what it does not have costs nothing.
//
// readingError is one σ of a reading. Its error: in words, when there is nothing to fit or an angle is none.
// Range:  tilts up to some 15°. Error: Spread and ZeroError, by the normal equations at the solution.
// Source: Gauss-Newton with halved steps; the equation of the camera angle is the project's handbook, section 5;
// the rest is an own derivation.
func FitJoint(prior JointPrior, stretches []StageSpan, readingError sky.Angle) (JointFit, error) {
	if !(readingError > 0) || math.IsInf(float64(readingError), 0) {
		return JointFit{}, errors.New("the error of a reading must be above 0; give how finely the derotator's angle can be read, as 0.1°")
	}
	given := jointOf(prior, stretches, readingError)
	if given.observations() == 0 {
		return JointFit{}, errors.New("there is neither a reading of the derotator nor a light that was placed; nothing can be fitted")
	}
	sense := given.sense
	best := given.solve()
	other := given.turned().solve()
	if other.cost < best.cost-SenseSettled {
		best, other, sense = other, best, -sense
	}
	fit := JointFit{Sense: int(sense), Against: other.cost - best.cost, Misfit: 1}
	if free := float64(given.observations() - given.unknowns() + 2); free > 0 {
		fit.Misfit = max(1, best.cost/free)
	}
	covariance, ok := best.covariance(best.at)
	if !ok {
		return JointFit{}, errors.New("the observations contradict one another, so that nothing can be fitted; see that the angles are degrees")
	}
	fit.Spread = spreadOf(covariance.At(0, 0), covariance.At(1, 1), covariance.At(0, 1)).widened(math.Sqrt(fit.Misfit))
	fit.Axis.Tilt, fit.Axis.Toward = tiltOf(leaning(best.at[0], best.at[1]))
	fit.Axis.Uncertainty = fit.Spread.Radius()
	fit.Zero = sky.Angle(best.at[2]).Signed()
	fit.ZeroError = sky.Angle(math.Sqrt(covariance.At(2, 2) * fit.Misfit))
	return fit, nil
}
