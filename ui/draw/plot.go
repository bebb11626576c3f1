package draw

import (
	"time"

	"duskhand/ui/theme"
)

// PlotValues says what a plot shows: curves over time. Heights are in one unit, which the caller
// names in the labels.
type PlotValues struct {
	From, To  time.Time // the left and the right edge
	Low, High float64   // the lower and the upper edge, in the curves' unit
	Curves    []PlotCurve
	Hours     []Tick     // along the foot
	Heights   []PlotTick // up the left side
	Now       time.Time  // a dotted upright line there; none if outside
}

// PlotCurve is one curve.
type PlotCurve struct {
	Role   theme.Role
	Points []PlotPoint // in order of time
}

// PlotPoint is one point of a curve.
type PlotPoint struct {
	At    time.Time
	Value float64 // in the curves' unit
	Gap   bool    // not joined to the point before: nothing is known between
}

// PlotTick is a word at a height.
type PlotTick struct {
	Value float64 // in the curves' unit
	Label string
}

// Plot draws curves over time in braille dots above a line with the hours, the heights' labels on the
// left. What lies outside the edges is cut off. Curves of a higher role show over lower ones.
//
// Valid: at least 4 rows and some columns more than the widest height label; less draws nothing.
func Plot(area Area, charset Charset, v PlotValues) {
	margin := 0
	for _, tick := range v.Heights {
		margin = max(margin, Width(tick.Label))
	}
	inner := area.Area(margin+1, 0, area.Width()-margin-1, area.Height()-2)
	if inner.Width() < 4 || inner.Height() < 2 || !v.From.Before(v.To) || !(v.Low < v.High) {
		return
	}
	drawAxes(area, inner, charset, margin, v)
	canvas := NewCanvas(inner, charset)
	p := paper{canvas: canvas, v: v}
	if !v.Now.Before(v.From) && !v.Now.After(v.To) {
		top, foot := p.point(v.Now, v.High), p.point(v.Now, v.Low)
		canvas.Dashed(top, foot, theme.Faint, 3)
	}
	for _, curve := range v.Curves {
		p.draw(curve)
	}
	canvas.Draw()
}

type paper struct {
	canvas *Canvas
	v      PlotValues
}

func (p paper) point(at time.Time, value float64) Point {
	x := at.Sub(p.v.From).Seconds() / p.v.To.Sub(p.v.From).Seconds()
	y := (p.v.High - value) / (p.v.High - p.v.Low)
	return Point{x * float64(p.canvas.Width()-1), y * float64(p.canvas.Height()-1)}
}

func (p paper) draw(curve PlotCurve) {
	var before Point
	for i, at := range curve.Points {
		here := p.point(at.At, at.Value)
		if i == 0 || at.Gap {
			before = here
		}
		p.canvas.Line(before, here, curve.Role)
		before = here
	}
}

func drawAxes(area, inner Area, charset Charset, margin int, v PlotValues) {
	foot := inner.Height()
	for y := range foot {
		area.PutRune(margin, y, theme.Faint, charset.pick('│', '|'))
	}
	for x := range inner.Width() {
		area.PutRune(margin+1+x, foot, theme.Faint, charset.pick('─', '-'))
	}
	area.PutRune(margin, foot, theme.Faint, charset.pick('└', '+'))
	for _, tick := range v.Heights {
		if up, ok := scaleTo(tick.Value, v.Low, v.High, foot); ok {
			area.PutRune(margin, foot-1-up, theme.Faint, charset.pick('┤', '+'))
			area.PutRight(margin, foot-1-up, theme.Faint, tick.Label)
		}
	}
	hours := area.Area(margin+1, foot, inner.Width(), 2)
	for _, tick := range v.Hours {
		x, ok := scaleTo(tick.At.Sub(v.From).Seconds(), 0, v.To.Sub(v.From).Seconds(), hours.Width())
		if ok && putLabel(hours, x, 1, theme.Faint, tick.Label) {
			hours.PutRune(x, 0, theme.Faint, charset.pick('┬', '+'))
		}
	}
}
