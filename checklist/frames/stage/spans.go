package stage

import (
	"slices"
	"time"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/sky"
)

// Spans returns what the night shows of the stage, for a fit of axis, zero and sense together: each run, with its
// start, its readings and its lights up to where the stage slipped or stuck; and stretches outside the runs in which
// the stage stood and lights were placed. courses has one for each run of the night, nil to leave it out; present
// is that of the target which is looked at outside the runs.
func Spans(n checklist.Night, courses []*plan.Course, present *plan.Course) []plan.StageSpan {
	var spans []plan.StageSpan
	for i, run := range n.Runs {
		if courses[i] == nil {
			continue
		}
		s := plan.StageSpan{Course: courses[i], Readings: readingsOf(n, i)}
		var lights []Seen
		for _, l := range SeenOf(n, courses[i]) {
			if l.Run == i {
				lights = append(lights, l)
			}
		}
		if f := Follow(lights, courses[i]); f.Kind != Holds && f.Kind != TooFew && f.Kind != Creeps {
			lights = slices.DeleteFunc(lights, func(l Seen) bool { return !l.At.Before(f.To) })
			s.Readings = slices.DeleteFunc(s.Readings, func(r plan.Anchor) bool { return r.At.After(f.From) && r.At.After(run.Start) })
		}
		s.Cameras = camerasOf(lights)
		spans = append(spans, s)
	}
	return append(spans, standing(n, present)...)
}

func camerasOf(lights []Seen) (cameras []plan.CameraSeen) {
	for _, l := range lights {
		cameras = append(cameras, plan.CameraSeen{At: l.At, Camera: l.Camera, Error: l.Error})
	}
	return cameras
}

// readingsOf returns what is known of the stage's angle in a run: its start, and what was read.
func readingsOf(n checklist.Night, i int) []plan.Anchor {
	run := n.Runs[i]
	known := []plan.Anchor{{At: run.Start, Angle: run.StartAngle}}
	switch {
	case run.Open && i == len(n.Runs)-1:
		for _, r := range n.Readings {
			known = append(known, plan.Anchor{At: r.At, Angle: r.Angle})
		}
	case run.Read != nil:
		known = append(known, plan.Anchor{At: run.Read.At, Angle: run.Read.Angle})
	}
	if run.EndAngle != nil {
		known = append(known, plan.Anchor{At: run.End, Angle: *run.EndAngle})
	}
	return known
}

// leastStanding is how many lights a stretch outside the runs has to have: the first fixes where the stage stands,
// and the field has to turn until another tells. Our choice, as is by how much a camera may part from the field and
// the stage be taken to have stood.
const (
	leastStanding = 3
	partsWith     = 0.5 * sky.Degree
	longestGap    = 30 * time.Minute
)

// standing returns the stretches outside the runs in which the stage stood: the camera turned as the field did. One
// is cut where it did not, or where lights are too far apart for that to be told.
func standing(n checklist.Night, course *plan.Course) []plan.StageSpan {
	var spans []plan.StageSpan
	var lights []Seen
	end := func() {
		if len(lights) >= leastStanding {
			spans = append(spans, plan.StageSpan{Course: course, Still: true, Cameras: camerasOf(lights), Readings: parkedAt(n, lights)})
		}
		lights = nil
	}
	for _, l := range SeenOf(n, course) {
		if l.Run >= 0 {
			end()
			continue
		}
		if k := len(lights); k > 0 {
			last := lights[k-1]
			off := (l.Camera - last.Camera - course.FieldAngle(l.At) + course.FieldAngle(last.At)).Signed()
			if off.Abs() > partsWith || l.At.Sub(last.At) > longestGap {
				end()
			}
		}
		lights = append(lights, l)
	}
	end()
	return spans
}

// parkedAt returns where the stage stood, if that was said and all lights came since.
func parkedAt(n checklist.Night, lights []Seen) []plan.Anchor {
	if n.Parked == nil || n.DerotatorOn || lights[0].At.Before(n.DerotatorSince) {
		return nil
	}
	return []plan.Anchor{{At: lights[0].At, Angle: *n.Parked}}
}
