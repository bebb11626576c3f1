package survey

import (
	"math"
	"math/cmplx"

	"duskhand/checklist"
	"duskhand/checklist/subs"
	"duskhand/checklist/subs/arrival"
	"duskhand/checklist/subs/turning"
	"duskhand/plan/framing"
	"duskhand/sky"
)

// turned is how the camera turned between two runs: by the stars of the lights beside the turn, or else by where both look.
// before is the survey while it followed the run before.
func (s Survey) turned(before following, over *turning.Transform, f arrival.Frame, e arrival.Entry, n checklist.Night) *checklist.TurnedBody {
	begun := n.Runs[e.Run].Start
	if body := turnedBody(over, e.Header, s.parity, n.LeftAlone(before.last, begun)); body != nil {
		return body
	}
	last, ok := placedBefore(n, e.Run)
	if !ok || f.Placed == nil {
		return nil
	}
	light, _ := last.Began()
	return turnedByPlaces(*last.Placed, *f.Placed, e.Header, n.LeftAlone(light, begun))
}

// placedBefore is the last placed light of the run before one, on the same target.
func placedBefore(n checklist.Night, run int) (last checklist.Arrived, ok bool) {
	if run < 1 || !sameTarget(n.Runs[run-1].Target, n.Runs[run].Target) {
		return last, false
	}
	before := n.Runs[run-1]
	for _, a := range n.Placed() {
		began, known := a.Began()
		if known && !began.Before(before.Start) && began.Before(before.End) {
			last, ok = a, true
		}
	}
	return last, ok
}

func sameTarget(a, b *checklist.Target) bool {
	if a == nil || b == nil {
		return a == b
	}
	return a.Name == b.Name
}

// leastTurnByPlaces is the turn that places of lights are taken to tell: of less the errors of both are too much.
const leastTurnByPlaces = 1 * sky.Degree

// turnedByPlaces is how the camera turned between two lights of which it is known where they look; nil where it did not.
//
// Source: own derivation. What a pixel of the first light shows stands in the second at p·r + s, in complex numbers and to
// the flatness of the sky, and p = s/(1 − r) stays. The angle's error moves it as an error of |p| times as much in s.
func turnedByPlaces(before, after checklist.PlacedBody, h subs.Header, free bool) *checklist.TurnedBody {
	const apart = 1000 // pixels: as far as an arm of the turn is
	chip := func(p checklist.PlacedBody) framing.Chip {
		return framing.NewChip(framing.Sensor{PerPixel: before.PerPixel(), Mirrored: p.Mirrored}, p.Centre(), p.CameraAngle())
	}
	first, second := chip(before), chip(after)
	into := func(x float64) (p complex128, ok bool) {
		pixel, ok := second.Pixel(first.Sky(framing.Pixel{X: x}))
		return complex(pixel.X, pixel.Y), ok
	}
	shift, ok1 := into(0)
	arm, ok2 := into(apart)
	turn := arm - shift
	rotation := sky.Angle(cmplx.Phase(turn))
	if !ok1 || !ok2 || before.Mirrored != after.Mirrored || rotation.Abs() < leastTurnByPlaces {
		return nil
	}
	stays := shift / (1 - turn/complex(cmplx.Abs(turn), 0))
	angle := math.Hypot(float64(before.AngleError()), float64(after.AngleError()))
	off := math.Hypot(math.Hypot(before.CentreErrorSec, after.CentreErrorSec)/before.ScaleArcsec, cmplx.Abs(stays)*angle)
	binX, binY := float64(max(1, h.BinX)), float64(max(1, h.BinY))
	parity := turning.Direct
	if after.Mirrored {
		parity = turning.Flipped
	}
	return &checklist.TurnedBody{RotationDeg: rotation.Degrees(), AboutX: real(stays) * binX, AboutY: imag(stays) * binY,
		ErrorPx: off * binX, Parity: int(parity), Free: free}
}

// turnedBody is how the camera turned between two runs, as the event has it; nil where nothing turned or nobody can tell.
func turnedBody(over *turning.Transform, h subs.Header, parity turning.Parity, free bool) *checklist.TurnedBody {
	if over == nil {
		return nil
	}
	x, y, ok := over.Fixed()
	if !ok {
		return nil
	}
	binX, binY := float64(max(1, h.BinX)), float64(max(1, h.BinY))
	return &checklist.TurnedBody{RotationDeg: over.Rotation.Degrees(), AboutX: (x - float64(h.Width-1)/2) * binX,
		AboutY: (y - float64(h.Height-1)/2) * binY, ErrorPx: over.ShiftError * binX, Parity: int(parity), Free: free}
}
