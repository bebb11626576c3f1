package framing

import (
	"duskhand/plan"
	"duskhand/sky"
)

// Shared is what the first so many runs of a night have in common.
type Shared struct {
	CameraAngles []sky.Angle // of those runs, in order
	Common       plan.CommonField
	ObjectShare  float64 // of the object's outline that lies in it, 0 to 1; 0 without an outline
}

// SharedBy returns the common field after the first run, the first two and so on, for frames of one sensor
// turned about their middles, and how much of an object each still holds. outline is nil when the object's
// size is not known; from is where the object lies from the middle of the frame.
//
// All angles of one epoch: of date, as the runs have them, or J2000. The outline's is J2000 then too, or wrong
// by SinceJ2000, which moves no digit that one would print.
func SharedBy(s Sensor, cameraAngles []sky.Angle, outline *Ellipse, from PlanePoint) []Shared {
	width, height := s.PlaneSize()
	shared := make([]Shared, len(cameraAngles))
	for i := range cameraAngles {
		angles := cameraAngles[:i+1]
		shared[i] = Shared{CameraAngles: angles, Common: plan.Overlap(width, height, angles)}
		if outline != nil {
			shared[i].ObjectShare = outline.ShareWithin(shared[i].Common.Outline, cameraAngles[0], from)
		}
	}
	return shared
}
