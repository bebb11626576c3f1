package turning

import (
	"math"
	"slices"

	"duskhand/sky"
)

// Judge follows the lights of one run and says what the derotator does. It is a value: Next returns the judge
// that knows one light more. A rewind begins a new one.
type Judge struct {
	limits Limits
	parity Parity
	points []point
	last   Verdict
	crept  int // lights in a row whose longer stretch turned harmfully while none of their steps did
}

// NewJudge returns the judge of a run that begins.
func NewJudge(limits Limits, parity Parity) Judge { return Judge{limits: limits, parity: parity} }

// stretchLights is how many lights a stretch has at most: long enough for a creeping derotator, short enough to
// speak of now. Our choice.
const stretchLights = 12

// fewestCreeping is how many lights it takes to see a slow turning that no step shows.
const fewestCreeping = 4

// Next judges a light. Lights come in the order of their starts; one that does not is Unknown.
//
// The alarm comes with the second bad light in a row, when both agree. A light is bad when the field has turned
// since the light before by more than its error allows, and so fast that it does harm.
func (j Judge) Next(l Light) (Judge, Verdict) {
	if l.Compared.Fresh {
		first := point{at: l.Middle(), exposure: l.Exposure, chi: l.FieldAngle, sigma: j.limits.Jitter}
		j.points, j.crept = []point{first}, 0
		return j.say(Verdict{Kind: CannotTell, Alarm: j.last.Alarm, From: first.at, To: first.at, Lights: 1,
			Why: FirstLight})
	}
	if len(j.points) == 0 {
		return j.say(j.unknown(l))
	}
	p, ok := pointAfter(j.points[len(j.points)-1], l, j.parity, j.limits.Jitter)
	if !ok {
		return j.say(j.unknown(l))
	}
	j.points = append(j.points[:len(j.points):len(j.points)], p) // never into a tail that another judge shares
	if n := j.badSteps(); n > 0 {
		j.crept = 0
		return j.say(j.turning(n))
	}
	if v, ok := j.slipped(); ok {
		return j.say(v)
	}
	return j.quiet()
}

func (j Judge) say(v Verdict) (Judge, Verdict) {
	if v.Parity == UnknownParity {
		v.Parity = j.parity
	}
	j.last = v
	return j, v
}

// unknown is the verdict on a light that can't be compared: what was so before is not taken back.
func (j Judge) unknown(l Light) Verdict {
	if l.Compared.Err != nil {
		return Verdict{Kind: Unknown, Alarm: j.last.Alarm, Err: l.Compared.Err}
	}
	return Verdict{Kind: Unknown, Alarm: j.last.Alarm, Why: NotLater}
}

// bad tells whether a step turns the field, and by so much that it does harm.
func (j Judge) bad(p point) bool { return j.turns(p, j.limits.TrailPixels) }

// turns tells whether a step turns the field by more than its errors allow, and the stars trail by so much.
func (j Judge) turns(p point, trailPixels float64) bool {
	return float64(p.step.Abs()) > j.limits.Sigmas*float64(p.stepSigma) && p.trailAt(j.limits, p.step) >= trailPixels
}

// firstShare is which share of harmful a first bad step may be: the turning may have begun within it. Our choice.
const firstShare = 0.25

// badSteps returns how many of the last steps are bad and agree, each with the one before.
func (j Judge) badSteps() int {
	n := 0
	for i := len(j.points) - 1; i > 0; i-- {
		p := j.points[i]
		if n > 0 && !agree(p, j.points[i+1]) {
			break
		}
		if !j.bad(p) {
			if n > 0 && j.turns(p, firstShare*j.limits.TrailPixels) {
				n++
			}
			break
		}
		n++
	}
	return n
}

// agree tells whether two steps in a row are of one turning: at most half as fast again in the first, which may
// have begun within it, by the hour or by what the field itself did.
func agree(first, second point) bool {
	const atMost = 1.5
	within := func(a, b float64) bool { return a*b > 0 && math.Abs(a) <= atMost*math.Abs(b) }
	byField := first.field != 0 && second.field != 0 &&
		within(float64(first.step/first.field), float64(second.step/second.field))
	return byField || within(float64(first.rate()), float64(second.rate()))
}

// turning is the verdict on n bad steps. Of several the first may have begun late and is left out.
func (j Judge) turning(n int) Verdict {
	full := min(max(1, n-1), stretchLights)
	stretch := j.points[len(j.points)-full-1:]
	v := j.describe(stretch)
	v.Kind, v.Parity = j.classify(stretch)
	v.Alarm = n >= 2 || j.last.Alarm
	fast := math.Abs(float64(v.Rate)) > max(stepTimes*math.Abs(float64(v.Predicted)), float64(stepRate))
	v.stepped = n == 1 && v.Kind == Residual && fast
	return v
}

// A single turn between two lights that is faster than both is a step: nothing that the field does lasts so.
// Our choice.
const (
	stepRate  = 30 * sky.DegreePerHour
	stepTimes = 3.0 // what a derotator that is off would leave
)

// Last returns the verdict on the light that was judged last.
func (j Judge) Last() Verdict { return j.last }

// The shares of the predicted turning that count as the derotator being off and reversed. The axis may be known
// badly and the derotator may have stopped within the first light, so they are wide and meet. Our choice.
const leastOff, leastReversed, mostReversed = 0.65, 1.45, 2.7

// classify names the turning of a stretch, and tells the parity if only one makes it Off or Reversed.
func (j Judge) classify(stretch []point) (Kind, Parity) {
	share, shareError := line(stretch, byFieldAngle)
	if !(shareError < 0.2) { // the field hardly turns, or turns there and back
		return Residual, j.parity
	}
	size, parity := math.Abs(share), j.parity
	if parity == UnknownParity {
		parity = Direct
		if share < 0 {
			parity = Flipped
		}
	} else if share < 0 {
		return Residual, j.parity
	}
	switch {
	case size >= leastReversed && size <= mostReversed:
		return Reversed, parity
	case size >= leastOff && size < leastReversed:
		return Off, parity
	}
	return Residual, j.parity
}

// describe fills in the figures of a stretch.
func (j Judge) describe(stretch []point) Verdict {
	rate, rateError := line(stretch, byTime)
	first, last := stretch[0], stretch[len(stretch)-1]
	predicted := float64(last.chi-first.chi) / last.at.Sub(first.at).Seconds()
	return Verdict{
		Rate: sky.Rate(rate), RateError: sky.Rate(rateError), Predicted: sky.Rate(predicted),
		From: first.at, To: last.at, Lights: len(stretch),
	}
}

// Knowing returns the judge of the same lights once it is known which way they lie: what was counted as if they were
// Direct is turned over if they are not. A parity that was known stays.
func (j Judge) Knowing(p Parity) Judge {
	if j.parity != UnknownParity || p == UnknownParity {
		return j
	}
	j.parity = p
	if p == Direct {
		return j
	}
	j.points = slices.Clone(j.points)
	for i := range j.points {
		j.points[i].camera, j.points[i].step = -j.points[i].camera, -j.points[i].step
	}
	j.last.Rate, j.last.Parity = -j.last.Rate, p
	return j
}
