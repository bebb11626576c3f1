package exposure

import (
	"math"
	"time"
)

// ShortestSub returns the shortest sub in which a read noise (electrons, rms, of one pixel) raises the noise of
// an empty pixel by no more than a share. background is what sky and dark current give that pixel, in
// electrons each second. ok is false when not even a day's exposure is enough.
//
// Source: the project's handbook, section 10: t ≥ R² / (((1+p)² − 1)·B).
func ShortestSub(readNoiseE, backgroundEPerS, share float64) (sub time.Duration, ok bool) {
	return lasting(readNoiseE * readNoiseE / (((1+share)*(1+share) - 1) * backgroundEPerS))
}

// ReadNoiseShare returns by which share the read noise raises the noise of an empty pixel in a sub: what
// ShortestSub turns round.
func ReadNoiseShare(readNoiseE, backgroundEPerS float64, sub time.Duration) float64 {
	return math.Sqrt(1+readNoiseE*readNoiseE/(backgroundEPerS*sub.Seconds())) - 1
}
