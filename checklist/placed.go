package checklist

import (
	"time"

	"duskhand/checklist/journal"
	"duskhand/sky"
)

// PlacedBody is where a light looks, by its stars. Places and angles are J2000 and those of the middle of the chip;
// the camera angle is the position angle of growing row number, north through east. Errors are one σ.
type PlacedBody struct {
	Near           string  `json:"near"` // what it was looked for by: a target's name or a star's
	RADeg          float64 `json:"ra_deg"`
	DecDeg         float64 `json:"dec_deg"`
	CentreErrorSec float64 `json:"centre_error_arcsec"`
	CameraAngleDeg float64 `json:"camera_angle_deg"`
	AngleErrorDeg  float64 `json:"angle_error_deg"`
	ScaleArcsec    float64 `json:"scale_arcsec_per_px"`
	Mirrored       bool    `json:"mirrored"`
	StarsMatched   int     `json:"stars_matched"`
	// ZeroMag is the magnitude, VT, of a star whose flux is 1 ADU in this light; nil where too few stars tell.
	ZeroMag *float64 `json:"zero_mag,omitempty"`
}

// Centre returns where the middle of the chip looks.
func (p PlacedBody) Centre() sky.J2000 {
	return sky.J2000{RA: sky.Angle(p.RADeg) * sky.Degree, Dec: sky.Angle(p.DecDeg) * sky.Degree}
}

// CameraAngle returns the position angle of growing row number at the middle, J2000, [0°, 360°).
func (p PlacedBody) CameraAngle() sky.Angle { return sky.Angle(p.CameraAngleDeg) * sky.Degree }

// AngleError returns one σ of the camera angle.
func (p PlacedBody) AngleError() sky.Angle { return sky.Angle(p.AngleErrorDeg) * sky.Degree }

// PerPixel returns the angle of one of the frame's pixels at the middle.
func (p PlacedBody) PerPixel() sky.Angle { return sky.Angle(p.ScaleArcsec) * sky.Arcsecond }

// Middle returns the middle of the exposure on our clock; ok is false when nobody knows when it began.
func (a Arrived) Middle() (at time.Time, ok bool) {
	began, ok := a.Began()
	if !ok || a.ExposureS == nil {
		return began, ok
	}
	return began.Add(time.Duration(*a.ExposureS / 2 * float64(time.Second))), true
}

// Placed returns the lights that were placed, in the order in which they were read.
func (n Night) Placed() []Arrived {
	var placed []Arrived
	for _, a := range n.Arrived {
		if a.Placed != nil {
			placed = append(placed, a)
		}
	}
	return placed
}

// PlacedBy returns the path of the light whose arrival an event is, if it was placed.
func PlacedBy(e journal.Event) (path string, ok bool) {
	body, ok := decode[SubArrivedBody](e)
	return body.Path, ok && e.Kind == KindSubArrived && body.Placed != nil
}
