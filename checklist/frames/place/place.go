// Package place has the lights of a night placed on the sky as they come, and says what their places mean: how far
// off the telescope looks and which way to move it, and which star it is that stands in the middle.
package place

import (
	"errors"
	"math"

	"duskhand/checklist"
	"duskhand/checklist/frames/solve"
	"duskhand/checklist/subs"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/catalog/deep"
)

// How far from where a light should look it is looked for, first and then; and how well the kit's scale is known.
// Our choice.
const (
	besideIt   = 1.5 * sky.Degree
	lost       = 10 * sky.Degree
	scaleKnown = 0.03
)

// Sought is a place at which a light may look.
type Sought struct {
	Name  string // a target's or a star's
	Place sky.J2000
}

// Light is a light that has been measured.
type Light struct {
	Header   subs.Header
	Measured *subs.Measured
}

// Among returns where a light looks that may look at any of several places: within 1.5° of one, the first that
// fits, or else within 10° of the first. The scale is the kit's, binned as the light is, to 3 %. near is the place
// by which it was found. Its error is a *solve.Refusal.
func Among(k kit.Kit, l Light, sought []Sought) (near Sought, placed solve.Placement, err error) {
	var first *solve.Refusal
	for _, s := range sought {
		placed, refused := within(k, l, s.Place, besideIt)
		if refused == nil {
			return s, placed, nil
		}
		if first == nil {
			first = refused
		}
		if refused.Kind == solve.FewInFrame {
			return Sought{}, solve.Placement{}, refused
		}
	}
	if first == nil {
		return Sought{}, solve.Placement{}, &solve.Refusal{Kind: solve.NowhereNear, Stars: len(l.Measured.Stars)}
	}
	placed, refused := within(k, l, sought[0].Place, lost)
	switch {
	case refused == nil:
		return sought[0], placed, nil
	case first.Kind == solve.FewInLayer:
		return Sought{}, solve.Placement{}, first
	}
	return Sought{}, solve.Placement{}, refused
}

// OtherScale returns how much sky a pixel covers by a frame's own header and by the kit, binned as the frame is; ok
// tells that they differ by more than the kit's may be wrong, as those of another telescope do.
func OtherScale(k kit.Kit, h subs.Header) (stated, kits sky.Angle, ok bool) {
	stated, kits = h.PerPixel, perPixel(k, h)
	return stated, kits, stated > 0 && math.Abs(float64(stated/kits)-1) > scaleKnown
}

func perPixel(k kit.Kit, h subs.Header) sky.Angle {
	return sky.Angle(k.ScaleArcsecPerPixel()*float64(max(1, h.BinX))) * sky.Arcsecond
}

func within(k kit.Kit, l Light, at sky.J2000, radius sky.Angle) (solve.Placement, *solve.Refusal) {
	frame := solve.Frame{Stars: l.Measured.Stars, Width: l.Header.Width, Height: l.Header.Height}
	placed, err := solve.Solve(frame, solve.Prior{Near: at, Within: radius, PerPixel: perPixel(k, l.Header), ScaleWithin: scaleKnown}, deep.All)
	var refused *solve.Refusal
	if errors.As(err, &refused) {
		return solve.Placement{}, refused
	}
	return placed, nil
}

// BodyOf returns a placement as the night keeps it.
func BodyOf(name string, p solve.Placement) *checklist.PlacedBody {
	body := &checklist.PlacedBody{Near: name, RADeg: p.Centre.RA.Degrees(), DecDeg: p.Centre.Dec.Degrees(),
		CentreErrorSec: p.CentreError.Arcseconds(), CameraAngleDeg: p.CameraAngle.Degrees(), AngleErrorDeg: p.AngleError.Degrees(),
		ScaleArcsec: p.PerPixel.Arcseconds(), Mirrored: p.Mirrored, StarsMatched: p.Matched}
	if p.ZeroStars >= leastOfZero {
		body.ZeroMag = &p.Zero
	}
	return body
}

// leastOfZero is how many stars it takes to tell the magnitude of a flux of 1: colours scatter by half a magnitude.
// Our choice.
const leastOfZero = 5

func why(err error) string {
	var refused *solve.Refusal
	if errors.As(err, &refused) {
		return string(refused.Kind)
	}
	return ""
}
