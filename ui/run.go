package ui

import (
	"fmt"
	"strings"
	"time"

	"duskhand/plan"
	"duskhand/ui/draw"
	"duskhand/ui/facts"
	"duskhand/ui/theme"
)

// The Run screen: how long until I must act?

// widestAnswer is what the digits leave room for, so that nothing jumps as they change.
const widestAnswer = "00:00"

// answerRows returns how many rows the answer takes in a window, at most a third of its height or what
// the smallest big digits need: one where even those are too wide.
func answerRows(width, height int) int {
	_, smallest := draw.BigTextSize(widestAnswer, 1)
	scale := draw.FitBigText(widestAnswer, width-2*margin(width), max(height*2/5, smallest))
	_, rows := draw.BigTextSize(widestAnswer, scale)
	return max(1, rows)
}

func (m Model) runParts() []part {
	strip := 2
	if m.height >= 28 {
		strip = 3 // the notes above it
	}
	return []part{
		{"header", 2, 1, 6}, {"gap 1", 1, 1, 12}, {"answer", answerRows(m.width, m.height), 1, 0}, {"gap 2", 1, 1, 13},
		{"label", 1, 1, 1}, {"bounds", 1, 1, 4}, {"gap 3", 1, 1, 14}, {"sub", 1, 1, 3}, {"gap 4", 1, 1, 15},
		{"gauge", 2, 1, 5}, {"gap 5", 1, 1, 16}, {"offer", 1, 1, 8}, {"counts", 1, 1, 9}, {"gap 6", 1, 1, 17},
		{"to do", 1, 1, m.toDoRank()}, {"strip", strip, 1, 10}, {"footer", m.footerRows(), 1, m.footerRank(7)},
	}
}

func (m Model) drawRun(area draw.Area) {
	bands := stack(area.Height(), m.runParts(), "gap 6")
	part := func(name string) draw.Area { return slice(area, bands[name]) }
	m.drawHeader(part("header"))
	m.drawAnswer(part("answer"))
	put(part("label"), theme.Text, m.marked(bands["header"], m.answerLabel())...)
	put(part("bounds"), theme.Faint, m.bounds()...)
	put(part("sub"), theme.Text, m.subWords()...)
	m.drawGauge(part("gauge"))
	put(part("offer"), theme.Text, m.offerWords()...)
	put(part("counts"), theme.Faint, m.countWords()...)
	put(part("to do"), m.urgency(), m.toDo()...)
	m.drawStrip(part("strip"))
	m.drawFooter(part("footer"))
}

// marked puts the mark of the example or of a replay before the label where the header has no room: it
// stands on every screen.
func (m Model) marked(header band, label []string) []string {
	mark := shortMark(m.mark())
	if mark == "" || header.height > 0 {
		return label
	}
	ways := make([]string, 0, len(label)+1)
	for _, way := range label {
		ways = append(ways, mark+" · "+way)
	}
	return append(ways, mark)
}

// drawDigits is the Run screen stripped to what is read from afar.
func (m Model) drawDigits(area draw.Area) {
	parts := []part{{"answer", max(1, area.Height()-5), 1, 0}, {"label", 1, 1, 1}, {"gauge", 1, 1, 3}, {"to do", 1, 1, m.toDoRank()}, {"footer", m.footerRows(), 1, m.footerRank(4)}}
	if answerRows(m.width, m.height) == 1 {
		parts[0].rows = 1
	}
	bands := stack(area.Height(), parts, "answer")
	part := func(name string) draw.Area { return slice(area, bands[name]) }
	m.drawAnswer(part("answer"))
	put(part("label"), theme.Text, m.marked(band{}, m.answerLabel())...)
	m.drawGauge(part("gauge"))
	put(part("to do"), m.urgency(), m.toDo()...)
	m.drawFooter(part("footer"))
}

// answer returns the one thing that the screen is for, and its role.
func (m Model) answer() (text string, role theme.Role) {
	switch m.run.Stage {
	case facts.NotUsable:
		return "NONE", theme.Answer
	case facts.Over:
		return "DONE", theme.Answer
	case facts.Adrift:
		return "ANGLE?", theme.Call
	case facts.RewindDue:
		return "REWIND", theme.Call
	case facts.PastLimit:
		return "LIMIT", theme.Call
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
	at := hourMinute(r.Until, zone)
	switch r.Stage {
	case facts.NotUsable:
		return m.whyNone()
	case facts.Over:
		return []string{"the last window of " + m.tonight.Target.Name + " is closed: " + r.Windows[len(r.Windows)-1].ClosesBefore.Text()}
	case facts.Adrift:
		return []string{"the derotator is on, and nobody has said at which angle", "the derotator's angle is unknown"}
	case facts.RewindDue:
		return []string{"now, before the limit at " + m.limitWords(), "now; limit " + m.limitWords()}
	case facts.PastLimit:
		return []string{"the derotator has reached its limit at " + hourMinute(r.Limit.At.At, zone) + ": the field turns", "at the limit: the field turns"}
	case facts.Off, facts.Waiting:
		if !m.now.Before(r.Window.From) {
			return []string{"the derotator is off"}
		}
		return []string{unit + " until " + m.tonight.Target.Name + " is clear of: " + r.Window.OpensAfter.Text() + ", at " + at, "until it can be used, " + at}
	}
	if r.Rewind {
		return []string{unit + " until the rewind, at " + at, "until the rewind, " + at, "rewind " + at}
	}
	return []string{fmt.Sprintf("%s until the window closes at %s (%s); no rewind before it", unit, at, r.Window.ClosesBefore.Text()),
		fmt.Sprintf("until the window closes, %s (%s)", at, r.Window.ClosesBefore.Text()), "window closes " + at}
}

func (m Model) whyNone() []string {
	if len(m.tonight.Night.Dark) == 0 {
		return []string{"no darkness tonight: the Sun stays above −18°", "no darkness tonight"}
	}
	return []string{fmt.Sprintf("%s is not usable in the dark tonight: floor %s, horizon and keyhole leave nothing", m.tonight.Target.Name, degreesText(m.config.Kit.Mount.Floor)),
		m.tonight.Target.Name + " is not usable tonight"}
}

// limitWords gives the limit with its bounds: 00:31, early 00:27, late 00:36.
func (m Model) limitWords() string {
	l, zone := m.run.Limit, m.config.Kit.Site.Zone
	switch {
	case !l.Early.OK:
		return "none before morning"
	case !l.At.OK:
		return "none for the axis as known, early " + hourMinute(l.Early.At, zone)
	case l.Early.At.Equal(l.At.At):
		return hourMinute(l.At.At, zone)
	case !l.Late.OK:
		return fmt.Sprintf("%s, early %s, late: never", hourMinute(l.At.At, zone), hourMinute(l.Early.At, zone))
	}
	return fmt.Sprintf("%s, early %s, late %s", hourMinute(l.At.At, zone), hourMinute(l.Early.At, zone), hourMinute(l.Late.At, zone))
}

// bounds says where the limit lies, how sure that is, and by what.
func (m Model) bounds() []string {
	if m.run.Anchor == nil {
		return []string{m.tilt()}
	}
	return []string{
		"limit " + m.limitWords() + " · " + m.sinceReading() + " · " + m.tilt(),
		"limit " + m.limitWords() + " · " + m.sinceReading(),
		"limit " + m.limitWords(),
	}
}

// subWords says after which sub to rewind, and what the sub now exposing still needs.
func (m Model) subWords() []string {
	r := m.run
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
	case !p.Waiting:
		this = "between two subs"
	default:
		this = "all wanted subs are taken"
	}
	if r.Last == nil {
		return []string{"no sub fits any more · " + this, "no sub fits any more"}
	}
	what := "rewind"
	if !r.Rewind {
		what = "stop"
	}
	return []string{fmt.Sprintf("%s after sub %d of this run · %s", what, r.LastNo, this), fmt.Sprintf("after sub %d · %s", r.LastNo, this), fmt.Sprintf("after sub %d", r.LastNo)}
}

// wholeSecondsLeft rounds up: a sub has 1 s left until it has none.
func wholeSecondsLeft(d time.Duration) time.Duration {
	return (d + time.Second - 1).Truncate(time.Second)
}

func (m Model) drawGauge(area draw.Area) {
	d := m.config.Kit.Derotator
	v := draw.GaugeValues{Min: d.Min, Max: d.Max, Turning: sign(float64(m.run.Rate))}
	switch {
	case m.run.Anchor != nil:
		v.Now = m.run.Angle
		room := area.Width() - 2*draw.Width(draw.DegreesText(d.Min)) - 4
		words := m.rateWords()
		v.NowLabel = longestThatFits(room*2/5, tenths(v.Now)+", "+words[0], tenths(v.Now)+", "+words[len(words)-1])
		if run, open := m.log.OpenRun(); open {
			v.Marks = append(v.Marks, draw.GaugeMark{At: run.StartAngle, Label: "started " + hourMinute(run.Start, m.config.Kit.Site.Zone)})
		}
	case m.log.Parked != nil:
		v.Now, v.NowLabel, v.Turning = *m.log.Parked, "stands here, off", 0
	default:
		put(area, theme.Faint, fmt.Sprintf("travel %s to %s; where it stands is not known", degreesText(d.Min), degreesText(d.Max)))
		return
	}
	draw.Gauge(area, m.config.Charset, v)
}

func sign(x float64) int {
	switch {
	case x > 0:
		return 1
	case x < 0:
		return -1
	}
	return 0
}

// offerWords says what a rewind would buy.
func (m Model) offerWords() []string {
	o := m.run.Offer
	if !o.Whether {
		return []string{""}
	}
	what := "a rewind now"
	switch {
	case !m.log.DerotatorOn && m.now.Before(m.run.Window.From):
		what = "at " + hourMinute(o.Begins, m.config.Kit.Site.Zone)
	case !m.log.DerotatorOn:
		what = "a start now"
	}
	lasts := "good for " + duration(o.Lasts)
	long := fmt.Sprintf("%s: to %s, %s", what, tenths(o.To), lasts)
	if o.Takes > 0 {
		return []string{long + ", " + duration(o.Takes) + " to turn there", long}
	}
	return []string{long}
}

// countWords counts the subs by filter and what the night still gives.
func (m Model) countWords() []string {
	var counts []string
	for _, c := range m.run.Counts {
		counts = append(counts, fmt.Sprintf("%s %d/%d", c.Filter, c.Taken, c.Wanted))
	}
	short := strings.Join(counts, "   ")
	left := duration(m.run.SubsLeft) + " of subs still to come"
	return []string{short + "      " + left, short}
}

// drawStrip shows the night as one line.
func (m Model) drawStrip(area draw.Area) {
	span := m.tonight.Span()
	v := draw.StripValues{From: span.From, To: span.To, Left: "dusk", Right: "dawn", Sun: m.tonight.Sun(), Now: m.now, Hours: m.hours(span)}
	for i, row := range m.tonight.Rows() {
		v.Runs = append(v.Runs, draw.StripRun{From: row.From, To: row.To, Label: fmt.Sprintf("run %d", i+1), Rewound: row.RewindBefore > 0})
	}
	for _, w := range m.tonight.Windows {
		v.Notes = append(v.Notes, draw.Tick{At: w.From, Label: "usable " + hourMinute(w.From, m.config.Kit.Site.Zone)})
	}
	if moon := m.tonight.Night.Moonrise; moon.OK {
		v.Notes = append(v.Notes, draw.Tick{At: moon.At, Label: "Moon up " + hourMinute(moon.At, m.config.Kit.Site.Zone)})
	}
	if moon := m.tonight.Night.Moonset; moon.OK {
		v.Notes = append(v.Notes, draw.Tick{At: moon.At, Label: "Moon down " + hourMinute(moon.At, m.config.Kit.Site.Zone)})
	}
	draw.NightStrip(area, m.config.Charset, v)
}

// hours are the full local hours in span.
func (m Model) hours(span plan.Span) []draw.Tick {
	zone := m.config.Kit.Site.Zone
	var ticks []draw.Tick
	first := span.From.In(zone).Truncate(time.Hour) // zones off by half an hour have their own full hours
	_, offset := span.From.In(zone).Zone()
	first = first.Add(-time.Duration(offset%3600) * time.Second)
	for at := first; at.Before(span.To); at = at.Add(time.Hour) {
		if !at.Before(span.From) {
			ticks = append(ticks, draw.Tick{At: at, Label: at.In(zone).Format("15")})
		}
	}
	return ticks
}
