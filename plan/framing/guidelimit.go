package framing

import (
	"math"
	"time"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// GuideLight is what decides how faint a star the guide camera can hold. The kit knows aperture, focal
// length, pixel and exposure; the rest is DefaultGuideLight's, our choice.
type GuideLight struct {
	ApertureMM       float64
	PerPixel         sky.Angle
	Exposure         time.Duration
	Throughput       float64   // electrons for each photon above the air: air, lenses and chip together
	BandAngstrom     float64   // of the light that the camera takes, unfiltered
	StarWidth        sky.Angle // full width at half maximum of a star's image
	SkyMagPerArcsec2 float64   // V
	ReadNoise        float64   // electrons
	SignalToNoise    float64   // that a star must reach in one exposure
}

// PhotonsAtMag0 is how many photons a star of V = 0 sends, for each cm², second and Å, above the air.
// Source: Bessell, Castelli & Plez 1998, A&A 333, 231, rounded.
const PhotonsAtMag0 = 1.0e3

// DefaultGuideLight returns the kit's guide telescope with cautious values for what it does not say: a third
// of the light counted, 3000 Å of band, images of 4″, a suburban sky of 19 mag per square second of arc, 5
// electrons of read noise, and twenty times the noise asked for, which leaves room for thin cloud. Our
// choice. ok is false without a guide telescope and camera.
func DefaultGuideLight(k kit.Kit) (light GuideLight, ok bool) {
	sensor, ok := GuideSensor(k)
	if !ok {
		return GuideLight{}, false
	}
	return GuideLight{
		ApertureMM: k.Optics.GuideApertureMM, PerPixel: sensor.PerPixel, Exposure: k.Guide.Exposure,
		Throughput: 0.35, BandAngstrom: 3000, StarWidth: 4 * sky.Arcsecond, SkyMagPerArcsec2: 19,
		ReadNoise: 5, SignalToNoise: 20,
	}, true
}

// FaintestMag returns the V magnitude of the faintest star that reaches the signal to noise asked for, its
// light summed over a circle of twice its width, at least a square of 3 × 3 pixels.
//
// Source: the CCD equation, S/N = N/√(N + n·(B + R²)), solved for N (Howell, Handbook of CCD Astronomy,
// ch. 4), without dark current.
func (g GuideLight) FaintestMag() float64 {
	pixel := g.PerPixel.Arcseconds()
	atMag0 := PhotonsAtMag0 * math.Pi / 4 * math.Pow(g.ApertureMM/10, 2) * g.BandAngstrom * g.Throughput * g.Exposure.Seconds()
	skyPerPixel := atMag0 * math.Pow(10, -0.4*g.SkyMagPerArcsec2) * pixel * pixel
	pixels := math.Max(9, math.Pi*math.Pow(g.StarWidth.Arcseconds()/pixel, 2))
	noise2 := pixels * (skyPerPixel + g.ReadNoise*g.ReadNoise)
	snr2 := g.SignalToNoise * g.SignalToNoise
	needed := snr2 / 2 * (1 + math.Sqrt(1+4*noise2/snr2))
	return -2.5 * math.Log10(needed/atMag0)
}
