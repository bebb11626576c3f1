package run

import (
	"fmt"
	"time"

	"duskhand/checklist/advice"
	"duskhand/sky"
	"duskhand/sky/words"
	"duskhand/ui/draw"
	"duskhand/ui/say"
	"duskhand/ui/screens"
	"duskhand/ui/theme"
)

// What the Run screen says above its gauge: the answer, what it is, how sure, and after which sub.

// Answer returns the one thing that the screen is for as it stands in big digits.
func Answer(s screens.Status) string {
	text, _ := view{Shown: screens.Shown{Status: s}}.answer()
	return text
}

// answer returns the one thing that the screen is for, and its role.
func (m view) answer() (text string, role theme.Role) {
	a := m.Voice().Answer()
	if _, turns := m.FieldTurns(); turns && !a.Calls {
		return "TURNS", theme.Call
	}
	if text = a.Word; text == "" {
		text, _ = words.Countdown(a.Until.Sub(m.Now))
	}
	if a.Calls {
		return text, theme.Call
	}
	return text, theme.Answer
}

// drawAnswer keeps the scale of the widest countdown, so that nothing jumps as digits change.
func (m view) drawAnswer(area draw.Area) {
	text, role := m.answer()
	scale := min(draw.FitBigText(screens.WidestAnswer, area.Width(), area.Height()),
		draw.FitBigText(text, area.Width(), area.Height()))
	draw.BigTextScaled(area, m.Charset, role, scale, text)
}

// answerLabel says what the answer is.
func (m view) answerLabel() []string {
	if alert, turns := m.FieldTurns(); turns && !m.Voice().Answer().Calls {
		return []string{say.Capital(alert.Words), say.Capital(alert.Brief)}
	}
	return m.Voice().Label()
}

// toDo says what to do next, or that there is nothing to do and when to look again.
func (m view) toDo() []string { return m.Voice().ToDo() }

// urgency is the role of the line that says what to do.
func (m view) urgency() theme.Role {
	switch {
	case m.Advice.Level == advice.Calling, m.Advice.Do == advice.FinishSub:
		return theme.Call
	case m.Voice().SubsStopped():
		return theme.Call
	}
	unsaid := m.Unsaid()
	if len(unsaid) > 0 && unsaid[0].Level == advice.Calling {
		return theme.Call
	}
	if m.Advice.Level == advice.Warning || m.Advice.Offer != nil || len(unsaid) > 0 {
		return theme.Caution
	}
	return theme.Need
}

// bounds says where the limit lies, how sure that is, and by what.
func (m view) bounds() []string {
	if m.Voice().Answer().Calls && m.Run.Anchor != nil { // its label says the limit, and nothing else is to be read now
		return []string{""}
	}
	if m.Run.Anchor == nil || m.Run.Behind > 0 || m.Run.IsOver() || m.Log.Subs == nil && m.Now.Before(m.Run.Window.From) {
		return []string{m.Tilt()}
	}
	limit := "limit " + m.Voice().LimitWords()
	ways := []string{limit + " · " + m.sinceReading() + " · " + m.Tilt(), limit + " · " + m.sinceReading(),
		limit}
	if early := m.Run.Call.Limit.Early; early.OK {
		ways = append(ways, "limit early "+words.Minute(early.At, m.Zone()))
	}
	return ways
}

// subWords says after which sub to rewind, and what the sub now exposing still needs.
func (m view) subWords() []string {
	r := m.Run
	if r.Behind > 0 {
		return []string{""}
	}
	if m.Log.Subs == nil {
		if m.Log.DerotatorOn {
			return []string{"no subs are being taken"}
		}
		return []string{""}
	}
	var this string
	p := r.Progress
	switch {
	case p.Exposing:
		this = fmt.Sprintf("sub %d has %s left", r.SubNo,
			words.Lasting(wholeSecondsLeft(p.Now.Exposure.To.Sub(m.Now))))
	case !p.Waiting || !p.After.Done():
		this = "between two subs"
		if _, stopped := r.SubsStopped(); stopped {
			this = "no new sub comes"
		}
	default:
		this = "all wanted subs are taken"
	}
	if taken, _, one := r.Call.FilterTaken(); one && !m.Now.Before(r.Call.At) {
		this = "all wanted subs of " + taken + " are taken"
	}
	if _, any := r.Call.Last(); !any {
		return []string{"no sub fits any more · " + this, "no sub fits any more"}
	}
	if m.Advice.Do == advice.StopSubs { // now, whatever sub is being taken
		return []string{this}
	}
	what := "rewind"
	if !r.Call.Rewind() {
		what = "stop"
	}
	return []string{fmt.Sprintf("%s after sub %d of this run · %s", what, r.LastNo(), this),
		fmt.Sprintf("after sub %d · %s", r.LastNo(), this), fmt.Sprintf("after sub %d", r.LastNo())}
}

// wholeSecondsLeft rounds up: a sub has 1 s left until it has none.
func wholeSecondsLeft(d time.Duration) time.Duration {
	return (d + time.Second - 1).Truncate(time.Second)
}

// sinceReading says how old the knowledge of the derotator's angle is.
func (m view) sinceReading() string {
	a := m.Log.Anchor
	if a == nil {
		return ""
	}
	return fmt.Sprintf("%s at %s", a.Why, words.Minute(a.At, m.Zone()))
}

// rateWords says how the derotator turns.
func (m view) rateWords() []string {
	if sky.Angle(m.Run.Rate).Abs() < sky.Angle(0.05*sky.DegreePerHour) {
		return []string{"standing still: about to turn the other way", "standing still"}
	}
	trend := "slowing"
	if m.Run.Quickening {
		trend = "quickening"
	}
	return []string{"turning " + words.AnHour(m.Run.Rate, 1) + ", " + trend,
		words.AnHourBrief(m.Run.Rate, 1) + ", " + trend, words.AnHourBrief(m.Run.Rate, 1)}
}
