package turning

import "duskhand/sky"

// Parity is how the file's pixels lie on the sky.
type Parity int

// The parities. Direct: X right and Y up show the sky as the eye sees it.
const (
	Flipped       Parity = -1
	UnknownParity Parity = 0
	Direct        Parity = 1
)

// CameraTurned returns by how much the camera's position angle grew from the first light to the second,
// positive through east, (−180°, 180°]. While the parity is unknown the sign is that of Direct.
func (p Parity) CameraTurned(t Transform) sky.Angle {
	if p == Flipped {
		return t.Rotation
	}
	return (-t.Rotation).Signed()
}

// ParityOf learns the parity from two lights between which the camera's position angle grew by a known angle:
// one on either side of a rewind, where it grows by −sense·(new − old reading). tolerance is how well that
// angle is known. ok is false when both signs fit, as for half a turn, or neither.
func ParityOf(t Transform, cameraTurned, tolerance sky.Angle) (p Parity, ok bool) {
	fits := func(p Parity) bool {
		return (p.CameraTurned(t) - cameraTurned).Signed().Abs() <= tolerance+5*t.RotationError
	}
	switch direct, flipped := fits(Direct), fits(Flipped); {
	case direct && !flipped:
		return Direct, true
	case flipped && !direct:
		return Flipped, true
	}
	return UnknownParity, false
}
