package screens

import (
	"duskhand/ui/draw"
	"duskhand/ui/keys"
	"duskhand/ui/theme"
)

// Footer is the bottom of every screen: what is asked or must be read, or else the keys that matter most now.
type Footer struct {
	Told  []string // lines that must be seen before anything else, whole
	Asked []string // the lines of a question, below them
	Keys  []FooterKey
	Calls bool // what is told is a call
	Below bool // the keys stand below what is told
}

// FooterKey is a key with its words for the footer.
type FooterKey struct {
	keys.Bound
	Label string
}

// PlacedKey is one that stands in the footer, from a column on to before another.
type PlacedKey struct {
	FooterKey
	From, To int
}

// Rows is how many rows the footer wants: one for the keys, more for what must be read whole.
func (f Footer) Rows() int {
	rows := len(f.Told) + len(f.Asked)
	if rows == 0 || f.Below {
		rows++
	}
	return rows
}

// urges tells that something is asked or told that must be seen.
func (f Footer) urges() bool { return len(f.Told)+len(f.Asked) > 0 }

// Rank is the footer's own rank, or the next after answer and label when it asks or tells something that must be seen.
func (f Footer) Rank(usual int) int {
	if f.urges() {
		return 2
	}
	return usual
}

// ToDoRank is the rank of the line that says what to do; it gives way to the label while the footer is
// urgent, so that the screen still says what it is.
func (f Footer) ToDoRank() int {
	if f.urges() {
		return 3
	}
	return 2
}

// Draw shows what is told and asked, or else the keys. Where not all of it fits, what is asked stays.
func (f Footer) Draw(area draw.Area) {
	role := theme.Caution
	switch {
	case f.Calls:
		role = theme.Call
	case len(f.Asked) > 0: // the question below it is what one needs
		role = theme.Text
	}
	from := max(0, len(f.Asked)+len(f.Told)-area.Height())
	for i, line := range f.Told[min(from, len(f.Told)):] {
		area.Put(0, i, role, line)
	}
	told := max(0, len(f.Told)-from)
	for i, line := range f.Asked {
		area.Put(0, told+i, theme.Need, line)
	}
	if !f.urges() || f.Below {
		f.drawKeys(area.Area(0, len(f.Told), area.Width(), 1))
	}
}

// drawKeys names the keys that matter most now; the rest is behind the question mark.
func (f Footer) drawKeys(area draw.Area) {
	for _, k := range f.Placed(area.Width()) {
		x := area.Put(k.From, 0, theme.Key, k.Shown)
		area.Put(x+1, 0, theme.Faint, k.Label)
	}
}

// Placed are the keys that fit a width: the first always, the pinned ones at the end, and between them as many as
// there is room for. Where the first leaves too little the pinned ones are named by their key alone.
func (f Footer) Placed(width int) (placed []PlacedKey) {
	var usual, pinned []FooterKey
	for _, k := range f.Keys {
		if k.Pinned {
			pinned = append(pinned, k)
		} else {
			usual = append(usual, k)
		}
	}
	if len(usual) > 0 && rowOf(append(usual[:1:1], pinned...)) > width {
		for i := range pinned {
			pinned[i].Label = ""
		}
	}
	chosen := usual[:min(1, len(usual)):min(1, len(usual))]
	for _, k := range usual[len(chosen):] {
		if rowOf(append(append(chosen[:len(chosen):len(chosen)], k), pinned...)) <= width {
			chosen = append(chosen, k)
		}
	}
	x := 0
	for _, k := range append(chosen, pinned...) {
		placed = append(placed, PlacedKey{k, x, x + k.width()})
		x += k.width() + keyGap
	}
	return placed
}

// keyGap are the blanks between two keys.
const keyGap = 3

func (k FooterKey) width() int {
	if k.Label == "" {
		return draw.Width(k.Shown)
	}
	return draw.Width(k.Shown) + 1 + draw.Width(k.Label)
}

// rowOf is how wide keys are beside each other.
func rowOf(row []FooterKey) (width int) {
	for _, k := range row {
		width += k.width() + keyGap
	}
	return width - keyGap
}
