package ui

import (
	"fmt"
	"strings"
	"time"

	"duskhand/plan"
	"duskhand/ui/draw"
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
	o := m.run.Next()
	if !o.OK || m.run.Behind > 0 {
		return []string{""}
	}
	what := "the next rewind"
	switch {
	case m.log.DerotatorOn && (o.Later || m.now.Before(m.run.Window.From)):
		what = "a rewind for " + hourMinuteUp(o.Begins, m.config.Kit.Site.Zone)
	case !m.log.DerotatorOn && (o.Later || m.now.Before(m.run.Window.From)):
		what = "at " + hourMinuteUp(o.Begins, m.config.Kit.Site.Zone)
	case !m.log.DerotatorOn:
		what = "a start now"
	}
	lasts := "good for " + duration(o.Lasts)
	long := fmt.Sprintf("%s: to %s, %s", what, degreesText(o.To), lasts)
	if o.Takes >= time.Second {
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
	left := duration(m.run.SubsLeft()) + " of subs still to come"
	return []string{short + "      " + left, short}
}

// drawStrip shows the night as one line.
func (m Model) drawStrip(area draw.Area) {
	span := m.tonight.Span()
	v := draw.StripValues{From: span.From, To: span.To, Left: "dusk", Right: "dawn", Sun: m.tonight.Sun(), Now: m.now, Hours: m.hours(span)}
	for i, row := range m.tonight.Rows() {
		v.Runs = append(v.Runs, draw.StripRun{From: row.From, To: row.To, Label: fmt.Sprintf("run %d", i+1), Rewound: row.Rewound})
	}
	for _, w := range m.tonight.Windows {
		v.Notes = append(v.Notes, draw.Tick{At: w.From, Label: "usable " + hourMinuteUp(w.From, m.config.Kit.Site.Zone)})
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
