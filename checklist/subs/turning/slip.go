package turning

// restShare is which part of a turn the light after it may turn still, and the turn have been a single one. Our
// choice.
const restShare = 0.2

// slipped returns the verdict on a light that holds still after the one before it had turned: the camera turned
// once, by a slip, and the derotator follows again. Until then a slip looks like a derotator that is off, when it is
// about as large as what the field turned meanwhile. ok is false when it did not, when the turn has been named
// already, or when the field itself turned too little since for a derotator that is off to show.
func (j Judge) slipped() (v Verdict, ok bool) {
	n := len(j.points)
	if n < 4 || j.last.stepped || j.last.Alarm {
		return Verdict{}, false
	}
	before, turned, last := j.points[n-3], j.points[n-2], j.points[n-1]
	rest := max(restShare*float64(turned.step.Abs()), j.limits.Sigmas*float64(last.stepSigma))
	if !j.bad(turned) || j.bad(before) || float64(last.step.Abs()) > rest || float64(last.field.Abs()) <= 2*rest {
		return Verdict{}, false
	}
	v = j.describe([]point{before, turned})
	v.Kind, v.stepped = Residual, true
	return v, true
}
