// Package run is the screen "Run": how long until I must act?
package run

import (
	"fmt"
	"strings"
	"time"

	"duskhand/sky/words"
	"duskhand/ui/draw"
	"duskhand/ui/layout"
	"duskhand/ui/screens"
	"duskhand/ui/theme"
)

// runParts are the parts of the screen; what matters, if anything does, stands where a row is blank.
func (m view) runParts(matters []string) []layout.Part {
	strip, besides := 2, 15
	if len(matters) > 0 {
		besides = 8
	}
	if m.Height >= 28 {
		strip = 3 // the notes above it
	}
	return []layout.Part{
		layout.NewPart("header", 2, 1, 6), layout.NewPart("gap 1", 1, 1, 12), layout.NewPart("answer",
			screens.AnswerRows(m.Width, m.Height), 1, 0), layout.NewPart("gap 2", 1, 1, 13),
		layout.NewPart("label", 1, 1, 1), layout.NewPart("bounds", 1, 1, 4), layout.NewPart("gap 3", 1, 1,
			14), layout.NewPart("sub", 1, 1, 3), layout.NewPart("matters", 1, 1, besides),
		layout.NewPart("gauge", 2, 1, 5), layout.NewPart("gap 5", 1, 1, 16), layout.NewPart("offer", 1, 1,
			8), layout.NewPart("counts", 1, 1, 9), layout.NewPart("gap 6", 1, 1, 17),
		layout.NewPart("to do", 1, 1, m.Footer.ToDoRank()), layout.NewPart("strip", strip, 1,
			10), layout.NewPart("footer", m.Footer.Rows(), 1, m.Footer.Rank(7)),
	}
}

// View draws the screen.
func (r Model) View(s screens.Status, w screens.Window) {
	if r.digitsOnly {
		view{r, screens.ShownIn(s, w)}.drawDigits(w.Area)
		return
	}
	view{r, screens.ShownIn(s, w)}.draw(w.Area)
}

// view is the room with the status of an instant, for drawing.
type view struct {
	Model
	screens.Shown
}

func (m view) draw(area draw.Area) {
	matters := m.matters()
	bands := layout.Stack(area.Height(), m.runParts(matters), "gap 6")
	part := func(name string) draw.Area { return layout.Slice(area, bands[name]) }
	m.Header(part("header"))
	m.drawAnswer(part("answer"))
	layout.Put(part("label"), theme.Need, m.Marked(bands["header"], m.answerLabel())...)
	layout.Put(part("bounds"), theme.Faint, m.bounds()...)
	layout.Put(part("sub"), theme.Text, m.subWords()...)
	layout.Put(part("matters"), theme.Text, matters...)
	m.drawGauge(part("gauge"))
	layout.Put(part("offer"), theme.Text, m.offerWords()...)
	layout.Put(part("counts"), theme.Faint, m.countWords()...)
	layout.Put(part("to do"), m.urgency(), m.toDo()...)
	m.drawCurves(part("gap 6"))
	m.Strip(part("strip"))
	m.Footer.Draw(part("footer"))
}

// drawCurves puts Night's curves where a large window has room between what the run is and what is to be done.
func (m view) drawCurves(area draw.Area) {
	const roomy, airy, both = 5, 8, 16
	area = area.Area(0, 0, area.Width(), area.Height()-1) // a blank row sets it apart from what is to be done
	if area.Height() >= airy {
		area = area.Area(0, 1, area.Width(), area.Height()-1)
	}
	switch rows := area.Height(); {
	case m.Calls(): // no curve helps now
	case rows >= both:
		m.Altitudes(area.Area(0, 0, area.Width(), rows/2))
		m.Angles(area.Area(0, rows/2, area.Width(), rows-rows/2))
	case rows >= roomy:
		m.Altitudes(area)
	}
}

// drawDigits is the Run screen stripped to what is read from afar.
func (m view) drawDigits(area draw.Area) {
	parts := []layout.Part{layout.NewPart("answer", max(1, area.Height()-5), 1, 0),
		layout.NewPart("label", 1, 1, 1), layout.NewPart("gauge", 1, 1, 3), layout.NewPart("to do", 1, 1,
			m.Footer.ToDoRank()), layout.NewPart("footer", m.Footer.Rows(), 1, m.Footer.Rank(4))}
	if screens.AnswerRows(m.Width, m.Height) == 1 {
		parts[0].Rows = 1
	}
	bands := layout.Stack(area.Height(), parts, "answer")
	part := func(name string) draw.Area { return layout.Slice(area, bands[name]) }
	m.drawAnswer(part("answer"))
	layout.Put(part("label"), theme.Need, m.Marked(layout.Band{}, m.answerLabel())...)
	m.drawGauge(part("gauge"))
	layout.Put(part("to do"), m.urgency(), m.toDo()...)
	m.Footer.Draw(part("footer"))
}

func (m view) drawGauge(area draw.Area) {
	d := m.Kit.Derotator
	v := draw.GaugeValues{Min: d.Min, Max: d.Max, Turning: sign(float64(m.Run.Rate))}
	switch {
	case m.Run.Anchor != nil:
		v.Now = m.Run.Angle
		room := area.Width() - 2*draw.Width(words.Signed(d.Min)) - 4
		rate := m.rateWords()
		v.NowLabel = layout.Longest(room*2/5, words.SignedTenths(v.Now)+", "+rate[0],
			words.SignedTenths(v.Now)+", "+rate[len(rate)-1])
		if run, open := m.Log.OpenRun(); open {
			v.Marks = append(v.Marks, draw.GaugeMark{At: run.StartAngle,
				Label: "started " + words.Minute(run.Start, m.Zone())})
		}
	case m.Log.Parked != nil:
		v.Now, v.NowLabel, v.Turning = *m.Log.Parked, "stands here, off", 0
	default:
		layout.Put(area, theme.Faint, fmt.Sprintf("travel %s to %s; where it stands is not known",
			words.Signed(d.Min), words.Signed(d.Max)))
		return
	}
	draw.Gauge(area, m.Charset, v)
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
func (m view) offerWords() []string {
	o := m.Run.Next()
	if !o.OK || m.Run.Behind > 0 {
		return []string{""}
	}
	what := "the next rewind"
	switch {
	case m.Log.DerotatorOn && (o.Later || m.Now.Before(m.Run.Window.From)):
		what = "a rewind for " + words.MinuteFrom(o.Begins, m.Zone())
	case !m.Log.DerotatorOn && (o.Later || m.Now.Before(m.Run.Window.From)):
		what = "at " + words.MinuteFrom(o.Begins, m.Zone())
	case !m.Log.DerotatorOn:
		what = "a start now"
	}
	lasts := "good for " + words.Lasting(o.Lasts)
	long := fmt.Sprintf("%s: to %s, %s", what, words.Signed(o.To), lasts)
	if o.Takes >= time.Second {
		return []string{long + ", " + words.Lasting(o.Takes) + " to turn there", long}
	}
	return []string{long}
}

// countWords counts the subs by filter and what the night still gives.
func (m view) countWords() []string {
	var counts []string
	for _, c := range m.Run.Counts {
		counts = append(counts, fmt.Sprintf("%s %d/%d", c.Filter, c.Taken, c.Wanted))
	}
	if m.Run.Early > 0 {
		counts = append(counts, fmt.Sprintf("%d in twilight, not counted", m.Run.Early))
	}
	short := strings.Join(counts, "   ")
	left := words.Lasting(m.Run.SubsLeft()) + " of subs still to come"
	return []string{short + "      " + left, short}
}
