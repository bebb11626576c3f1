package turning

import (
	"math"

	"duskhand/sky"
)

// What a longer stretch must show before it counts; choices of ours.
const (
	swingSigmas = 10.0 // that the field's own turning must exceed, for a derotator that stands still to be seen
	swingPixels = 3.0  // at the corner
	mostTracked = 0.35 // share of the field's turning that a derotator may leave and count as one that follows
	// plausibleTilt is the tilt that nobody may know of: it makes the field turn by up to ω·sin 3° while the
	// derotator works as it should, so that nothing slower is called Off by its share alone.
	plausibleTilt = 3 * sky.Degree
)

// tiltRate is how fast plausibleTilt makes the field turn at most.
func tiltRate() sky.Rate { return sky.SiderealRate * sky.Rate(plausibleTilt.Sin()) }

// quiet is the verdict on a light whose step is not bad: the stretch behind it may still show a slow turning.
func (j Judge) quiet() (Judge, Verdict) {
	stretch := j.stretch()
	v := j.describe(stretch)
	kind, harmful := j.creeping(stretch, &v)
	j.crept++
	if !harmful {
		j.crept = 0
	}
	if kind != Off && kind != Reversed {
		if tail, certain, parity := j.certain(stretch); certain != Steady {
			v, kind = j.describe(tail), certain
			v.Parity = parity
		}
	}
	if kind.Bad() {
		v.Kind, v.Alarm = kind, j.crept >= 2 || j.last.Alarm
		return j.say(v)
	}
	if j.tells(stretch) {
		v.Kind = Steady
		return j.say(v)
	}
	v.Kind, v.Alarm, v.Why = CannotTell, j.last.Alarm, j.notYet(v)
	return j.say(v)
}

// notYet says why a stretch does not tell.
func (j Judge) notYet(v Verdict) Reason {
	rateError, predicted := v.RateError.DegreesPerHour(), math.Abs(v.Predicted.DegreesPerHour())
	if predicted > tiltRate().DegreesPerHour() && predicted > j.limits.Sigmas*rateError {
		return FewLights
	}
	return SlowField
}

// stretch returns the last points since the camera turned by a bad step.
func (j Judge) stretch() []point {
	first := len(j.points) - 1
	for first > 0 && len(j.points)-first < stretchLights && !j.bad(j.points[first]) {
		first--
	}
	return j.points[first:]
}

// creeping names the turning of a stretch that none of its steps shows, if there is one, and the parity with it.
// harmful: its rate makes the stars trail, or it is all of what the field turns and will before long. One that
// is neither is Residual too, once it has moved the corner.
func (j Judge) creeping(stretch []point, v *Verdict) (kind Kind, harmful bool) {
	if len(stretch) < fewestCreeping || math.Abs(float64(v.Rate)) <= j.limits.Sigmas*float64(v.RateError) {
		return Steady, false
	}
	last := stretch[len(stretch)-1]
	kind, parity := j.classify(stretch)
	harmful = j.limits.trail(v.Rate.Times(last.exposure)) >= j.limits.TrailPixels
	if fast := sky.Rate(math.Abs(float64(v.Predicted))) > tiltRate(); !harmful && kind != Residual {
		if harmful = fast && j.swings(stretch); !harmful {
			kind, parity = Residual, j.parity
		}
	}
	if !harmful && j.limits.trail(v.Rate.Times(last.at.Sub(stretch[0].at))) < swingPixels {
		return Steady, false
	}
	v.Parity = parity
	return kind, harmful
}

// tells tells whether a derotator that stands still would have been seen: by the last step, or by the stretch,
// which may have gone there and back.
func (j Judge) tells(stretch []point) bool {
	const margin = 1.5
	p := j.points[len(j.points)-1]
	if float64(p.field.Abs()) > margin*j.limits.Sigmas*float64(p.stepSigma) &&
		p.trailAt(j.limits, p.field) >= margin*j.limits.TrailPixels {
		return true
	}
	if len(stretch) < fewestCreeping || !j.swings(stretch) {
		return false
	}
	share, shareError := line(stretch, byFieldAngle)
	return math.Abs(share)+2*shareError < mostTracked
}

// swings tells whether the field itself has turned enough over a stretch.
func (j Judge) swings(stretch []point) bool {
	low, high := math.Inf(1), math.Inf(-1)
	var sigma sky.Angle
	for _, p := range stretch {
		low, high = min(low, float64(p.chi)), max(high, float64(p.chi))
		sigma = max(sigma, p.sigma)
	}
	swing := sky.Angle(high - low)
	return j.limits.trail(swing) >= swingPixels && float64(swing) > swingSigmas*float64(sigma)
}
