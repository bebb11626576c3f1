package form

// layout is where the parts of the form stand, in rows and columns. Rows of 0: the part is dropped.
type layout struct {
	title                int
	list, listRows       int
	listWidth            int
	aside                int // columns of the facts beside the list
	summary, summaryRows int // the facts below it instead
	told, toldRows       int
	keys                 int
}

// Widths at which the facts stand beside the fields, and what they take there.
const (
	wideEnough = 76
	asideWidth = 28
)

// layoutFor gives the parts their room. As the window shrinks the facts below go first, then blank rows, then
// what is said about the field, then the title and the keys; the field that is typed into goes last.
func layoutFor(width, height, fields int) layout {
	l := layout{listWidth: width}
	if width >= wideEnough {
		l.aside, l.listWidth = asideWidth, width-asideWidth-2
	}
	from := func(least, rows int) int { // rows if the window is at least so high
		if height < least {
			return 0
		}
		return rows
	}
	l.keys, l.title = from(3, 1), from(4, 1)
	if l.aside == 0 {
		l.summaryRows = from(18, 3)
	}
	belowTitle, belowList := from(16, 1), from(14, 1)
	told := from(5, 1) + from(8, 1) + from(12, 1) + from(18, 1) + from(20, 1)
	l.list = l.title + belowTitle
	l.listRows = max(1, min(fields, height-l.list-belowList-l.summaryRows-told-l.keys))
	l.summary = l.list + l.listRows + belowList
	l.told = l.summary + l.summaryRows
	l.toldRows = max(0, height-l.keys-l.told)
	return l
}

// columns are the widths of a field's parts.
type columns struct{ group, label, value, note int }

// columnsFor drops the note first, then the group.
func columnsFor(width int) columns {
	c := columns{group: 10, label: 14, note: 9}
	if width < 48 {
		c.note = 0
	}
	if width < 40 {
		c.group = 0
	}
	if width < 30 {
		c.label = max(4, width/3)
	}
	if width >= 60 {
		c.note = 18
	}
	c.value = max(1, width-c.group-c.label-c.note-3)
	return c
}
