package ui

import (
	"strings"

	"github.com/charmbracelet/x/ansi"

	"duskhand/ui/draw"
	"duskhand/ui/keys"
	"duskhand/ui/theme"
)

// told is what the footer must show before anything else, whole: what a prompt asks or finds wrong, or a
// notice and what calls. Empty if there is nothing.
func (m Model) told() string {
	if m.asking != nil && m.asking.problem != "" {
		return m.asking.problem
	}
	if m.asking != nil {
		return m.asking.line()
	}
	var lines []string
	for _, line := range []string{m.notice, m.called(), m.unwritten} {
		if line != "" {
			lines = append(lines, line)
		}
	}
	return strings.Join(lines, "\n")
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

// namedKey is a key with its words for the footer.
type namedKey struct {
	key   keys.Bound
	words string
}

// placedKey is one that stands in the footer, from a column on to before another.
type placedKey struct {
	namedKey
	from, to int
}

// drawKeys names the keys that matter most now; the rest is behind the question mark.
func (m Model) drawKeys(area draw.Area) {
	for _, k := range m.placedKeys(area.Width()) {
		x := area.Put(k.from, 0, theme.Key, k.key.Shown)
		area.Put(x+1, 0, theme.Faint, k.words)
	}
}

// placedKeys are the keys that fit a width, the first always.
func (m Model) placedKeys(width int) (placed []placedKey) {
	x := 0
	for _, k := range m.namedKeys() {
		from := x
		if x > 0 {
			from += 3
		}
		to := from + draw.Width(k.key.Shown) + 1 + draw.Width(k.words)
		if x > 0 && to > width {
			continue
		}
		placed = append(placed, placedKey{k, from, to})
		x = to
	}
	return placed
}

// namedKeys are the keys that the footer names now, from the left.
func (m Model) namedKeys() (shown []namedKey) {
	for _, k := range m.keys.Footer() {
		words := k.Short
		switch k.Action {
		case keys.Next:
			words = m.likely().words
		case keys.Undo:
			words = draw.Shorten(m.config.Charset, m.log.UndoWords(m.config.Kit.Site.Zone), longestUndo)
		}
		shown = append(shown, namedKey{k, words})
	}
	return shown
}
