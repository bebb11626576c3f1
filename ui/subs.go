package ui

import (
	"fmt"
	"path/filepath"
	"strings"

	"duskhand/checklist"
	"duskhand/checklist/subs/survey"
	"duskhand/checklist/subs/turning"
	"duskhand/ui/draw"
	"duskhand/ui/keys"
	"duskhand/ui/say"
	"duskhand/ui/theme"
)

// The screen "Subs": are they good?

// deriveSubs places the frames anew while its screen shows.
func (m Model) deriveSubs() Model {
	if m.tonight == nil || m.screen != keys.SubsScreen {
		return m
	}
	m.subs.facts = m.run.SubsAt(m.subs.free, m.subs.blind)
	return m
}

func (m Model) subsParts(notices int) []part {
	return []part{
		{"header", 2, 1, 6}, {"answer", answerRows(m.width, min(m.height, modest)), 1, 0}, {"label", 1, 1, 1}, {"notices", notices, 1, 3},
		{"counts", 1, 1, 4}, {"gap", 1, 1, 9}, {"trends", len(trends()), 1, 5}, {"thermal", 1, 1, 8}, {"table", 4, 2, 7}, {"footer", m.footerRows(), 1, m.footerRank(4)},
	}
}

func (m Model) drawSubs(area draw.Area) {
	notices := m.subNotices(area.Width() - 2*margin(area.Width()))
	bands := stack(area.Height(), m.subsParts(len(notices)), "table")
	part := func(name string) draw.Area { return slice(area, bands[name]) }
	m.drawHeader(part("header"))
	text, role, label := m.subsAnswer()
	draw.BigText(part("answer"), m.config.Charset, role, text)
	put(part("label"), theme.Text, m.marked(bands["header"], label)...)
	told := part("notices")
	for i, line := range notices {
		told.Put(0, i, theme.Caution, line)
	}
	put(part("counts"), theme.Text, m.arrivedCounts()...)
	m.drawTrends(part("trends"))
	if thermal := m.subs.facts.Thermal; thermal != nil {
		put(part("thermal"), theme.Text, thermal.Words()...)
	}
	m.drawArrived(part("table"))
	m.drawFooter(part("footer"))
}

// arrivedCounts says what has arrived, by target, filter and exposure.
func (m Model) arrivedCounts() []string {
	var all, own []string
	target := ""
	for i, c := range m.subs.facts.Ledger.Counts() {
		text := fmt.Sprintf("%s %d × %s", orUnknown(c.Filter), c.Subs, exposure(c.Exposure))
		if i == 0 || c.Target != target { // of what lies outside the runs nobody may know the target: it is ""
			target = c.Target
			all = append(all, orUnknown(target)+": "+text)
		} else {
			all[len(all)-1] += ", " + text
		}
		if c.Target == m.tonight.Target.Name {
			own = append(own, text)
		}
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
func (m Model) subsAnswer() (text string, role theme.Role, label []string) {
	s := m.subs.facts
	switch {
	case !s.Watched:
		return "NOBODY", theme.Answer, []string{"watches the subs: name the folder in the kit, watch.folders = [\"…\"]", "no folder is watched: watch.folders"}
	case len(s.Arrived) == 0:
		return "NONE", theme.Answer, []string{"no frame has come yet to " + strings.Join(m.config.Kit.Watch.Folders, ", "), "no frame yet"}
	case s.Turning == nil:
		return "NONE", theme.Answer, []string{fmt.Sprintf("%s, none of this run compared yet", counted(len(s.Arrived), "frame")), "none of this run yet"}
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
		return "CREEPS", theme.Caution, words
	}
	return "WAIT", theme.Answer, words
}

// counted prints a number of things.
func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// subNotices are the latest of what is odd about the frames, wrapped.
func (m Model) subNotices(width int) []string {
	const most = 4
	var lines []string
	for _, hint := range m.subs.facts.Hints {
		lines = append(lines, draw.Shorten(m.config.Charset, hourMinute(hint.At, m.config.Kit.Site.Zone)+"  "+hint.Text, width))
	}
	notices := m.subs.facts.Notices
	for i := len(notices) - 1; i >= 0 && len(lines) < most; i-- {
		text := hourMinute(notices[i].At, m.config.Kit.Site.Zone) + "  " + notices[i].Text
		lines = append(lines, draw.Shorten(m.config.Charset, text, width))
	}
	if trouble := m.subs.trouble; trouble != "" {
		lines = append([]string{draw.Shorten(m.config.Charset, trouble, width)}, lines...)
	}
	return lines
}

// trend is one line of the trends: its name, how a frame's value is had and printed, and whether only frames
// of one filter can be compared.
type trend struct {
	name  string
	alike bool
	value func(m Model, b checklist.MeasuredBody, a checklist.Arrived) (float64, bool)
	print string
}

func trends() []trend {
	return []trend{
		{"half-flux ″", false, func(m Model, b checklist.MeasuredBody, a checklist.Arrived) (float64, bool) {
			return b.HFD * m.config.Kit.ScaleArcsecPerPixel() * float64(max(1, a.BinX)), b.HFD > 0
		}, "%.2f"},
		{"air °C", false, func(m Model, _ checklist.MeasuredBody, a checklist.Arrived) (float64, bool) {
			began, known := a.Began()
			if !known {
				return 0, false
			}
			return survey.AirAt(m.log.Temperatures, began)
		}, "%.1f"},
		{"stars", true, func(_ Model, b checklist.MeasuredBody, _ checklist.Arrived) (float64, bool) {
			return float64(b.Stars), true
		}, "%.0f"},
		{"sky ADU", true, func(_ Model, b checklist.MeasuredBody, _ checklist.Arrived) (float64, bool) {
			return b.Background, true
		}, "%.0f"},
		{"elongation", false, func(_ Model, b checklist.MeasuredBody, _ checklist.Arrived) (float64, bool) {
			return b.Elongation, b.Elongation > 0
		}, "%.2f"},
		{"moved ″", false, func(m Model, _ checklist.MeasuredBody, a checklist.Arrived) (float64, bool) {
			if a.Turning == nil || a.Turning.MovedPx == nil {
				return 0, false
			}
			return *a.Turning.MovedPx * m.config.Kit.ScaleArcsecPerPixel() * float64(max(1, a.BinX)), true
		}, "%.1f"},
		{"turning °/h", false, func(_ Model, _ checklist.MeasuredBody, a checklist.Arrived) (float64, bool) {
			if a.Turning == nil || a.Turning.Lights < 2 {
				return 0, false
			}
			return a.Turning.RateDegPerH, true
		}, "%+.2f"},
	}
}

// drawTrends draws each trend of the night's lights as a line of blocks, with the latest value before it and
// the lowest and highest behind.
func (m Model) drawTrends(area draw.Area) {
	const name, value, ends = 12, 8, 18
	for y, t := range trends() {
		var samples []draw.Sample
		low, high, latest, some := 0.0, 0.0, 0.0, false
		for _, a := range m.subs.facts.Arrived {
			if latest := m.subs.facts.Latest; t.alike && latest != nil && a.Filter != latest.Filter {
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
		draw.Sparkline(row.Area(name+value, 0, width, 1), m.config.Charset, theme.Text, samples, low, max(high, low+1e-9))
		row.PutRight(area.Width(), 0, theme.Faint, print(low)+" to "+print(high))
	}
}

func (m Model) drawArrived(area draw.Area) {
	columns := []draw.TableColumn{{Title: "at", Width: 6}, {Title: "filter", Width: 7}, {Title: "exposure", Width: 9, Align: draw.AlignRight},
		{Title: "hfd ″", Width: 6, Align: draw.AlignRight}, {Title: "stars", Width: 6, Align: draw.AlignRight}, {Title: "sky", Width: 7, Align: draw.AlignRight}, {Title: "", Width: 0}}
	narrow := area.Width() < 60
	if narrow {
		columns = append(columns[:2:2], columns[3], columns[6])
	}
	v := draw.TableValues{Columns: columns, Chosen: -1}
	entries := m.subs.facts.Ledger.Entries
	for i := len(entries) - 1; i >= 0; i-- {
		e := entries[i]
		cells := []string{hourMinute(e.Start, m.config.Kit.Site.Zone), e.Header.Filter, exposure(e.Exposure), "", "", "", m.subState(i)}
		if b := e.Measured; b != nil {
			cells[3] = fmt.Sprintf("%.1f", b.HFD*m.config.Kit.ScaleArcsecPerPixel()*float64(max(1, e.Header.BinX)))
			cells[4], cells[5] = fmt.Sprint(b.Count), fmt.Sprintf("%.0f", b.Background)
		}
		if narrow {
			cells = append(cells[:2:2], cells[3], cells[6])
		}
		v.Rows = append(v.Rows, cells)
	}
	v.First = min(m.scroll, max(0, len(v.Rows)-1))
	draw.Table(area, m.config.Charset, v)
}

// subState says what is the matter with a frame, or where it belongs.
func (m Model) subState(i int) string {
	e := m.subs.facts.Ledger.Entries[i]
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
