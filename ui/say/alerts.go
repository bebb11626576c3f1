package say

import (
	"fmt"
	"time"

	"duskhand/checklist/advice"
	"duskhand/plan"
	"duskhand/sky/words"
	"duskhand/ui/facts"
)

// Alert is something that the operator is called for, or would be, in words.
type Alert struct {
	facts.Alert
	Words string // when it would be so, or what it is
	Brief string // of one that is on: the same where there is little room

	between []string // longer than Brief, for ever less room
}

// Alerts returns every alert with its state, in the order of the list: by what is to be done, and by what has arrived.
func Alerts(r facts.Run, do advice.Advice, frames facts.Subs) (alerts []Alert) {
	for _, a := range r.Alerts(do, frames) {
		said := Alert{Alert: a, Words: callsWhen(a.Kind, r)}
		if a.Level > advice.Quiet {
			if ways := alerted(a, r, do, frames); len(ways) > 0 {
				said.Words, said.Brief = ways[0], ways[len(ways)-1]
				said.between = ways[1:max(1, len(ways)-1)]
			}
		}
		alerts = append(alerts, said)
	}
	return alerts
}

// Unsaid returns those of the alerts that are on and that the stage of the run does not tell by itself, what calls
// before what warns.
func Unsaid(alerts []Alert) (on []Alert) {
	for _, level := range []advice.Level{advice.Calling, advice.Warning} {
		for _, a := range alerts {
			switch a.Kind {
			case facts.SubsStall, facts.StageSlips, facts.DewNear, facts.DawnNear, facts.GuidingAges, facts.LightsWalk:
				if a.Level == level {
					on = append(on, a)
				}
			}
		}
	}
	return on
}

// Besides returns those of the alerts that are on and that neither the stage of the run tells nor Unsaid has.
func Besides(alerts []Alert) (on []Alert) {
	for _, a := range alerts {
		switch a.Kind {
		case facts.CablesEnd, facts.KeyholeNear, facts.BatteryEnds, facts.DiskFills, facts.FocusGoes:
			if a.Level > advice.Quiet {
				on = append(on, a)
			}
		}
	}
	return on
}

// callsWhen says when an alert would call.
func callsWhen(kind facts.AlertKind, r facts.Run) string {
	switch kind {
	case facts.ActSoon:
		return words.Lasting(r.Kit.Alarm.WarnBefore) + " before the rewind, or the window's end"
	case facts.ActNow:
		return "when no sub fits any more, or the window closes"
	case facts.LimitReached:
		return "when the derotator can't follow any further"
	case facts.FieldTurns:
		return "when two lights in a row say so"
	case facts.StageSlips:
		return "when it slips, sticks or turns the wrong way"
	case facts.LightsWalk:
		return "when lights walk one way although guiding is on"
	case facts.GuidingAges:
		return "when the calibration is too far off to guide by"
	case facts.SubsStall:
		return "twice the cadence without one in a watched folder"
	case facts.DewNear:
		return "when the air, read lately, is near its dew point"
	case facts.DawnNear:
		return words.Lasting(r.Kit.Alarm.DawnBefore) + " before darkness ends, with the derotator on"
	case facts.CablesEnd:
		return "before the mount's cables would come to their end"
	case facts.KeyholeNear:
		return words.Lasting(r.Kit.Mount.CeilingWarn) + " before the target may be in the keyhole"
	case facts.BatteryEnds:
		return "when it does not last for the next run"
	case facts.DiskFills:
		return "when the subs of the next run find no room"
	case facts.FocusGoes:
		return "when the tube cools too far within the next run"
	}
	return ""
}

// alerted says what an alert that is on has to tell, longest first.
func alerted(a facts.Alert, r facts.Run, do advice.Advice, frames facts.Subs) []string {
	switch a.Kind {
	case facts.ActSoon:
		if r.Behind > 0 {
			return Behind(r.Behind)[:2]
		}
		return []string{"in " + words.Lasting(do.By.Sub(r.Now)) + ": " + whatComes(r)}
	case facts.ActNow:
		if r.Behind > 0 {
			return Behind(r.Behind)[:2]
		}
		return []string{called(r, do)}
	case facts.LimitReached:
		return []string{"the derotator stands at its limit and the field turns: stop the subs, rewind", "at the limit: stop, rewind"}
	case facts.FieldTurns:
		return []string{"the lights say that the field turns: see that the derotator is on and turns", "the field turns"}
	case facts.StageSlips:
		return Stage(r.Stage(), r.Kit.Site.Zone)
	case facts.LightsWalk:
		w, _ := r.Walking()
		return []string{fmt.Sprintf("the lights walk one way, by %s in %s, and guiding is said to be on: is its star lost?", words.Arcseconds(w.By, 0), words.Lasting(w.For)),
			"the lights walk: guide star lost?"}
	case facts.GuidingAges:
		ways, _ := Guiding(r)
		return ways
	case facts.SubsStall:
		notice, _ := r.Stalled(frames)
		return []string{Notice(notice), "no new sub"}
	case facts.DewNear:
		dew, _, _ := facts.DewOf(r.Log.Temperatures, r.Log.Humidities)
		return []string{dewCall(dew), "dew: heat the glass"}
	case facts.DawnNear:
		at, _ := r.DarkEnds()
		ends := words.Minute(at, r.Kit.Site.Zone)
		return []string{"darkness ends at " + ends + ", in " + words.Lasting(at.Sub(r.Now).Round(time.Minute)), "dark until " + ends}
	case facts.CablesEnd:
		return cablesTrouble(r)
	}
	for _, out := range r.RunningOut(frames.FreeBytes) {
		if out.Kind == a.Kind {
			return RunningOut(r, out)
		}
	}
	return nil
}

// whatComes names what the run that goes on comes to.
func whatComes(r facts.Run) string {
	switch r.Call.For {
	case plan.ForLimit:
		if len(r.Ahead().Runs) == 0 {
			return "the last sub, and the limit behind it"
		}
		return "rewind"
	case plan.ForGoal:
		if taken, _, one := r.Call.FilterTaken(); one {
			return "all subs of " + taken + " are taken"
		}
		return "all subs are taken"
	}
	return "the window closes (" + r.Call.Window.ClosesBefore.Text() + ")"
}

// called says what is to be done now.
func called(r facts.Run, do advice.Advice) string {
	switch {
	case do.Why == advice.Limit && r.AtLimit():
		return "the derotator stands at its limit: rewind now"
	case do.Do == advice.MoveAway:
		return "drive the telescope off: something comes in its way"
	case do.Do == advice.GuidingOn:
		return "the guide star is lost: start guiding again"
	case do.Do == advice.HandOver:
		return "the next target's turn: hand over"
	case do.Do == advice.SayAngle:
		return "nobody knows the derotator's angle: read it and say so"
	case do.Do == advice.StopSubs && do.Why == advice.FieldTurns:
		return "the field turns: stop the subs"
	case do.Do == advice.StopSubs && do.Why == advice.GoalReached:
		if taken, next, one := r.Call.FilterTaken(); one {
			return "all wanted subs of " + taken + " are taken: stop, then go on with " + next
		}
		return "all wanted subs are taken: stop"
	case do.Do == advice.StopSubs:
		return "the window has closed: stop the subs"
	}
	return "rewind now"
}
