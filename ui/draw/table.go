package draw

import (
	"fmt"

	"duskhand/ui/theme"
)

// Align is the side of its column on which a cell's text stands.
type Align uint8

// The two sides.
const (
	AlignLeft  Align = iota
	AlignRight       // for numbers
)

// TableColumn is one column.
type TableColumn struct {
	Title string
	Width int // in cells; 0 for what the others leave, shared evenly
	Align Align
}

// TableValues says what a table shows.
type TableValues struct {
	Columns []TableColumn
	Rows    [][]string // a row may be short
	Chosen  int        // the selected row; −1 for none
	First   int        // the first row shown; TableFirst keeps it right
}

// columnGap is the number of blank cells between two columns.
const columnGap = 2

// TableFirst returns which row to show first so that the chosen one is in sight, moving as little as
// possible from the one that was first. The height is that of the area, headings included.
func TableFirst(first, chosen, rows, height int) int {
	shown := max(height-1, 1)
	first = min(first, chosen)
	first = max(first, chosen-shown+1)
	return max(min(first, rows-shown), 0)
}

// Table draws headings and as many rows from First on as fit. The chosen row has a › before it and its
// role over the whole width. If rows are out of sight, the heading of the widest column says which are
// shown, as in 3–12 of 40. Text too wide for its column ends in ….
func Table(area Area, charset Charset, v TableValues) {
	const marker = 2
	body := area.Area(marker, 0, area.Width()-marker, area.Height())
	widths := columnWidths(body.Width(), v.Columns)
	titles := make([]string, len(v.Columns))
	for i, c := range v.Columns {
		titles[i] = c.Title
	}
	drawRow(body, charset, 0, theme.Faint, titles, widths, v.Columns)
	v.First = min(max(v.First, 0), len(v.Rows))
	shown := min(max(area.Height()-1, 0), len(v.Rows)-v.First)
	for y := 1; y <= shown; y++ {
		i := v.First + y - 1
		role := theme.Text
		if i == v.Chosen {
			role = theme.Chosen
			for x := range area.Width() {
				area.PutRune(x, y, role, ' ')
			}
			area.PutRune(0, y, role, charset.pick('›', '>'))
		}
		drawRow(body, charset, y, role, v.Rows[i], widths, v.Columns)
	}
	if shown < len(v.Rows) && shown > 0 {
		drawExtent(body, charset, v, widths, shown)
	}
}

// drawExtent says which rows are shown, behind the title of the widest column, if there is room.
func drawExtent(body Area, charset Charset, v TableValues, widths []int, shown int) {
	x, widest, start := 0, 0, 0
	for i, w := range widths {
		if w > widths[widest] {
			widest, start = i, x
		}
		x += w + columnGap
	}
	if len(widths) == 0 {
		return
	}
	dash := string(charset.pick('–', '-'))
	text := fmt.Sprintf("%d%s%d of %d", v.First+1, dash, v.First+shown, len(v.Rows))
	slot := body.Area(start, 0, widths[widest], 1)
	if v.Columns[widest].Align == AlignRight {
		if room := widths[widest] - Width(v.Columns[widest].Title) - columnGap; Width(text) <= room {
			slot.PutRight(room, 0, theme.Faint, text)
		}
		return
	}
	if at := Width(v.Columns[widest].Title) + columnGap; at+Width(text) <= widths[widest] {
		slot.Put(at, 0, theme.Faint, text)
	}
}

// columnWidths gives the columns without a width of their own what the others leave of total.
func columnWidths(total int, columns []TableColumn) []int {
	widths := make([]int, len(columns))
	open := 0
	for i, c := range columns {
		widths[i] = c.Width
		total -= c.Width
		if i > 0 {
			total -= columnGap
		}
		if c.Width == 0 {
			open++
		}
	}
	for i := range columns {
		if widths[i] == 0 {
			widths[i] = max(total/open, 0)
			total -= widths[i]
			open--
		}
	}
	return widths
}

func drawRow(body Area, charset Charset, y int, role theme.Role, row []string, widths []int, columns []TableColumn) {
	x := 0
	for i, text := range row[:min(len(row), len(columns))] {
		slot := body.Area(x, y, widths[i], 1)
		text = Shorten(charset, text, slot.Width())
		if columns[i].Align == AlignRight {
			slot.PutRight(slot.Width(), 0, role, text)
		} else {
			slot.Put(0, 0, role, text)
		}
		x += widths[i] + columnGap
	}
}

// Shorten returns text, cut and ended by … (~ in ASCII) if it is wider than width cells.
func Shorten(charset Charset, text string, width int) string {
	if Width(text) <= width {
		return text
	}
	kept, rest, used := 0, text, 0
	for len(rest) > 0 {
		cluster, after, w := nextCluster(rest)
		if used+w > width-1 {
			break
		}
		kept, used, rest = kept+len(cluster), used+w, after
	}
	if width < 1 {
		return ""
	}
	return text[:kept] + string(charset.pick('…', '~'))
}
