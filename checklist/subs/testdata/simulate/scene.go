// Package simulate makes artificial lights of the real sky, for tests: catalogue stars where the chip would have
// them, with the faults of a night put in on purpose. The same Scene and Shot give the same pixels, to the
// last one.
//
// Rows: the first row of a file is the bottom one of the picture, as the FITS standard shows images; TopDown
// turns that over, as some capture programs do. With X right and Y up an unmirrored picture with north up has
// east on the left, so that a camera whose position angle grows sees its stars turn clockwise: from +Y
// towards +X in rows from the bottom, and the other way in a mirrored train or in rows from the top.
package simulate

import (
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Scene is what stays the same from light to light: telescope, camera, sky and where the camera looks.
type Scene struct {
	Sensor      framing.Sensor
	Centre      sky.J2000     // where the middle of the chip looks
	CameraAngle sky.Angle     // position angle of the chip's up, J2000, while nothing has turned it
	Pivot       framing.Pixel // about which the field turns: the guide star; the middle of the chip by default
	TopDown     bool          // the first row is the top one
	Object      string        // as the header names it

	FWHM          float64 // of a star, pixels
	MoffatBeta    float64 // of its wings; 0 makes stars Gaussian
	StarRate      float64 // electrons a second of a star of magnitude 0
	SkyRate       float64 // electrons a second and pixel
	Gradient      float64 // share by which the sky is brighter at the right edge than at the left
	ElectronsADU  float64 // electrons that make one ADU
	ReadNoise     float64 // electrons
	OffsetADU     float64 // of a pixel without light
	HotPixels     int
	HotRate       float64 // electrons a second of the middling hot pixel
	Deep          bool    // all stars of the catalogue's layer, not only those for drawing
	LeastStars    int     // that the chip's circle has; made-up ones below the catalogue's faintest fill up
	FaintestMade  float64 // magnitude of the faintest made-up star
	SensorCelsius float64
	Seed          uint64
}

// NewScene returns a kit's main camera on a target under a dark sky with ordinary seeing. The camera's own
// figures, which no kit has, are those of an ordinary cooled one (common practice).
func NewScene(k kit.Kit, target kit.Target, cameraAngle sky.Angle, seed uint64) Scene {
	s := Small(seed)
	s.Sensor = framing.MainSensor(k)
	s.Centre, s.CameraAngle, s.Object = framing.Middle(target), cameraAngle, target.Name
	s.HotPixels, s.LeastStars = 400, 900
	return s
}

// Small returns a scene of 1000 × 700 pixels of 2″ in the Tarantula nebula's field, for tests that draw many
// frames.
func Small(seed uint64) Scene {
	return Scene{
		Sensor: framing.Sensor{Width: 1000, Height: 700, PerPixel: 2 * sky.Arcsecond},
		Centre: sky.J2000{RA: 84.67 * sky.Degree, Dec: -69.1 * sky.Degree}, Object: "Tarantula",
		FWHM: 2.8,
		// 1000 photons s⁻¹ cm⁻² Å⁻¹ at V = 0 (Bessell, Castelli & Plez 1998), 50 cm², 900 Å, 60 %.
		StarRate: 2.7e7, SkyRate: 1.5,
		ElectronsADU: 0.8, ReadNoise: 3, OffsetADU: 500,
		HotPixels: 40, HotRate: 20, LeastStars: 250, FaintestMade: 15, SensorCelsius: -10, Seed: seed,
	}
}

// Direct tells whether X right and Y up of the file show the sky unmirrored.
func (s Scene) Direct() bool { return s.Sensor.Mirrored == s.TopDown }
