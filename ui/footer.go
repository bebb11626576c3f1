package ui

import (
	"strings"

	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/x/ansi"

	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

// told is what the footer must show before anything else, whole: what a prompt asks or finds wrong, or a
// notice. Empty if there is nothing.
func (m Model) told() string {
	if m.asking != nil && m.asking.problem != "" {
		return m.asking.problem
	}
	if m.asking != nil {
		return m.asking.line()
	}
	return strings.Trim(m.notice+"\n"+m.unwritten, "\n")
}

// footerRows is how many rows the footer wants: one for the keys, more for what must be read whole.
func (m Model) footerRows() int {
	if m.told() == "" {
		return 1
	}
	return len(m.toldLines()) + m.keysBelow()
}

// keysBelow is 1 if the keys stay below a notice: they do while there is room, and nothing is asked.
func (m Model) keysBelow() int {
	const roomy = 18
	if m.asking != nil || m.height < roomy {
		return 0
	}
	return 1
}

func (m Model) toldLines() []string {
	width := max(1, m.width-2*margin(m.width))
	return strings.Split(ansi.Wrap(m.told(), width, ""), "\n")
}

// footerRank is the footer's own rank, or the next after answer and label when it asks or tells something
// that must be seen.
func (m Model) footerRank(usual int) int {
	if m.told() != "" {
		return 2
	}
	return usual
}

// toDoRank is the rank of the line that says what to do; it gives way to the label while the footer is
// urgent, so that the screen still says what it is.
func (m Model) toDoRank() int {
	if m.footerRank(0) == 2 {
		return 3
	}
	return 2
}

// drawFooter shows what is asked or must be read, or else the keys.
func (m Model) drawFooter(area draw.Area) {
	if m.told() == "" {
		m.drawKeys(area)
		return
	}
	role := theme.Caution
	if m.asking != nil && m.asking.problem == "" {
		role = theme.Answer
	}
	lines := m.toldLines()
	for i, line := range lines {
		area.Put(0, i, role, line)
	}
	if m.keysBelow() == 1 {
		m.drawKeys(area.Area(0, len(lines), area.Width(), 1))
	}
}

// longestUndo leaves room for other keys beside the words of an undo.
const longestUndo = 34

// drawKeys names the keys that matter most now, at most five; the rest is behind the question mark.
func (m Model) drawKeys(area draw.Area) {
	type named struct{ key, words string }
	var shown []named
	if m.keys.Next.Enabled() {
		shown = append(shown, named{m.keys.Next.Help().Key, m.likely().words})
	}
	if m.keys.Undo.Enabled() {
		shown = append(shown, named{m.keys.Undo.Help().Key, draw.Shorten(m.config.Charset, m.log.UndoWords(m.config.Kit.Site.Zone), longestUndo)})
	}
	for _, own := range []struct {
		b     *key.Binding
		words string
	}{{&m.keys.Axes, "axes of a star"}, {&m.keys.Level, "level"}, {&m.keys.Focused, "focused"}, {&m.keys.PageOn, "page"}, {&m.keys.Temperature, "temperature"}, {&m.keys.Humidity, "humidity"}, {&m.keys.KeepFraming, "keep it"}, {&m.keys.Framing, "in numbers"}, {&m.keys.TurnOn, "turn"}, {&m.keys.Skip, "leave out"}, {&m.keys.Open, "open"}} {
		if own.b.Enabled() {
			shown = append(shown, named{own.b.Help().Key, own.words})
		}
	}
	shown = append(shown, named{m.keys.Screen.Help().Key, "next screen"})
	if m.keys.Digits.Enabled() {
		shown = append(shown, named{m.keys.Digits.Help().Key, "digits only"})
	}
	if m.keys.Steps.Enabled() {
		shown = append(shown, named{m.keys.Steps.Help().Key, "steps"})
	}
	shown = append(shown, named{m.keys.Help.Help().Key, "keys"})
	if m.keys.NewKit.Enabled() {
		shown = append(shown, named{m.keys.NewKit.Help().Key, "a kit of your own"})
	}
	x := 0
	for _, k := range shown {
		words := k.words
		if x > 0 && x+3+draw.Width(k.key)+1+draw.Width(words) > area.Width() {
			continue
		}
		if x > 0 {
			x += 3
		}
		x = area.Put(x, 0, theme.Key, k.key) + 1
		x = area.Put(x, 0, theme.Faint, words)
	}
}
