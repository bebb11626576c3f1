// Package subs is the screen "Subs": are they good?
package subs

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"duskhand/checklist"
	"duskhand/checklist/frames/quality"
	"duskhand/checklist/subs/survey"
	"duskhand/checklist/subs/turning"
	"duskhand/sky/words"
	"duskhand/ui/draw"
	"duskhand/ui/layout"
	"duskhand/ui/say"
	"duskhand/ui/screens"
	"duskhand/ui/theme"
)

func (m view) subsParts(notices int) []layout.Part {
	return []layout.Part{
		layout.NewPart("header", 2, 1, 6), layout.NewPart("answer",
			screens.AnswerRows(m.Width, min(m.Height,
				screens.Modest)), 1, 0), layout.NewPart("label", 1, 1, 1), layout.NewPart("notices", notices, 1, 3),
		layout.NewPart("counts", 1, 1, 4), layout.NewPart("gap", 1, 1, 9), layout.NewPart("trends",
			len(m.trends()), 1, 5), layout.NewPart("thermal", 1, 1, 8), layout.NewPart("table", 4, 2, 7), layout.NewPart("footer", m.Footer.Rows(), 1, m.Footer.Rank(4)),
	}
}

// View draws the screen.
func (r Model) View(s screens.Status, w screens.Window) {
	view{r, screens.ShownIn(s, w)}.draw(w.Area)
}

// view is the room with the status of an instant, for drawing.
type view struct {
	Model
	screens.Shown
}

func (m view) draw(area draw.Area) {
	notices := m.subNotices(area.Width() - 2*layout.Margin(area.Width()))
	bands := layout.Stack(area.Height(), m.subsParts(len(notices)), "table")
	part := func(name string) draw.Area { return layout.Slice(area, bands[name]) }
	m.Header(part("header"))
	text, role, label := m.subsAnswer()
	draw.BigText(part("answer"), m.Charset, role, text)
	layout.Put(part("label"), theme.Need, m.Marked(bands["header"], label)...)
	told := part("notices")
	for i, line := range notices {
		told.Put(0, i, theme.Caution, line)
	}
	m.Footer.Draw(part("footer"))
	if m.unwatched() {
		top := bands["counts"].Top
		m.drawUnwatched(layout.Slice(area, layout.Band{Top: top, Height: bands["footer"].Top - top}))
		return
	}
	layout.Put(part("counts"), theme.Text, m.arrivedCounts()...)
	m.drawTrends(part("trends"))
	if thermal := m.Subs.Thermal; thermal != nil {
		layout.Put(part("thermal"), theme.Text, say.Thermal(*thermal)...)
	}
	m.drawArrived(part("table"))
}

// arrivedCounts says what has arrived, by target, filter and exposure.
func (m view) arrivedCounts() []string {
	var all, own []string
	target := ""
	for i, c := range m.Subs.Ledger.Counts() {
		text := fmt.Sprintf("%s %d × %s", orUnknown(c.Filter), c.Subs, words.Exposure(c.Exposure))
		if i == 0 || c.Target != target { // of what lies outside the runs nobody may know the target: it is ""
			target = c.Target
			all = append(all, orUnknown(target)+": "+text)
		} else {
			all[len(all)-1] += ", " + text
		}
		if c.Target == m.Tonight.Target.Name {
			own = append(own, text)
		}
	}
	if early := m.Run.Early; early > 0 {
		text := fmt.Sprintf("%d in twilight, not counted", early)
		all, own = append(all, text), append(own, text)
	}
	return []string{strings.Join(all, "   "), strings.Join(own, "  "), strings.Join(own, " ")}
}

func orUnknown(name string) string {
	if name == "" {
		return "?"
	}
	return name
}

// subsAnswer is what the lights say of the derotator: a word, and what it rests on.
func (m view) subsAnswer() (text string, role theme.Role, label []string) {
	s := m.Subs
	switch {
	case !s.Watched:
		return "NOBODY", theme.Answer, []string{"watches the subs: name the folder in the kit, watch.folders = [\"…\"]", "no folder is watched: watch.folders"}
	case len(s.Arrived) == 0:
		return "NONE", theme.Answer, []string{"no frame has come yet to " + strings.Join(m.Kit.Watch.Folders, ", "), "no frame yet"}
	case s.Turning == nil:
		return "NONE", theme.Answer, []string{fmt.Sprintf("%s, none of this run compared yet",
			words.Count(len(s.Arrived), "frame")), "none of this run yet"}
	}
	t := *s.Turning
	words := say.Turning(t)
	switch turning.Kind(t.Kind) {
	case turning.Steady:
		return "STEADY", theme.Answer, words
	case turning.Off, turning.Reversed:
		return "TURNS", theme.Call, words
	case turning.Residual:
		if t.Alarm {
			return "TURNS", theme.Call, words
		}
		if survey.AtOnce(t) {
			return "TURNED", theme.Caution, words
		}
		return "CREEPS", theme.Caution, words
	}
	return "WAIT", theme.Answer, words
}

// subNotices are what the frames suggest and the latest of what is odd about them, wrapped, in four rows or, where one of
// them needs more, in as many as that takes.
func (m view) subNotices(width int) []string {
	const most = 4
	var lines []string
	add := func(text string) {
		if rows := layout.Wrapped(text, width, noticeIndent); len(lines) == 0 || len(lines)+len(rows) <= most {
			lines = append(lines, rows...)
		}
	}
	if m.Unseen != "" {
		add(m.Unseen)
	}
	for _, hint := range m.Subs.Hints {
		add(words.Minute(hint.At, m.Zone()) + "  " + say.Hint(hint, m.Run))
	}
	if said := say.Drift(m.Subs.Drift); said != "" {
		add(words.Minute(m.Subs.Drift.To, m.Zone()) + "  " + said)
	}
	for _, f := range m.Subs.Quality {
		add(words.Minute(f.At, m.Zone()) + "  " + say.Quality(f))
	}
	for _, n := range slices.Backward(m.Subs.Notices) {
		add(words.Minute(n.At, m.Zone()) + "  " + say.Notice(n))
	}
	return lines
}

// noticeIndent is how far the rows of a notice stand in, below its time.
const noticeIndent = 7

// trend is one line of the trends: its name, how a frame's value is had and printed, and whether only frames
// of one filter can be compared.
type trend struct {
	name  string
	alike bool
	value func(m view, b checklist.MeasuredBody, a checklist.Arrived) (float64, bool)
	print string
}

func (m view) trends() []trend {
	sky := skyLevel
	if m.Kit.Camera.GainEPerADU > 0 {
		sky = skyMagnitude
	}
	return []trend{
		{"half-flux ″", false, func(m view, b checklist.MeasuredBody, a checklist.Arrived) (float64, bool) {
			return b.HFD * m.Kit.ScaleArcsecPerPixel() * float64(max(1, a.BinX)), b.HFD > 0
		}, "%.2f"},
		{"air °C", false, func(m view, _ checklist.MeasuredBody, a checklist.Arrived) (float64, bool) {
			began, known := a.Began()
			if !known {
				return 0, false
			}
			return survey.AirAt(m.Log.Temperatures, began)
		}, "%.1f"},
		{"stars", true, func(_ view, b checklist.MeasuredBody, _ checklist.Arrived) (float64, bool) {
			return float64(b.Stars), true
		}, "%.0f"},
		sky,
		{"elongation", false, func(_ view, b checklist.MeasuredBody, _ checklist.Arrived) (float64, bool) {
			return b.Elongation, b.Elongation > 0
		}, "%.2f"},
		{"moved ″", false, func(m view, _ checklist.MeasuredBody, a checklist.Arrived) (float64, bool) {
			if a.Turning == nil || a.Turning.MovedPx == nil {
				return 0, false
			}
			return *a.Turning.MovedPx * m.Kit.ScaleArcsecPerPixel() * float64(max(1, a.BinX)), true
		}, "%.1f"},
		{"turning °/h", false, func(_ view, _ checklist.MeasuredBody, a checklist.Arrived) (float64, bool) {
			if a.Turning == nil || a.Turning.Lights < 2 {
				return 0, false
			}
			return a.Turning.RateDegPerH, true
		}, "%+.2f"},
	}
}

// How bright the sky is: by the camera's numbers, or in magnitudes where the kit has the gain.
var (
	skyLevel = trend{"sky ADU", true, func(_ view, b checklist.MeasuredBody, _ checklist.Arrived) (float64, bool) {
		return b.Background, true
	}, "%.0f"}
	skyMagnitude = trend{"sky mag/″²", true, func(m view, _ checklist.MeasuredBody, a checklist.Arrived) (float64, bool) {
		return quality.SkyBrightness(a, m.Kit)
	}, "%.2f"}
)

// drawTrends draws each trend of the night's lights as a line of blocks, with the latest value before it and
// the lowest and highest behind.
func (m view) drawTrends(area draw.Area) {
	const name, value, ends = 12, 8, 18
	for y, t := range m.trends() {
		var samples []draw.Sample
		low, high, latest, some := 0.0, 0.0, 0.0, false
		for _, a := range m.Subs.Arrived {
			if latest := m.Subs.Latest; t.alike && latest != nil && a.Filter != latest.Filter {
				continue
			}
			sample := draw.Sample{Missing: true}
			if a.Measured != nil {
				if v, ok := t.value(m, *a.Measured, a); ok {
					if sample = (draw.Sample{Value: v}); !some {
						low, high = v, v
					}
					low, high, latest, some = min(low, v), max(high, v), v, true
				}
			}
			samples = append(samples, sample)
		}
		row := area.Area(0, y, area.Width(), 1)
		row.Put(0, 0, theme.Faint, t.name)
		if !some {
			continue
		}
		print := func(x float64) string { return strings.Replace(fmt.Sprintf(t.print, x), "-", "−", 1) }
		row.PutRight(name+value-1, 0, theme.Text, print(latest))
		width := area.Width() - name - value - ends
		draw.Sparkline(row.Area(name+value, 0, width, 1), m.Charset, theme.Text, samples, low,
			max(high, low+1e-9))
		row.PutRight(area.Width(), 0, theme.Faint, print(low)+" to "+print(high))
	}
}

func (m view) drawArrived(area draw.Area) {
	columns := []draw.TableColumn{{Title: "at", Width: 6}, {Title: "filter", Width: 7},
		{Title: "exposure", Width: 9, Align: draw.AlignRight},
		{Title: "hfd ″", Width: 6, Align: draw.AlignRight}, {Title: "stars", Width: 6,
			Align: draw.AlignRight}, {Title: "sky", Width: 7, Align: draw.AlignRight}, {Title: "", Width: 0}}
	narrow := area.Width() < 60
	if narrow {
		columns = append(columns[:2:2], columns[3], columns[6])
	}
	v := draw.TableValues{Columns: columns, Chosen: -1}
	entries := m.Subs.Ledger.Entries
	for i := len(entries) - 1; i >= 0; i-- {
		e := entries[i]
		cells := []string{words.Minute(e.Start, m.Zone()), e.Header.Filter,
			words.Exposure(e.Exposure), "", "", "", m.subState(i)}
		if b := e.Measured; b != nil {
			cells[3] = fmt.Sprintf("%.1f", b.HFD*m.Kit.ScaleArcsecPerPixel()*float64(max(1, e.Header.BinX)))
			cells[4], cells[5] = fmt.Sprint(b.Count), fmt.Sprintf("%.0f", b.Background)
		}
		if narrow {
			cells = append(cells[:2:2], cells[3], cells[6])
		}
		v.Rows = append(v.Rows, cells)
	}
	v.First = min(m.scroll, max(0, len(v.Rows)-1))
	draw.Table(area, m.Charset, v)
}

// subState says what is the matter with a frame, or where it belongs.
func (m view) subState(i int) string {
	e := m.Subs.Ledger.Entries[i]
	switch {
	case e.Unread != "":
		return "not read: " + e.Unread
	case e.Copy != "":
		return "copy of " + filepath.Base(e.Copy)
	case !e.Counts():
		return string(e.Header.Kind)
	case e.Run < 0:
		return "outside the runs"
	}
	return fmt.Sprintf("run %d", e.Run+1)
}
