// Package turning tells from the stars of consecutive lights whether the field turns: whether the derotator
// tracks, stands still, turns the wrong way or creeps.
//
// Sign. In the pixel coordinates of package subs a Rotation is positive from +X towards +Y, and says how the
// stars moved. What the camera did on the sky, its position angle's growth, positive through east as χ is, has
// the opposite sign when X right and Y up of the file show the sky as the eye sees it: rows from the bottom
// and no mirror, or both the other way (Direct). A mirrored train or rows from the top alone make it the same
// sign (Flipped). Pixels alone can't tell which; a rewind of known angle can: see ParityOf. While the parity is
// unknown the verdicts go by sizes.
package turning

import (
	"math"

	"duskhand/checklist/subs"
	"duskhand/sky"
)

// Transform carries the stars of one light onto those of another.
type Transform struct {
	Rotation      sky.Angle // from +X towards +Y, (−180°, 180°]
	RotationError sky.Angle // one σ
	Scale         float64   // of the second light over the first
	MiddleX       float64   // of the matched stars in the first light, pixels
	MiddleY       float64
	ShiftX        float64 // by which that middle moved, pixels
	ShiftY        float64
	ShiftError    float64 // one σ of each of them, pixels
	Matched       int     // stars
	RMS           float64 // of the distances left between matched stars, pixels
}

// Apply returns where a place of the first light lies in the second.
func (t Transform) Apply(x, y float64) (movedX, movedY float64) {
	sin, cos := math.Sincos(float64(t.Rotation))
	x, y = t.Scale*(x-t.MiddleX), t.Scale*(y-t.MiddleY)
	return t.MiddleX + t.ShiftX + cos*x - sin*y, t.MiddleY + t.ShiftY + sin*x + cos*y
}

// MovedAt returns how far a place of the first light has moved.
func (t Transform) MovedAt(x, y float64) (dx, dy float64) {
	movedX, movedY := t.Apply(x, y)
	return movedX - x, movedY - y
}

// Still is the transform of a light onto itself.
func Still() Transform { return Transform{Scale: 1} }

// sound tells whether a star's numbers are numbers.
func sound(s subs.Star) bool {
	return !math.IsNaN(s.X+s.Y+s.Flux) && !math.IsInf(s.X+s.Y+s.Flux, 0) && s.Flux > 0
}
