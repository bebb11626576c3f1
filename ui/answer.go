package ui

import (
	"fmt"
	"time"

	"duskhand/checklist/advice"
	"duskhand/ui/draw"
	"duskhand/ui/keys"
	"duskhand/ui/say"
	"duskhand/ui/theme"
)

// What the Run screen says above its gauge: the answer, what it is, how sure, and after which sub.

// voice says the advice of the instant.
func (m Model) voice() say.Voice {
	return say.Voice{Run: m.run, Advice: m.advice, Steps: m.steps, Facts: m.sentences, Alerts: m.unsaid(),
		Key: func(action string) string { return m.keys.Shown(keys.Action(action)) }}
}

// answer returns the one thing that the screen is for, and its role.
func (m Model) answer() (text string, role theme.Role) {
	a := m.voice().Answer()
	if text = a.Word; text == "" {
		text, _ = countdown(a.Until.Sub(m.now))
	}
	if a.Calls {
		return text, theme.Call
	}
	return text, theme.Answer
}

// drawAnswer keeps the scale of the widest countdown, so that nothing jumps as digits change.
func (m Model) drawAnswer(area draw.Area) {
	text, role := m.answer()
	scale := min(draw.FitBigText(widestAnswer, area.Width(), area.Height()), draw.FitBigText(text, area.Width(), area.Height()))
	draw.BigTextScaled(area, m.config.Charset, role, scale, text)
}

// answerLabel says what the answer is.
func (m Model) answerLabel() []string { return m.voice().Label() }

// toDo says what to do next, or that there is nothing to do and when to look again.
func (m Model) toDo() []string { return m.voice().ToDo() }

// urgency is the role of the line that says what to do.
func (m Model) urgency() theme.Role {
	switch {
	case m.advice.Level == advice.Calling, m.advice.Do == advice.FinishSub:
		return theme.Call
	case m.voice().SubsStopped():
		return theme.Call
	}
	unsaid := m.unsaid()
	if len(unsaid) > 0 && unsaid[0].Level == advice.Calling {
		return theme.Call
	}
	if m.advice.Level == advice.Warning || m.advice.Offer != nil || len(unsaid) > 0 {
		return theme.Caution
	}
	return theme.Text
}

// bounds says where the limit lies, how sure that is, and by what.
func (m Model) bounds() []string {
	if m.run.Anchor == nil || m.run.Behind > 0 || m.run.IsOver() || m.log.Subs == nil && m.now.Before(m.run.Window.From) {
		return []string{m.tilt()}
	}
	limit := "limit " + m.voice().LimitWords()
	ways := []string{limit + " · " + m.sinceReading() + " · " + m.tilt(), limit + " · " + m.sinceReading(), limit}
	if early := m.run.Call.Limit.Early; early.OK {
		ways = append(ways, "limit early "+hourMinute(early.At, m.config.Kit.Site.Zone))
	}
	return ways
}

// subWords says after which sub to rewind, and what the sub now exposing still needs.
func (m Model) subWords() []string {
	r := m.run
	if r.Behind > 0 {
		return []string{""}
	}
	if m.log.Subs == nil {
		if m.log.DerotatorOn {
			return []string{"no subs are being taken"}
		}
		return []string{""}
	}
	var this string
	p := r.Progress
	switch {
	case p.Exposing:
		this = fmt.Sprintf("sub %d has %s left", r.SubNo, duration(wholeSecondsLeft(p.Now.Exposure.To.Sub(m.now))))
	case !p.Waiting || !p.After.Done():
		this = "between two subs"
		if _, stopped := r.SubsStopped(); stopped {
			this = "no new sub comes"
		}
	default:
		this = "all wanted subs are taken"
	}
	if _, any := r.Call.Last(); !any {
		return []string{"no sub fits any more · " + this, "no sub fits any more"}
	}
	what := "rewind"
	if !r.Call.Rewind() {
		what = "stop"
	}
	return []string{fmt.Sprintf("%s after sub %d of this run · %s", what, r.LastNo(), this), fmt.Sprintf("after sub %d · %s", r.LastNo(), this), fmt.Sprintf("after sub %d", r.LastNo())}
}

// wholeSecondsLeft rounds up: a sub has 1 s left until it has none.
func wholeSecondsLeft(d time.Duration) time.Duration {
	return (d + time.Second - 1).Truncate(time.Second)
}
