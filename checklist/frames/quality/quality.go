// Package quality tells what the lights of a night show of optics, mount and exposure, beyond focus, cloud and the
// turning field: kinds with numbers, and only what matters.
package quality

import (
	"math"
	"time"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Kind is what a finding is about.
type Kind string

// The kinds. Tilted: stars are larger at one edge. Curved: in the corners than in the middle. Elongated: stars are
// long along an axis of the mount or of the sky. SmallDithers: the picture moves too little from dither to dither.
// Saturates: many pixels are full.
const (
	Tilted       Kind = "tilted"
	Curved       Kind = "curved"
	Elongated    Kind = "elongated"
	SmallDithers Kind = "small dithers"
	Saturates    Kind = "saturates"
)

// Edge is an edge of the picture in the order of the file.
type Edge string

// The edges.
const (
	Left     Edge = "left"
	Right    Edge = "right"
	FirstRow Edge = "first row"
	LastRow  Edge = "last row"
)

// Along is a direction in which stars are long.
type Along string

// The directions. AltitudeOrDeclination and AzimuthOrRightAscension are those of a target near its meridian, where the
// two can't be told apart.
const (
	Altitude                Along = "altitude"
	Azimuth                 Along = "azimuth"
	RightAscension          Along = "right ascension"
	Declination             Along = "declination"
	AltitudeOrDeclination   Along = "altitude or declination"
	AzimuthOrRightAscension Along = "azimuth or right ascension"
)

// Finding is what the latest lights of a run show together.
type Finding struct {
	Kind   Kind
	At     time.Time // start of the last light that shows it
	Lights int       // that it rests on
	// Share is by how much stars are larger there (Tilted, Curved), long over wide (Elongated), or which part of the
	// pixels is full (Saturates).
	Share  float64
	Edge   Edge    // of Tilted
	Along  Along   // of Elongated
	Pixels float64 // by which a dither moves the picture (SmallDithers)
	Colour string  // that is full first, of a colour chip (Saturates)
}

// The bounds of what matters; choices of ours. A quarter more diameter is half as much again of area.
const (
	lights         = 5 // the latest that are looked at
	leastLights    = 3
	tilted         = 0.25
	curved         = 0.30
	elongated      = 1.25
	alongWithin    = 15 * sky.Degree
	smallDither    = 1.5    // pixels: fixed pattern runs over one or two
	leastDithers   = 4      // that tell
	saturatedShare = 0.0005 // of the pixels
)

// Of returns what the latest lights of the last run in which there are lights show, at most one of each kind. course is
// that of the target which is looked at; nil leaves out what needs one.
func Of(n checklist.Night, k kit.Kit, course *plan.Course) (found []Finding) {
	last := latest(n)
	if len(last) < leastLights {
		return nil
	}
	for _, look := range []func() (Finding, bool){
		func() (Finding, bool) { return unevenness(last) },
		func() (Finding, bool) { return elongation(last, course) },
		func() (Finding, bool) { return dithers(n, k) },
		func() (Finding, bool) { return saturation(last) },
	} {
		if f, ok := look(); ok {
			f.At, _ = last[len(last)-1].Began()
			found = append(found, f)
		}
	}
	return found
}

// latest returns the last lights that were measured, since the last rewind and of one filter with the last.
func latest(n checklist.Night) (last []checklist.Arrived) {
	since := time.Time{}
	if k := len(n.Runs); k > 0 {
		since = n.Runs[k-1].Start
	}
	for i := len(n.Arrived) - 1; i >= 0 && len(last) < lights; i-- {
		a := n.Arrived[i]
		began, dated := a.Began()
		if a.Measured == nil || a.Was != "" || !dated || began.Before(since) || a.Kind != "light" && a.Kind != "" {
			continue
		}
		if len(last) > 0 && a.Filter != last[len(last)-1].Filter {
			continue
		}
		last = append([]checklist.Arrived{a}, last...)
	}
	return last
}

// saturation tells that many pixels are full in all the lights.
func saturation(last []checklist.Arrived) (f Finding, ok bool) {
	f = Finding{Kind: Saturates, Lights: len(last), Share: math.Inf(1)}
	for _, a := range last {
		f.Share = math.Min(f.Share, a.Measured.Saturated)
	}
	most := 0.0
	for _, c := range last[len(last)-1].Measured.Colours {
		if c.Saturated > most {
			most, f.Colour = c.Saturated, c.Colour
		}
	}
	return f, f.Share >= saturatedShare
}
