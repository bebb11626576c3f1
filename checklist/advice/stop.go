package advice

import (
	"time"

	"duskhand/checklist"
	"duskhand/plan"
)

// stopSubs: exposures go on that are of no use, because a limit is past, the field turns, the target can't be used,
// darkness is over or has not come, or all that was wanted is taken.
func (d decider) stopSubs() (Advice, bool) {
	if d.Log.Subs == nil || d.Anchor == nil {
		return Advice{}, false
	}
	why, useless := d.whyStop()
	if !useless {
		return Advice{}, false
	}
	a := Advice{Do: StopSubs, Why: why, Target: d.Target.Name, By: at(d.Now), Offer: checklist.StopSubs{}}
	if why == Limit {
		a.Side = d.Call.Limit.Side
	}
	return a, true
}

func (d decider) whyStop() (why Why, useless bool) {
	switch {
	case d.AtLimit():
		return Limit, true
	case d.FieldTurns():
		return FieldTurns, true
	case d.Call.Window.To.IsZero() || !d.Now.Before(d.Call.Window.To):
		return d.whyOver(), true
	case d.Unusable():
		return d.whyShut(d.Call.Window.OpensAfter), true
	case d.Now.Before(d.Call.Window.From) && d.Call.Window.OpensAfter == plan.ByDarkness:
		return Twilight, true
	case d.Now.Before(d.Call.At):
		return 0, false
	case d.Call.For == plan.ForGoal:
		return GoalReached, true
	case d.Call.For == plan.ForLimit && !d.next().OK && !d.handsOver():
		return Limit, true
	case d.Call.For == plan.ForWindow && !d.handsOver():
		return d.whyShut(d.Call.Window.ClosesBefore), true
	}
	return 0, false
}

// whyOver is why the last window has closed.
func (d decider) whyOver() Why {
	if n := len(d.Windows); n > 0 {
		return d.whyShut(d.Windows[n-1].ClosesBefore)
	}
	return DarknessOver
}

// whyShut is why a window is not open, by what bounds it.
func (d decider) whyShut(by plan.Bound) Why {
	switch by {
	case plan.ByDarkness, plan.ByNight:
		if d.Now.Before(d.darkFrom()) {
			return Twilight
		}
		return DarknessOver
	case plan.ByKeyhole:
		return Ceiling
	case plan.ByAzimuthRate, plan.ByDerotatorRate:
		return TooFast
	case plan.ByTurn:
		return ForHandOver
	}
	return WindowCloses
}

// darkFrom is when the night's first darkness begins; the night's end if there is none.
func (d decider) darkFrom() time.Time {
	if len(d.Course.Dark) == 0 {
		return d.Night.Span.To
	}
	return d.Course.Dark[0].From
}
