package kit

import (
	"fmt"
	"math"
	"time"

	"duskhand/sky"
	"duskhand/sky/words"
)

// Guide is the guide camera, whose size is 0 when the file is silent about it, and how it sits. Both
// telescopes ride on the derotator and turn together, so that what separates them stays the same in the
// axes of the main chip all night: Offset is where the guide telescope looks, nil while nobody knows;
// Turned is the angle of the guide chip's up from the main chip's up, north through east.
type Guide struct {
	PixelUM       float64
	Width, Height int // pixels
	Exposure      time.Duration
	Offset        *ChipOffset
	Turned        sky.Angle
	Corrections   Corrections // "" while nobody knows
	Gain          float64     // share of the error that is corrected each time, above 0 and below 1
}

// Corrections is what the mount does with a correction of the guiding, the camera riding on the derotator.
// A calibration survives by it, or ages.
type Corrections string

// The kinds of mount.
const (
	TurnedCorrections Corrections = "turned" // it turns them with its derotator
	AxesCorrections   Corrections = "axes"   // it moves its own two axes as told
	SkyCorrections    Corrections = "sky"    // it moves in right ascension and declination
)

// AllCorrections returns the kinds in the order of the kit's help.
func AllCorrections() []Corrections {
	return []Corrections{TurnedCorrections, AxesCorrections, SkyCorrections}
}

// ChipOffset is a direction away from the middle of the main chip: along its right and its up as the
// picture shows them, in the tangent plane.
type ChipOffset struct{ Right, Up sky.Angle }

// Has tells whether the guide camera's chip is known.
func (g Guide) Has() bool { return g.PixelUM > 0 && g.Width > 0 && g.Height > 0 }

// SkyOffset is a direction away from an object, east and north of it (J2000), in the tangent plane.
type SkyOffset struct{ East, North sky.Angle }

func (d *draft) guideOffset() *ChipOffset {
	if d.kit.Guide.Offset == nil {
		d.kit.Guide.Offset = &ChipOffset{}
	}
	return d.kit.Guide.Offset
}

func guideFields() []field {
	return []field{
		{key: "guide.pixel_um", kind: number, unit: "µm", min: 0.5, max: 50, need: optional, example: "3.75",
			help: "Side of one pixel of the guide camera, unbinned.",
			set:  func(d *draft, v value) { d.kit.Guide.PixelUM = v.number }},
		{key: "guide.width_px", kind: whole, unit: "pixels", min: 16, max: 50000, need: optional, example: "1280",
			help: "Width of its chip.",
			set:  func(d *draft, v value) { d.kit.Guide.Width = v.whole() }},
		{key: "guide.height_px", kind: whole, unit: "pixels", min: 16, max: 50000, need: optional, example: "960",
			help: "Height of its chip.",
			set:  func(d *draft, v value) { d.kit.Guide.Height = v.whole() }},
		{key: "guide.exposure_s", kind: number, unit: "s", min: 0.01, max: 60, fallback: 2.0, example: "2",
			help: "Exposure of the guide camera.",
			set:  func(d *draft, v value) { d.kit.Guide.Exposure = v.seconds() }},
		{key: "guide.right_deg", kind: number, unit: "degrees", min: -20, max: 20, need: optional, example: "0.3",
			help: "How far the guide telescope looks to the right of the main one, as the main camera's picture shows it.",
			set:  func(d *draft, v value) { d.guideOffset().Right = v.degrees() }},
		{key: "guide.up_deg", kind: number, unit: "degrees", min: -20, max: 20, need: optional, example: "-0.2",
			help: "How far it looks above the main one, in the same picture.",
			set:  func(d *draft, v value) { d.guideOffset().Up = v.degrees() }},
		{key: "guide.turned_deg", kind: number, unit: "degrees", min: -360, max: 360, fallback: 0.0, example: "0",
			help: "Angle of the guide chip's up from the main chip's up, north through east.",
			set:  func(d *draft, v value) { d.kit.Guide.Turned = v.degrees() }},
		{key: "guide.corrections", kind: choice, options: correctionsNames(), need: optional, example: "turned",
			help: "What your mount does with a guiding correction: turns it with the derotator, moves its own axes, or moves in right ascension and declination; leave it out if you don't know.",
			set:  func(d *draft, v value) { d.kit.Guide.Corrections = Corrections(v.text) }},
		{key: "guide.gain", kind: number, min: 0.05, max: 0.95, fallback: 0.5, example: "0.5",
			help: "Share of the error that the guiding corrects each time.",
			set:  func(d *draft, v value) { d.kit.Guide.Gain = v.number }},
	}
}

func correctionsNames() []string {
	var names []string
	for _, c := range AllCorrections() {
		names = append(names, string(c))
	}
	return names
}

func (r *reader) checkGuide() {
	r.together("guide.pixel_um", "guide.width_px", "guide.height_px")
	r.together("guide.right_deg", "guide.up_deg")
	const length, pixel = "optics.guide_focal_length_mm", "guide.pixel_um"
	if r.sound(pixel) && !r.given[length] {
		r.fault(pixel, fmt.Sprintf("needs the guide telescope; give %s and optics.guide_aperture_mm too", length))
	}
	if !r.sound(length, pixel, "guide.width_px", "guide.height_px") {
		return
	}
	const widest = 90 * sky.Degree
	g := r.draft.kit.Guide
	half := float64(max(g.Width, g.Height)) * g.PixelUM / 2000 / r.draft.kit.Optics.GuideFocalLengthMM
	if across := sky.Angle(2 * math.Atan(half)); across >= widest {
		r.accuse(pixel, fmt.Sprintf("makes a field of %s with", words.Degrees(across, 0)), length,
			"check both and the guide chip's width and height; less than 90° is right")
	}
}

// together faults the first given one of fields that make sense only with all the others.
func (r *reader) together(paths ...string) {
	present, absent := "", ""
	for _, path := range paths {
		switch {
		case r.given[path] && present == "":
			present = path
		case !r.given[path] && absent == "":
			absent = path
		}
	}
	if present != "" && absent != "" {
		r.fault(present, fmt.Sprintf("stands alone; give %s too, or neither", absent))
	}
}
