package facts

import (
	"fmt"
	"time"

	"duskhand/checklist/advice"
	"duskhand/checklist/subs/arrival"
	"duskhand/plan"
	"duskhand/plan/supplies"
	"duskhand/sky/words"
)

// Alert is something that the operator should be called for.
type Alert struct {
	Kind  AlertKind
	Level advice.Level // Quiet: it is not so now
	Words string
	Brief string // of one that is on: the same where there is little room
}

// AlertKind names an alert, as the list of alarms does.
type AlertKind string

// The alerts.
const (
	ActSoon      AlertKind = "soon to act"
	ActNow       AlertKind = "act now"
	LimitReached AlertKind = "at the limit"
	FieldTurns   AlertKind = "field turns"
	SubsStall    AlertKind = "no new sub"
	DewNear      AlertKind = "dew"
	DawnNear     AlertKind = "dawn"
)

// Alerts returns every alert with its state, in the order of the list: by what is to be done, and by what has arrived.
func (r Run) Alerts(a advice.Advice, frames Subs) []Alert {
	alerts := []Alert{r.actSoon(a), r.actNow(a), r.atLimit(a), r.turns(), r.stageSlips(), r.walks(), r.guidingAges(a), r.stalls(frames), r.dew(), r.dawn()}
	return append(append(alerts, r.cables()), r.runOut(frames.FreeBytes)...)
}

// Unsaid returns those of the alerts that are on and that the stage of the run does not tell by itself, what calls
// before what warns.
func Unsaid(alerts []Alert) (on []Alert) {
	for _, level := range []advice.Level{advice.Calling, advice.Warning} {
		for _, a := range alerts {
			switch a.Kind {
			case SubsStall, StageSlips, DewNear, DawnNear, GuidingAges, LightsWalk:
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
		case CablesEnd, KeyholeNear, BatteryEnds, DiskFills, FocusGoes:
			if a.Level > advice.Quiet {
				on = append(on, a)
			}
		}
	}
	return on
}

func (r Run) actSoon(do advice.Advice) Alert {
	a := Alert{Kind: ActSoon, Words: fmt.Sprintf("%s before the rewind, or the window's end", words.Lasting(r.Kit.Alarm.WarnBefore))}
	if r.Behind > 0 && do.Level == advice.Warning {
		words := ClockWords(r.Behind)
		a.Level, a.Words, a.Brief = advice.Warning, words[0], words[1]
		return a
	}
	if do.Level == advice.Warning && do.By != nil && (do.Do == advice.Wait || do.Do == advice.FinishSub) {
		a.Level, a.Words = advice.Warning, "in "+words.Lasting(do.By.Sub(r.Now))+": "+r.callWords()
		a.Brief = a.Words
	}
	return a
}

func (r Run) callWords() string {
	switch r.Call.For {
	case plan.ForLimit:
		if len(r.Ahead().Runs) == 0 {
			return "the last sub, and the limit behind it"
		}
		return "rewind"
	case plan.ForGoal:
		return "all subs are taken"
	}
	return "the window closes (" + r.Call.Window.ClosesBefore.Text() + ")"
}

func (r Run) actNow(do advice.Advice) Alert {
	a := Alert{Kind: ActNow, Words: "when no sub fits any more, or the window closes"}
	if do.Level != advice.Calling {
		return a
	}
	a.Level = advice.Calling
	if r.Behind > 0 {
		words := ClockWords(r.Behind)
		a.Words, a.Brief = words[0], words[1]
		return a
	}
	switch {
	case do.Why == advice.Limit && r.AtLimit():
		a.Words = "the derotator stands at its limit: rewind now"
	case do.Do == advice.MoveAway:
		a.Words = "drive the telescope off: something comes in its way"
	case do.Do == advice.GuidingOn:
		a.Words = "the guide star is lost: start guiding again"
	case do.Do == advice.HandOver:
		a.Words = "the next target's turn: hand over"
	case do.Do == advice.SayAngle:
		a.Words = "nobody knows the derotator's angle: read it and say so"
	case do.Do == advice.StopSubs && do.Why == advice.FieldTurns:
		a.Words = "the field turns: stop the subs"
	case do.Do == advice.StopSubs && do.Why == advice.GoalReached:
		a.Words = "all wanted subs are taken: stop"
	case do.Do == advice.StopSubs:
		a.Words = "the window has closed: stop the subs"
	default:
		a.Words = "rewind now"
	}
	a.Brief = a.Words
	return a
}

// atLimit is apart from actNow, which has rung when the last sub was over: what has been waved aside till then is
// worse now.
func (r Run) atLimit(do advice.Advice) Alert {
	a := Alert{Kind: LimitReached, Words: "when the derotator can't follow any further"}
	if do.Why == advice.Limit && do.Level == advice.Calling && r.AtLimit() && r.Log.Subs != nil {
		a.Level, a.Words = advice.Calling, "the derotator stands at its limit and the field turns: stop the subs, rewind"
		a.Brief = "at the limit: stop, rewind"
	}
	return a
}

func (r Run) turns() Alert {
	a := Alert{Kind: FieldTurns, Words: "when two lights in a row say so"}
	if r.FieldTurns() && r.Log.Subs != nil {
		a.Level, a.Words, a.Brief = advice.Calling, "the lights say that the field turns: see that the derotator is on and turns", "the field turns"
	}
	return a
}

func (r Run) stalls(frames Subs) Alert {
	a := Alert{Kind: SubsStall, Words: "twice the cadence without one in a watched folder"}
	if r.Log.Subs == nil {
		return a
	}
	since := r.Log.Subs.Start
	for _, f := range r.Log.Arrived {
		since = later(since, time.Unix(0, f.SeenNs))
	}
	for _, n := range frames.Notices {
		if n.Kind == arrival.Silent && n.At.After(since) { // frames may be some seconds old, and one have come since
			a.Level, a.Words, a.Brief = advice.Calling, n.Text, "no new sub"
		}
	}
	return a
}

func (r Run) dew() Alert {
	a := Alert{Kind: DewNear, Words: "when the air, read lately, is near its dew point"}
	dew, at, none := DewOf(r.Log.Temperatures, r.Log.Humidities)
	if none == "" && dew.Risk != supplies.Dry && r.Now.Sub(at) <= dewHolds {
		a.Level, a.Words, a.Brief = advice.Warning, dew.Call(), "dew: heat the glass"
	}
	return a
}

// dewHolds is how long readings of the air stand for it: the air of a night changes by a degree or two in an hour
// (common practice), and the margin that is warned of is hardly more.
const dewHolds = time.Hour

// dawn warns before the last darkness of the night ends, while there is work to stop.
func (r Run) dawn() Alert {
	a := Alert{Kind: DawnNear, Words: words.Lasting(r.Kit.Alarm.DawnBefore) + " before darkness ends, with the derotator on"}
	dark := r.Course.Dark
	n := len(dark)
	if n == 0 || !r.Log.DerotatorOn {
		return a
	}
	if left := dark[n-1].To.Sub(r.Now); left > 0 && left <= r.Kit.Alarm.DawnBefore {
		ends := words.Minute(dark[n-1].To, r.Kit.Site.Zone)
		a.Level, a.Words, a.Brief = advice.Warning, "darkness ends at "+ends+", in "+words.Lasting(left.Round(time.Minute)), "dark until "+ends
	}
	return a
}
