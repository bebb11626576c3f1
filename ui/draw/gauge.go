package draw

import (
	"duskhand/sky"
	"duskhand/sky/words"
	"duskhand/ui/theme"
)

// GaugeValues says what a gauge shows: the derotator's mechanical angles, growing to the right.
type GaugeValues struct {
	Min, Max sky.Angle // the limits
	Now      sky.Angle // beyond a limit it is drawn there as a !, in role Caution
	NowLabel string    // a few words under the marker
	Turning  int       // sign of the angle's change: +1, −1, or 0 for still or unknown
	Marks    []GaugeMark
}

// GaugeMark is another angle worth seeing: where the run started, where the next one will.
type GaugeMark struct {
	At    sky.Angle
	Label string
}

// Gauge draws the travel as one line between its limits, with the limits' angles at the ends, a marker
// where the stage is now, an arrow where it turns to, a tick at 0° and at each mark; on the row below,
// if there is one, the words, the marker's first; words that would touch others are left out.
//
//	−16° ├──┬────────────┼──────▲▸──────┤ +16°
//	   started 22:40        turning
//
// Valid: at least 12 columns; in fewer the limits' angles are left out.
func Gauge(area Area, charset Charset, v GaugeValues) {
	left, right := words.Signed(v.Min), words.Signed(v.Max)
	pad := max(Width(left), Width(right))
	if charset == ASCII {
		left, right = ASCIIText(left), ASCIIText(right)
	}
	if area.Width() < 2*pad+4 {
		pad = -1
	} else {
		area.PutRight(pad, 0, theme.Faint, left)
		area.Put(area.Width()-pad, 0, theme.Faint, right)
	}
	travel := area.Area(pad+1, 0, area.Width()-2*(pad+1), area.Height())
	drawTravel(travel, charset, v)
}

func drawTravel(travel Area, charset Charset, v GaugeValues) {
	last := travel.Width() - 1
	for x := 1; x < last; x++ {
		travel.PutRune(x, 0, theme.Line, charset.pick('─', '-'))
	}
	travel.PutRune(0, 0, theme.Line, charset.pick('├', '|'))
	travel.PutRune(last, 0, theme.Line, charset.pick('┤', '|'))
	drawTick(travel, v, 0, theme.Line, charset.pick('┼', '+'))
	for _, m := range v.Marks {
		drawTick(travel, v, m.At, theme.Text, charset.pick('┬', '+'))
	}
	now := drawMarker(travel, charset, v)
	drawArrow(travel, charset, now, v.Turning)
	putLabel(travel, now, 1, theme.Text, v.NowLabel)
	for _, m := range v.Marks {
		if x, ok := v.column(travel, m.At); ok {
			putLabel(travel, x, 1, theme.Faint, m.Label)
		}
	}
}

// column returns where the angle lies on the travel; ok is false beyond the limits.
func (v GaugeValues) column(travel Area, a sky.Angle) (x int, ok bool) {
	return scaleTo(a.Degrees(), v.Min.Degrees(), v.Max.Degrees(), travel.Width())
}

// drawTick marks an angle on the line, but never over a limit.
func drawTick(travel Area, v GaugeValues, a sky.Angle, role theme.Role, r rune) {
	if x, ok := v.column(travel, a); ok && x > 0 && x < travel.Width()-1 {
		travel.PutRune(x, 0, role, r)
	}
}

// drawMarker draws where the stage is and returns the column.
func drawMarker(travel Area, charset Charset, v GaugeValues) (now int) {
	now, inside := v.column(travel, v.Now)
	if inside {
		travel.PutRune(now, 0, theme.Mark, charset.pick('▲', '^'))
		return now
	}
	if v.Now > v.Max {
		now = travel.Width() - 1
	}
	travel.PutRune(now, 0, theme.Caution, '!')
	return now
}

func drawArrow(travel Area, charset Charset, now, turning int) {
	switch x := now; {
	case turning > 0 && x+1 < travel.Width()-1:
		travel.PutRune(x+1, 0, theme.Mark, charset.pick('▸', '>'))
	case turning < 0 && x-1 > 0:
		travel.PutRune(x-1, 0, theme.Mark, charset.pick('◂', '<'))
	}
}
