package turning

import "math/cmplx"

// Fixed returns the place that the transform leaves where it is: about it the field has turned. ok is false where
// nothing turned, or less than its error tells.
//
// Source: own derivation: p = m + s + r·(p − m) with r the turn and the scale in one complex number.
func (t Transform) Fixed() (x, y float64, ok bool) {
	if t.Rotation.Abs() <= 5*t.RotationError || t.Rotation == 0 {
		return 0, 0, false
	}
	shift := complex(t.ShiftX, t.ShiftY) / (1 - cmplx.Rect(t.Scale, float64(t.Rotation)))
	return t.MiddleX + real(shift), t.MiddleY + imag(shift), true
}
