// Package stage tells what the derotator's stage does from where the lights of a night look: within a run it is seen
// at once when it slips, sticks or turns the wrong way, and by how much; over the night the mount's axis, the camera
// angle at reading 0 and the sense follow from all of them together.
package stage

import (
	"slices"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/frames/place"
	"duskhand/plan"
	"duskhand/plan/framing"
	"duskhand/sky"
)

// Seen is the camera angle that a light showed, at its target and of date, at the middle of its exposure.
type Seen struct {
	At            time.Time
	Camera, Error sky.Angle
	Run           int // of the night, −1 outside the runs
}

// inView is how far the middle of the chip may be from a target that is still looked at. Our choice.
const inView = 3 * sky.Degree

// SeenOf returns what the placed lights of a course's target showed, in the order of their exposures. A light that
// went on into a rewind belongs to no run and is left out; so is one that nobody knows the time of.
func SeenOf(n checklist.Night, course *plan.Course) []Seen {
	var seen []Seen
	target := course.Target.Star.Place
	for _, a := range n.Placed() {
		middle, dated := a.Middle()
		if !dated || a.Placed.Centre().Direction().Separation(framing.Middle(course.Target).Direction()) > inView {
			continue
		}
		began, _ := a.Began()
		run, whole := runOf(n, began, middle.Add(middle.Sub(began)))
		if !whole {
			continue
		}
		seen = append(seen, Seen{At: middle, Camera: course.OfDate(place.AngleAt(*a.Placed, target)), Error: a.Placed.AngleError(), Run: run})
	}
	slices.SortStableFunc(seen, func(a, b Seen) int { return a.At.Compare(b.At) })
	return seen
}

// runOf returns the run in which an exposure lies, −1 for none; whole is false when it lies there in part.
func runOf(n checklist.Night, from, to time.Time) (run int, whole bool) {
	const slack = 2 * time.Second // clocks are set by hand
	for i, r := range n.Runs {
		ends := r.End
		if r.Open {
			ends = to
		}
		switch {
		case !from.Before(r.Start.Add(-slack)) && !to.After(ends.Add(slack)):
			return i, true
		case from.Before(ends) && to.After(r.Start):
			return -1, false
		}
	}
	return -1, true
}
