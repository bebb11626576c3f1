package facts

import (
	"time"

	"duskhand/checklist/advice"
	"duskhand/checklist/subs/arrival"
	"duskhand/plan/supplies"
)

// Alert is something that the operator is called for, or would be. Package say has its words.
type Alert struct {
	Kind  AlertKind
	Level advice.Level // Quiet: it is not so now
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

func (r Run) actSoon(do advice.Advice) Alert {
	a := Alert{Kind: ActSoon}
	if do.Level == advice.Warning && (r.Behind > 0 || do.By != nil && (do.Do == advice.Wait || do.Do == advice.FinishSub)) {
		a.Level = advice.Warning
	}
	return a
}

func (r Run) actNow(do advice.Advice) Alert {
	a := Alert{Kind: ActNow}
	if do.Level == advice.Calling {
		a.Level = advice.Calling
	}
	return a
}

// atLimit is apart from actNow, which has rung when the last sub was over: what has been waved aside till then is
// worse now.
func (r Run) atLimit(do advice.Advice) Alert {
	a := Alert{Kind: LimitReached}
	if do.Why == advice.Limit && do.Level == advice.Calling && r.AtLimit() && r.Log.Subs != nil {
		a.Level = advice.Calling
	}
	return a
}

func (r Run) turns() Alert {
	a := Alert{Kind: FieldTurns}
	if r.FieldTurns() && r.Log.Subs != nil {
		a.Level = advice.Calling
	}
	return a
}

func (r Run) stalls(frames Subs) Alert {
	a := Alert{Kind: SubsStall}
	if _, stall := r.Stalled(frames); stall {
		a.Level = advice.Calling
	}
	return a
}

// Stalled returns the notice that no sub comes any more, while subs are being taken.
func (r Run) Stalled(frames Subs) (notice arrival.Notice, stall bool) {
	if r.Log.Subs == nil {
		return notice, false
	}
	since := r.Log.Subs.Start
	for _, f := range r.Log.Arrived {
		since = later(since, time.Unix(0, f.SeenNs))
	}
	for _, n := range frames.Notices {
		if n.Kind == arrival.Silent && n.At.After(since) { // frames may be some seconds old, and one have come since
			notice, stall = n, true
		}
	}
	return notice, stall
}

func (r Run) dew() Alert {
	a := Alert{Kind: DewNear}
	if dew, at, none := DewOf(r.Log.Temperatures, r.Log.Humidities); none == "" && dew.Risk != supplies.Dry && r.Now.Sub(at) <= dewHolds {
		a.Level = advice.Warning
	}
	return a
}

// dewHolds is how long readings of the air stand for it: the air of a night changes by a degree or two in an hour
// (common practice), and the margin that is warned of is hardly more.
const dewHolds = time.Hour

// dawn warns before the last darkness of the night ends, while there is work to stop.
func (r Run) dawn() Alert {
	a := Alert{Kind: DawnNear}
	if ends, ok := r.DarkEnds(); ok && r.Log.DerotatorOn {
		if left := ends.Sub(r.Now); left > 0 && left <= r.Kit.Alarm.DawnBefore {
			a.Level = advice.Warning
		}
	}
	return a
}

// DarkEnds is when the last darkness of the night ends; ok is false where it never is dark.
func (r Run) DarkEnds() (at time.Time, ok bool) {
	dark := r.Course.Dark
	if len(dark) == 0 {
		return at, false
	}
	return dark[len(dark)-1].To, true
}
