package exposure

import (
	"math"
	"time"
)

// Pixel is what one pixel of an object gathers: electrons each second of the object, the sky and the dark
// current, and the read noise in electrons, rms.
type Pixel struct {
	ObjectEPerS, SkyEPerS, DarkEPerS float64
	ReadNoiseE                       float64
}

// noise2 is the variance of one sub of so many seconds, in electrons squared.
func (p Pixel) noise2(seconds float64) float64 {
	return (p.ObjectEPerS+p.SkyEPerS+p.DarkEPerS)*seconds + p.ReadNoiseE*p.ReadNoiseE
}

// SignalToNoise returns the signal to noise of the object over so many pixels alike, 1 for a single one, in a
// sum of subs.
//
// Error:  flats, gradients and the subtraction of the sky add noise of their own, which is not in it.
// Source: the CCD equation, Howell, Handbook of CCD Astronomy, ch. 4, with many pixels of sky to subtract.
func (p Pixel) SignalToNoise(pixels float64, subs int, sub time.Duration) float64 {
	t := sub.Seconds()
	if subs <= 0 || t <= 0 || p.ObjectEPerS == 0 {
		return 0
	}
	return p.ObjectEPerS * t * math.Sqrt(float64(subs)*pixels/p.noise2(t))
}

// SubsFor returns how many subs give a signal to noise over so many pixels; ok is false when it takes more than
// a million of them.
func (p Pixel) SubsFor(signalToNoise, pixels float64, sub time.Duration) (subs int, ok bool) {
	const most = 1e6
	one := p.SignalToNoise(pixels, 1, sub)
	n := math.Ceil(math.Pow(signalToNoise/one, 2) - 1e-9) // a wish that whole subs meet exactly takes no further one
	if !(n <= most) {
		return 0, false
	}
	return int(math.Max(1, n)), true
}
