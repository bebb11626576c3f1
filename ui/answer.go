package ui

import (
	"fmt"
	"time"

	"duskhand/plan"
	"duskhand/ui/draw"
	"duskhand/ui/facts"
	"duskhand/ui/theme"
)

// What the Run screen says above its gauge: the answer, what it is, how sure, and after which sub.

// answer returns the one thing that the screen is for, and its role.
func (m Model) answer() (text string, role theme.Role) {
	switch m.run.Stage {
	case facts.NotUsable:
		return "NONE", theme.Answer
	case facts.Over:
		if _, ok := m.nextTurn(); ok {
			return "NEXT", theme.Call
		}
		return "DONE", theme.Answer
	case facts.Adrift:
		return "ANGLE?", theme.Call
	case facts.Doubtful:
		return "CLOCK?", theme.Call
	case facts.RewindDue:
		return "REWIND", theme.Call
	case facts.PastLimit:
		return "LIMIT", theme.Call
	case facts.Closed:
		return "STOP", theme.Call
	case facts.Complete:
		return "DONE", theme.Answer
	case facts.Off:
		if !m.now.Before(m.run.Window.From) {
			return "OFF", theme.Call
		}
	}
	text, _ = countdown(m.run.Until.Sub(m.now))
	if m.run.Stage == facts.LastSub {
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
func (m Model) answerLabel() []string {
	r, zone := m.run, m.config.Kit.Site.Zone
	_, unit := countdown(r.Until.Sub(m.now))
	name := m.tonight.Target.Name
	switch r.Stage {
	case facts.NotUsable:
		return m.whyNone()
	case facts.Over:
		if turn, ok := m.nextTurn(); ok {
			return m.turnLabel(turn)
		}
		return []string{"the last window of " + name + " is over: " + r.Windows[len(r.Windows)-1].ClosesBefore.Text(), "the last window is over"}
	case facts.Doubtful:
		return facts.ClockWords(r.Behind)
	case facts.Adrift:
		return []string{"the derotator is on, and nobody has said at which angle", "the derotator's angle is unknown"}
	case facts.RewindDue:
		return []string{"now, before the limit at " + m.limitWords(), "now; limit " + m.limitWords(), "now; limit " + hourMinute(r.Call.Limit.Early.At, zone)}
	case facts.PastLimit:
		return []string{"the derotator has reached its limit at " + hourMinute(r.Call.Limit.At.At, zone) + ": the field turns", "at the limit: the field turns"}
	case facts.Closed:
		if r.Unusable() {
			return []string{fmt.Sprintf("%s can't be used now (%s until %s), and subs are being taken", name, r.Call.Window.OpensAfter.Text(), hourMinuteUp(r.Call.Window.From, zone)), "not usable now"}
		}
		return []string{"the window has closed at " + hourMinute(r.Call.Window.To, zone) + " (" + r.Call.Window.ClosesBefore.Text() + "), and subs are being taken", "the window has closed"}
	case facts.Complete:
		return []string{"all wanted subs of " + name + " are taken", "all subs are taken"}
	case facts.Off, facts.Waiting:
		if !m.now.Before(r.Window.From) {
			return []string{"the derotator is off"}
		}
		at := hourMinuteUp(r.Until, zone)
		return []string{fmt.Sprintf("%s until %s can be used, at %s (%s until then)", unit, name, at, r.Window.OpensAfter.Text()), "until it can be used, " + at}
	}
	return m.callLabel(unit, hourMinute(r.Until, zone))
}

// callLabel says what comes at the end of a run that is going on.
func (m Model) callLabel(unit, at string) []string {
	switch c := m.run.Call; c.For {
	case plan.ForLimit:
		return []string{unit + " until the rewind, at " + at, "until the rewind, " + at, "rewind " + at}
	case plan.ForGoal:
		return []string{unit + " until all wanted subs are taken, at " + at, "until all subs are taken, " + at, "all taken " + at}
	default:
		closes := hourMinute(c.Window.To, m.config.Kit.Site.Zone)
		return []string{fmt.Sprintf("%s until the last sub is done, at %s; the window closes at %s (%s)", unit, at, closes, c.Window.ClosesBefore.Text()),
			fmt.Sprintf("until the last sub is done, %s (%s)", at, c.Window.ClosesBefore.Text()), "last sub done " + at}
	}
}

func (m Model) whyNone() []string {
	if len(m.tonight.Course.Dark) == 0 {
		level := m.config.Kit.DarkSunFor(m.tonight.Target)
		return []string{"no darkness tonight: the Sun stays above " + degreesText(level), "no darkness tonight"}
	}
	return []string{fmt.Sprintf("%s is not usable in the dark tonight: floor %s, horizon and keyhole leave nothing", m.tonight.Target.Name, degreesText(m.config.Kit.Mount.Floor)),
		m.tonight.Target.Name + " is not usable tonight"}
}

// limitWords gives the limit with its bounds: 00:31, early 00:27, late 00:36.
func (m Model) limitWords() string {
	l, zone := m.run.Call.Limit, m.config.Kit.Site.Zone
	switch {
	case !l.Early.OK:
		return "none before the window closes"
	case !l.At.OK:
		return "after the window for the axis as known, early " + hourMinute(l.Early.At, zone)
	case l.Early.At.Equal(l.At.At):
		return hourMinute(l.At.At, zone)
	case !l.Late.OK:
		return fmt.Sprintf("%s, early %s, late after the window", hourMinute(l.At.At, zone), hourMinute(l.Early.At, zone))
	}
	return fmt.Sprintf("%s, early %s, late %s", hourMinute(l.At.At, zone), hourMinute(l.Early.At, zone), hourMinuteUp(l.Late.At, zone))
}

// bounds says where the limit lies, how sure that is, and by what.
func (m Model) bounds() []string {
	if m.run.Anchor == nil || m.run.Stage == facts.Waiting || m.run.Stage == facts.Over || m.run.Stage == facts.Doubtful {
		return []string{m.tilt()}
	}
	limit := "limit " + m.limitWords()
	ways := []string{limit + " · " + m.sinceReading() + " · " + m.tilt(), limit + " · " + m.sinceReading(), limit}
	if early := m.run.Call.Limit.Early; early.OK {
		ways = append(ways, "limit early "+hourMinute(early.At, m.config.Kit.Site.Zone))
	}
	return ways
}

// subWords says after which sub to rewind, and what the sub now exposing still needs.
func (m Model) subWords() []string {
	r := m.run
	if m.run.Stage == facts.Doubtful {
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
