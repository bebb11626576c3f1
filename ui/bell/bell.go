// Package bell rings for alerts: each when it begins, a call once more if nobody acts, and then it stays written and is
// silent: what rings for ever is soon not heard.
package bell

import (
	"fmt"
	"slices"
	"time"

	"duskhand/checklist/advice"
	"duskhand/plan/kit"
	"duskhand/sky/words"
	"duskhand/ui/facts"
	"duskhand/ui/say"
)

// Reminds is how long after a call a second one comes.
const Reminds = 2 * time.Minute

// Bell is what has been done about the alerts that are on. It is a value: nothing in it is changed in place.
type Bell struct {
	states map[facts.AlertKind]state
	until  time.Time // those that are snoozed are quiet until then
}

// state is what has been done about an alert that is on.
type state struct {
	since    time.Time
	rung     time.Time
	reminded bool
	snoozed  bool // it was on when the snooze key was pressed
}

// Hear returns the bell after the alerts of an instant, and the one for which it rings, nil if there is none.
func (b Bell) Hear(alerts []say.Alert, now time.Time) (Bell, *say.Alert) {
	states := map[facts.AlertKind]state{}
	var call *say.Alert
	for i := range alerts {
		alert := &alerts[i]
		if alert.Level == advice.Quiet {
			continue
		}
		s, known := b.states[alert.Kind]
		if !known {
			s.since = now
		}
		if b.rings(*alert, &s, now) && (call == nil || alert.Level > call.Level) {
			call = alert
		}
		states[alert.Kind] = s
	}
	b.states = states
	return b, call
}

// rings tells whether an alert that is on is due to ring, and notes it.
func (b Bell) rings(alert say.Alert, s *state, now time.Time) bool {
	switch {
	case s.snoozed && b.Snoozing(now):
		return false
	case s.rung.IsZero():
		s.rung = now
		return true
	case alert.Level == advice.Calling && !s.reminded && now.Sub(s.rung) >= Reminds:
		s.reminded = true
		return true
	}
	return false
}

// Told takes what is so when the night is read as told: it need not ring again.
func (b Bell) Told(alerts []say.Alert, now time.Time) Bell {
	states := map[facts.AlertKind]state{}
	for _, alert := range alerts {
		if alert.Level != advice.Quiet {
			states[alert.Kind] = state{since: now, rung: now}
		}
	}
	b.states = states
	return b
}

// Since returns since when an alert is on; ok is false if it is not.
func (b Bell) Since(kind facts.AlertKind) (at time.Time, ok bool) {
	s, ok := b.states[kind]
	return s.since, ok
}

// Snoozing tells whether some alerts are kept quiet, Until until when.
func (b Bell) Snoozing(now time.Time) bool { return now.Before(b.until) }

// Until is when those that are kept quiet ring again.
func (b Bell) Until() time.Time { return b.until }

// IsQuiet tells whether an alert that is on is kept quiet.
func (b Bell) IsQuiet(a say.Alert, now time.Time) bool {
	return a.Level > advice.Quiet && b.Snoozing(now) && b.states[a.Kind].snoozed
}

// Heeded returns the alerts that are on and not kept quiet, what calls before what warns.
func (b Bell) Heeded(alerts []say.Alert, now time.Time) []say.Alert {
	var on []say.Alert
	for _, a := range alerts {
		if a.Level > advice.Quiet && !b.IsQuiet(a, now) {
			on = append(on, a)
		}
	}
	slices.SortStableFunc(on, func(a, b say.Alert) int { return int(b.Level) - int(a.Level) })
	return on
}

// Snooze keeps the alerts that are on quiet for a while, or wakes them, and says so. One that begins later rings:
// nobody has waved that aside.
func (b Bell) Snooze(now time.Time, how kit.Alarm, zone *time.Location) (Bell, string) {
	if b.Snoozing(now) {
		b.until = time.Time{}
		return b, "alarms ring again"
	}
	if len(b.states) == 0 {
		return b, "no alarm is on that could be kept quiet"
	}
	states := map[facts.AlertKind]state{}
	for kind, s := range b.states {
		s.snoozed = true
		states[kind] = s
	}
	b.states, b.until = states, now.Add(how.Snooze)
	return b, fmt.Sprintf("%s quiet until %s; what begins meanwhile rings", Counted(len(states)),
		words.Minute(b.until, zone))
}

// Counted prints a number of alarms.
func Counted(n int) string { return words.Count(n, "alarm") }
