package ui

import (
	"strings"

	"github.com/charmbracelet/x/ansi"

	"duskhand/ui/draw"
	"duskhand/ui/keys"
	"duskhand/ui/layout"
	"duskhand/ui/screens"
)

// told is what the footer must show before anything else, whole: what a prompt finds wrong, or a notice and what
// calls. Empty if there is nothing.
func (m Model) told() string {
	if m.asking != nil {
		return m.asking.Problem()
	}
	var lines []string
	for _, line := range []string{m.night.Notice, m.night.Status.Called(), m.night.Unwritten} {
		if line != "" {
			lines = append(lines, line)
		}
	}
	return strings.Join(lines, "\n")
}

// footer is the bottom of the screen. The keys stay below a notice while there is room, and nothing is asked.
func (m Model) footer() screens.Footer {
	const roomy = 18
	f := screens.Footer{Keys: m.namedKeys(), Calls: m.asking == nil && m.night.Status.Calls() && m.night.Status.Screen != keys.RunScreen,
		Below: m.asking == nil && m.night.Status.Height >= roomy}
	width := max(1, m.night.Status.Width-2*layout.Margin(m.night.Status.Width))
	if told := m.told(); told != "" {
		f.Told = strings.Split(ansi.Wrap(told, width, ""), "\n")
	}
	if m.asking != nil {
		f.Asked = strings.Split(ansi.Wrap(m.asking.Line(), width, ""), "\n")
	}
	return f
}

// undoWidth is what the words of an undo may take of a window beside what the first key takes: help and leave stay.
func undoWidth(window, first int) int { return min(34, max(6, window-24-first)) }

// namedKeys are the keys that the footer names now, from the left.
func (m Model) namedKeys() (shown []screens.FooterKey) {
	first := 0
	for _, k := range m.night.Status.Keys.Footer() {
		words := k.Short
		switch k.Action {
		case keys.Next:
			words = m.likely().Words
			first = draw.Width(k.Shown) + draw.Width(words) + 4
		case keys.Undo:
			words = draw.Shorten(m.config.Charset, m.night.Status.Log.UndoWords(m.night.Status.Zone()),
				undoWidth(m.night.Status.Width, first))
		}
		shown = append(shown, screens.FooterKey{Bound: k, Label: words})
	}
	return shown
}
