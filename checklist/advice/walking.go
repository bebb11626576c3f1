package advice

import (
	"math"
	"math/cmplx"
	"time"

	"duskhand/checklist"
	"duskhand/sky"
)

// Walk is how the lights of the run move while guiding is said to be on: By on the sky in For, the same way each time.
type Walk struct {
	By  sky.Angle
	For time.Duration
}

// What a walk is; choices of ours, tried on simulated dithers. What bends between the telescopes (common practice:
// some seconds of arc an hour) is slower.
const (
	walkSteps   = 4                  // from each light to the next
	walkWithin  = 25 * sky.Degree    // of the whole way that each step must keep to
	walkEven    = 2.0                // by which factor a step may be quicker or slower than all of them
	walkLeast   = 4 * sky.Arcsecond  // the whole way
	walkSlowest = 30 * sky.Arcsecond // in an hour
)

// Walking returns how the last lights of the run walked; ok is false when they did not, or guiding is not said to be on
// with its star held.
func (m Moment) Walking() (w Walk, ok bool) {
	g := m.Log.Guiding
	run, open := m.Log.OpenRun()
	if !open || !g.On || g.Lost != nil {
		return Walk{}, false
	}
	since := later(run.Start, g.Since)
	var places []complex128
	var times []time.Time
	for i := len(m.Log.Arrived) - 1; i >= 0 && len(places) <= walkSteps; i-- {
		place, began, told := m.placeOf(m.Log.Arrived[i])
		if !told {
			continue
		}
		if began.Before(since.Add(-clockSlack)) {
			break
		}
		places, times = append(places, place), append(times, began)
	}
	if len(places) <= walkSteps {
		return Walk{}, false
	}
	return walkOf(places, times)
}

// placeOf is where the middle of a light lies from where it lay in the run's first, in seconds of arc.
func (m Moment) placeOf(a checklist.Arrived) (place complex128, began time.Time, told bool) {
	began, known := a.Began()
	if a.Turning == nil || a.Turning.MovedXPx == nil || a.Turning.MovedYPx == nil || !known {
		return 0, began, false
	}
	scale := m.Kit.ScaleArcsecPerPixel() * float64(max(1, a.BinX))
	return complex(*a.Turning.MovedXPx*scale, *a.Turning.MovedYPx*scale), began, true
}

// walkOf judges places, the latest first.
func walkOf(places []complex128, times []time.Time) (w Walk, ok bool) {
	n := len(places) - 1
	way := places[0] - places[n]
	w = Walk{By: sky.Angle(cmplx.Abs(way)) * sky.Arcsecond, For: times[0].Sub(times[n])}
	if w.By < walkLeast || w.For <= 0 || float64(w.By)/w.For.Hours() < float64(walkSlowest) {
		return Walk{}, false
	}
	speed := cmplx.Abs(way) / w.For.Seconds()
	for i := range n {
		step := places[i] - places[i+1]
		// By its own time: lights through different filters are of different lengths.
		expected := speed * times[i].Sub(times[i+1]).Seconds()
		if size := cmplx.Abs(step); size < expected/walkEven || size > expected*walkEven || math.Abs(cmplx.Phase(step/way)) > float64(walkWithin) {
			return Walk{}, false
		}
	}
	return w, true
}
