package draw

import (
	"strings"
	"time"

	"duskhand/sky"
	"duskhand/ui/theme"
)

// StripValues says what the strip of the night shows. All instants are compared as such, so any zone
// will do.
type StripValues struct {
	From, To    time.Time   // the ends: sunset and sunrise, or what the night is taken to be
	Left, Right string      // words at the ends, as dusk and dawn
	Sun         []sky.Angle // the Sun's altitude at even steps from From to To, both included; up +
	Runs        []StripRun  // in order of time
	Now         time.Time   // no marker if outside From to To
	Hours       []Tick      // for the row below the strip
	Notes       []Tick      // for the row above, the more important first
}

// StripRun is one run on the strip.
type StripRun struct {
	From, To time.Time
	Label    string
	Rewound  bool // a rewind came, or will come, before it
}

// Tick is a word at an instant.
type Tick struct {
	At    time.Time
	Label string
}

// NightStrip draws the night as one line: twilight as blocks as high as the sky is bright, runs as
// ┤run 1├ with r for the rewind between two, ● for now.
//
//	dusk █▇▅▃▂▁──┤run 1     ├r┤run 2  ●   ├r┤run 3      ├───▁▂▃▅▇█ dawn
//
// One row is the strip alone; the second row, below it, takes the hours; with three the first takes
// the notes. Words that would touch others are left out.
func NightStrip(area Area, charset Charset, v StripValues) {
	row := 0
	if area.Height() >= 3 {
		row = 1
	}
	left, right := 0, area.Width()
	if edges := Width(v.Left) + Width(v.Right) + 2; area.Width() >= 3*edges {
		left = area.Put(0, row, theme.Faint, v.Left) + min(Width(v.Left), 1)
		right = area.PutRight(area.Width(), row, theme.Faint, v.Right) - min(Width(v.Right), 1)
	}
	s := strip{area: area.Area(left, 0, right-left, area.Height()), charset: charset, row: row, v: v}
	s.drawSky()
	s.drawRuns()
	if x, ok := s.column(v.Now); ok {
		s.area.PutRune(x, row, theme.Mark, charset.pick('●', '@'))
	}
	for _, tick := range v.Hours {
		s.label(tick, row+1)
	}
	if row > 0 {
		for _, tick := range v.Notes {
			s.label(tick, row-1)
		}
	}
}

type strip struct {
	area    Area
	charset Charset
	row     int
	v       StripValues
}

func (s strip) column(t time.Time) (x int, ok bool) {
	return scaleTo(t.Sub(s.v.From).Seconds(), 0, s.v.To.Sub(s.v.From).Seconds(), s.area.Width())
}

func (s strip) label(tick Tick, row int) {
	if x, ok := s.column(tick.At); ok {
		putLabel(s.area, x, row, theme.Faint, tick.Label)
	}
}

// drawSky draws the brightness of the sky along the whole strip.
func (s strip) drawSky() {
	for x := range s.area.Width() {
		r := s.charset.pick('─', '-')
		if level, bright := s.twilight(x); bright {
			r = levelRune(s.charset, level)
		}
		s.area.PutRune(x, s.row, theme.Faint, r)
	}
}

// twilight returns the height of the block at column x, 0 to 7 for the Sun at −18° to 0°; bright is
// false in the dark, below −18°, which is where astronomical twilight ends.
func (s strip) twilight(x int) (level int, bright bool) {
	const dark = -18 * sky.Degree
	n := len(s.v.Sun)
	if n == 0 {
		return 0, false
	}
	at := float64(x) / float64(max(s.area.Width()-1, 1)) * float64(n-1)
	i := min(int(at), max(n-2, 0))
	j := min(i+1, n-1)
	sun := s.v.Sun[i] + sky.Angle(at-float64(i))*(s.v.Sun[j]-s.v.Sun[i])
	if sun < dark {
		return 0, false
	}
	level, _ = scaleTo(min(sun, 0).Degrees(), dark.Degrees(), 0, levels)
	return level, true
}

// drawRuns draws each run between its brackets. A rewind lasts minutes, less than a cell; so each run
// starts at least far enough behind the one before to leave room for the r.
func (s strip) drawRuns() {
	after := 0
	for _, run := range s.v.Runs {
		from, to, ok := s.span(run)
		if !ok {
			continue
		}
		if run.Rewound && after > 0 {
			from = max(from, after+1)
			s.area.PutRune(from-1, s.row, theme.Text, 'r')
		}
		from = max(from, after)
		to = max(to, from+1)
		s.drawRun(run, from, to)
		after = to + 1
	}
}

// span returns the columns of a run, cut to the strip; ok is false if none of it is there.
func (s strip) span(run StripRun) (from, to int, ok bool) {
	if !run.From.Before(s.v.To) || !run.To.After(s.v.From) {
		return 0, 0, false
	}
	from, _ = s.column(run.From)
	to, inside := s.column(run.To)
	if !inside {
		to = s.area.Width() - 1
	}
	return from, to, true
}

func (s strip) drawRun(run StripRun, from, to int) {
	role := theme.Line
	if !run.To.After(s.v.Now) {
		role = theme.Faint
	}
	s.area.PutRune(from, s.row, role, s.charset.pick('┤', '['))
	s.area.PutRune(to, s.row, role, s.charset.pick('├', ']'))
	inside := s.area.Area(from+1, 0, to-from-1, s.area.Height())
	for x := range inside.Width() {
		inside.PutRune(x, s.row, theme.Ground, 0)
	}
	if !run.From.After(s.v.Now) && run.To.After(s.v.Now) {
		role = theme.Text
	}
	// A label that doesn't fit is cut to its last word: of "run 4" the number is what tells.
	for _, label := range [2]string{run.Label, run.Label[strings.LastIndexByte(run.Label, ' ')+1:]} {
		start, width := 0, Width(label)
		if now, ok := s.column(s.v.Now); ok && now > from && now-from-2 < width {
			start = now - from + 1 // behind the marker, which would stand on the label
		}
		if start+width <= inside.Width() {
			inside.Put(start, s.row, role, label)
			return
		}
	}
}
