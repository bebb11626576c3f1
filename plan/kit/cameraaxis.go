package kit

// PixelOffset is a place on the chip in pixels from its middle, right and up as the picture shows it.
type PixelOffset struct{ Right, Up float64 }

func cameraAxisFields() []field {
	axis := func(d *draft) *PixelOffset {
		if d.kit.Camera.Axis == nil {
			d.kit.Camera.Axis = &PixelOffset{}
		}
		return d.kit.Camera.Axis
	}
	return []field{
		{key: "camera.axis_right_px", kind: number, unit: "pixels", min: -50000, max: 50000, need: optional, example: "120",
			help: "Where the derotator's axis meets the chip, to the right of its middle as the picture shows it; learned from rewinds if left out.",
			set:  func(d *draft, v value) { axis(d).Right = v.number }},
		{key: "camera.axis_up_px", kind: number, unit: "pixels", min: -50000, max: 50000, need: optional, example: "-45",
			help: "And above its middle.",
			set:  func(d *draft, v value) { axis(d).Up = v.number }},
	}
}

func (r *reader) checkCameraAxis() { r.together("camera.axis_right_px", "camera.axis_up_px") }
