package command

import (
	"fmt"
	"time"

	"duskhand/plan"
	"duskhand/sky"
	"duskhand/sky/words"
)

// windowReasons says what opens a window and what closes it.
func windowReasons(course *plan.Course, w plan.Window) string {
	return "opens " + opening(w.OpensAfter) + obstruction(course, w.OpensAfter, w.From) +
		", closes " + closing(w.ClosesBefore) + obstruction(course, w.ClosesBefore, w.To)
}

// opening says what a window waits for.
func opening(b plan.Bound) string {
	return map[plan.Bound]string{plan.ByDarkness: "as it gets dark", plan.ByFloor: "as the target climbs over the floor",
		plan.ByHorizon: "as it clears the skyline", plan.ByKeyhole: "as it leaves the keyhole",
		plan.ByAzimuthRate: "as soon as the mount can follow in azimuth", plan.ByDerotatorRate: "as soon as the derotator can follow",
		plan.ByNight: "at noon", plan.ByTurn: "at the hand-over"}[b]
}

// closing says what ends a window.
func closing(b plan.Bound) string {
	return map[plan.Bound]string{plan.ByDarkness: "as it gets light", plan.ByFloor: "as the target sinks below the floor",
		plan.ByHorizon: "as it goes behind the skyline", plan.ByKeyhole: "as it comes to the keyhole",
		plan.ByAzimuthRate: "before the mount can't follow in azimuth", plan.ByDerotatorRate: "before the derotator can't follow",
		plan.ByNight: "at noon", plan.ByTurn: "at the hand-over"}[b]
}

// obstruction names what stands on the skyline where the target passes it.
func obstruction(course *plan.Course, by plan.Bound, at time.Time) string {
	if name := obstructionName(course, by, at); name != "" {
		return " (" + name + ")"
	}
	return ""
}

func obstructionName(course *plan.Course, by plan.Bound, at time.Time) string {
	if by != plan.ByHorizon {
		return ""
	}
	return course.Kit.Horizon.ObstructionAt(course.Place(at).Azimuth)
}

// whyNoRuns says why a target has no run this night, "" when it has one.
func whyNoRuns(night *plan.Night, t plannedTarget, local words.Wall) string {
	floor := night.Kit.Mount.Floor
	switch {
	case len(t.runs.Runs) > 0:
		return ""
	case len(t.course.Dark) == 0:
		return "it is never dark enough this night"
	case len(t.runs.Windows) > 0:
		return "no window is long enough for a sub between settling and the limit"
	}
	if at := highest(t.course, []plan.Span{night.Span}); t.course.Place(at).Altitude < 0 {
		return fmt.Sprintf("it never rises at this latitude: at most %s, at %s", words.Degrees(t.course.Place(at).Altitude, 1), local.Minute(at))
	}
	at := highest(t.course, t.course.Dark)
	top := t.course.Place(at).Altitude
	switch {
	case top < 0:
		return fmt.Sprintf("it is below the horizon all the while that it is dark: at most %s, at %s", words.Degrees(top, 1), local.Minute(at))
	case top < floor:
		return fmt.Sprintf("it stays below the floor of %s while it is dark: at most %s, at %s", words.Degrees(floor, 1), words.Degrees(top, 1), local.Minute(at))
	}
	return fmt.Sprintf("it reaches %s at %s, but horizon profile, keyhole and rates leave no window", words.Degrees(top, 1), local.Minute(at))
}

// highest returns when the target stands highest in spans, to the minute, which at 15° an hour is good
// to the tenth of a degree that is printed.
func highest(course *plan.Course, spans []plan.Span) (best time.Time) {
	top := sky.Angle(-sky.Turn)
	for _, span := range spans {
		for t := span.From; t.Before(span.To); t = t.Add(time.Minute) {
			if altitude := course.Place(t).Altitude; altitude > top {
				best, top = t, altitude
			}
		}
	}
	return best
}
