// Package drift tells how the picture drifts within a run by where its placed lights look, and why, where lights can tell
// one cause from another.
package drift

import (
	"math"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/frames/place"
	"duskhand/checklist/frames/stage"
	"duskhand/checklist/scatter"
	"duskhand/plan"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Kind is why the picture drifts.
type Kind string

// The kinds. None: too few lights, or no more than dithers do by chance. Unguided: nothing guides, and the mount's
// alignment, refraction and telescopes that bend look alike. Turns: it is guided and the field turns as it drifts, so
// that its middle goes round the guide star. Bends: it is guided and the field stands: the two telescopes part, or
// the guiding walks, which lights of the one telescope can not tell apart.
const (
	None     Kind = "none"
	Unguided Kind = "unguided"
	Turns    Kind = "turns"
	Bends    Kind = "bends"
)

// Finding is how the middle of the chip moved on the sky, away from where it is wanted.
type Finding struct {
	Kind              Kind
	Lights            int
	From, To          time.Time // the middles of the first and the last
	Azimuth, Altitude sky.Rate  // on the sky, along the mount's own axes: clockwise from above, and up
	Rate, Error       sky.Rate  // of the whole, one σ by the scatter of dithers and seeing
}

// The bounds of what is told; choices of ours. A drift of two pixels over a run shows in the stack's corners at most;
// five times its own scatter is no chance.
const (
	fewestLights = 8
	leastSpan    = 20 * time.Minute
	leastPixels  = 2.0
	sigmas       = 5.0
	leastTurning = 0.1 * sky.DegreePerHour
)

// Of returns what the placed lights of the run that goes on show since the target was last brought back to its place and
// guiding last began or ended.
//
// night is that of the course; axis is the mount's as known, airless.
//
// Method: a straight line through the offsets along each axis by least squares (scatter.Line).
func Of(n checklist.Night, night *plan.Night, axis kit.Axis, course *plan.Course) Finding {
	f := Finding{Kind: None}
	run, open := n.OpenRun()
	if !open {
		return f
	}
	since := begins(n, run)
	var hours, azimuths, altitudes []float64
	mount, wanted := sky.MountAxis(axis.Tilt, axis.Toward), framing.Middle(course.Target)
	for _, light := range n.Placed() {
		began, _ := light.Began()
		at, dated := light.Middle()
		if !dated || began.Before(since) {
			continue
		}
		move, ok := framing.Move(mount, place.Direction(night, wanted, at), place.Direction(night, light.Placed.Centre(), at))
		if !ok {
			continue
		}
		if f.Lights++; f.Lights == 1 {
			f.From = at
		}
		f.To = at
		hours = append(hours, at.Sub(f.From).Hours())
		azimuths, altitudes = append(azimuths, float64(move.AzimuthOnSky)), append(altitudes, float64(move.Altitude))
	}
	if f.Lights < fewestLights || f.To.Sub(f.From) < leastSpan {
		return f
	}
	east, sigmaEast := scatter.Line(hours, azimuths)
	up, sigmaUp := scatter.Line(hours, altitudes)
	f.Azimuth, f.Altitude = perHour(east), perHour(up)
	f.Rate, f.Error = perHour(math.Hypot(east, up)), perHour(math.Hypot(sigmaEast, sigmaUp)/math.Sqrt2)
	pixels := math.Hypot(east, up) * hours[len(hours)-1] / (course.Kit.ScaleArcsecPerPixel() * float64(sky.Arcsecond))
	if f.Rate < sigmas*f.Error || pixels < leastPixels {
		return f
	}
	switch {
	case !n.Guiding.On || n.Guiding.Lost != nil:
		f.Kind = Unguided
	case turns(n, course, since):
		f.Kind = Turns
	default:
		f.Kind = Bends
	}
	return f
}

// begins is since when the lights of a run belong together.
func begins(n checklist.Night, run checklist.Run) time.Time {
	since := run.Start
	for _, t := range []*time.Time{n.Recentred, &n.Guiding.Since, n.Guiding.Lost} {
		if t != nil && t.After(since) {
			since = *t
		}
	}
	return since
}

// turns tells that the camera turned meanwhile, by more than its lights scatter.
func turns(n checklist.Night, course *plan.Course, since time.Time) bool {
	var hours, angles []float64
	var first sky.Angle
	for _, l := range stage.SeenOf(n, course) {
		if l.At.Before(since) {
			continue
		}
		if len(angles) == 0 {
			first = l.Camera
		}
		hours, angles = append(hours, l.At.Sub(since).Hours()), append(angles, float64((l.Camera-first).Signed()))
	}
	if len(angles) < fewestLights {
		return false
	}
	rate, sigma := scatter.Line(hours, angles)
	return math.Abs(rate) > sigmas*sigma && perHour(math.Abs(rate)) > leastTurning
}

// perHour makes a rate of radians an hour.
func perHour(radians float64) sky.Rate {
	return sky.Rate(sky.Angle(radians).Degrees()) * sky.DegreePerHour
}
