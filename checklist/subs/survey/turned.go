package survey

import (
	"duskhand/checklist"
	"duskhand/checklist/subs"
	"duskhand/checklist/subs/turning"
)

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
