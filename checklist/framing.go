package checklist

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/words"
)

// KindFramed is the event of the operator saying how a target is wanted on the chip.
const KindFramed = "framed"

// FramedBody is the body of KindFramed: the target by its name, the wanted camera angle as a position angle
// of J2000 (nil if any will do), which runs are to have it, where the middle of the chip is wanted from the
// object, and the rows and columns of a mosaic (0 for none).
type FramedBody struct {
	Target         string   `json:"target"`
	CameraAngleDeg *float64 `json:"camera_angle_deg,omitempty"`
	Keep           string   `json:"keep,omitempty"`
	EastArcmin     float64  `json:"middle_east_arcmin"`
	NorthArcmin    float64  `json:"middle_north_arcmin"`
	Rows           int      `json:"rows,omitempty"`
	Columns        int      `json:"columns,omitempty"`
	Overlap        float64  `json:"overlap,omitempty"`
}

// Framing is how a target is wanted on the chip. CameraAngle is a position angle of J2000, nil if any will
// do. Rows and Columns are of a mosaic, 0 for a single field, and Overlap is its neighbours' as a share of a
// field.
type Framing struct {
	Target        string
	CameraAngle   *sky.Angle
	Keep          kit.KeepAngle
	Middle        kit.SkyOffset
	Rows, Columns int
	Overlap       float64
}

// FrameTarget says how a target is wanted on the chip from now on.
type FrameTarget struct{ Framing Framing }

// mostPanels and mostOverlap bound a mosaic to what a night can hold and a grid can mean.
const (
	mostPanels  = 12 // in a row or a column
	mostOverlap = 0.9
)

func (a FrameTarget) event(Night, *time.Location) (string, any, error) {
	f := a.Framing
	if strings.TrimSpace(f.Target) == "" {
		return "", nil, errors.New("the framing names no target; give the one that it is for")
	}
	if err := finite("the framing", f.CameraAngle, &f.Middle.East, &f.Middle.North); err != nil {
		return "", nil, err
	}
	if min(f.Rows, f.Columns) < 0 || max(f.Rows, f.Columns) > mostPanels || (f.Rows == 0) != (f.Columns == 0) {
		return "", nil, fmt.Errorf("a mosaic of %d × %d fields can't be; give rows and columns from 1 to %d", f.Rows, f.Columns, mostPanels)
	}
	if !(f.Overlap >= 0 && f.Overlap <= mostOverlap) {
		return "", nil, fmt.Errorf("fields can't overlap by %g of their size; give a share from 0 to %g", f.Overlap, mostOverlap)
	}
	return KindFramed, FramedBody{
		Target: f.Target, CameraAngleDeg: inDegrees(f.CameraAngle), Keep: string(f.Keep),
		EastArcmin: f.Middle.East.Arcminutes(), NorthArcmin: f.Middle.North.Arcminutes(),
		Rows: f.Rows, Columns: f.Columns, Overlap: f.Overlap,
	}, nil
}

// framed takes a target's framing in place of its earlier one.
func (n *Night) framed(b FramedBody, _ time.Time) {
	kept := make([]Framing, 0, len(n.Framings)+1)
	for _, earlier := range n.Framings {
		if earlier.Target != b.Target {
			kept = append(kept, earlier)
		}
	}
	n.Framings = append(kept, Framing{
		Target: b.Target, CameraAngle: angle(b.CameraAngleDeg), Keep: kit.KeepAngle(b.Keep),
		Middle: kit.SkyOffset{East: sky.Angle(b.EastArcmin) * sky.Arcminute, North: sky.Angle(b.NorthArcmin) * sky.Arcminute},
		Rows:   b.Rows, Columns: b.Columns, Overlap: b.Overlap,
	})
}

// Framing returns how a target was said to be wanted last; ok is false if nothing was said tonight.
func (n Night) Framing(target string) (f Framing, ok bool) {
	for _, f := range n.Framings {
		if f.Target == target {
			return f, true
		}
	}
	return Framing{}, false
}

func framedWords(b FramedBody) string {
	if b.CameraAngleDeg == nil {
		return "framed " + b.Target
	}
	return "framed " + b.Target + " at " + words.DegreesAsRead(degrees(*b.CameraAngleDeg))
}
