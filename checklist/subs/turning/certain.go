package turning

import "math"

// What the last lights of a stretch must show to be certain; choices of ours.
const (
	fewestCertain = 3   // lights
	agreeSigmas   = 3.0 // by which the turning may differ from what it is taken for
	mostShareErr  = 0.1 // one σ, in parts of what the field turns
)

// certain returns the tail of a stretch that is known best, if it turns as with the derotator off or reversed, so
// surely that no tilt which nobody knows of explains it, whether or not the stars of one light trail. kind is
// Steady when it does not. A tail that reaches back before a derotator stopped scatters about its line, and is
// known worse than a shorter one.
func (j Judge) certain(stretch []point) (tail []point, kind Kind, parity Parity) {
	least := math.Inf(1)
	for ; len(stretch) >= fewestCertain; stretch = stretch[1:] {
		if _, shareError := line(stretch, byFieldAngle); shareError < least {
			tail, least = stretch, shareError
		}
	}
	if tail == nil {
		return nil, Steady, j.parity
	}
	kind, parity = j.surely(tail)
	return tail, kind, parity
}

// surely names the turning of a stretch if it differs from none by many σ, and from that of a derotator which is
// off or reversed by no more than its error.
func (j Judge) surely(stretch []point) (Kind, Parity) {
	predicted := math.Abs(float64(j.describe(stretch).Predicted))
	if predicted <= 2*float64(tiltRate()) {
		return Steady, j.parity
	}
	tilt := float64(tiltRate()) / predicted
	share, shareError := line(stretch, byFieldAngle)
	if !(shareError < mostShareErr) || math.Abs(share) < tilt+j.limits.Sigmas*shareError {
		return Steady, j.parity
	}
	kind, parity := j.classify(stretch)
	whole := map[Kind]float64{Off: 1, Reversed: 2}[kind]
	if whole == 0 || math.Abs(math.Abs(share)-whole) > tilt+agreeSigmas*shareError {
		return Steady, j.parity
	}
	return kind, parity
}
