package record

import "strings"

// document is a report before it is laid out, as text or as Markdown.
type document []block

// block is a heading, a paragraph or list of lines, or a table: whichever is set.
type block struct {
	heading string
	level   int
	lines   []string
	head    []string // of a table
	rows    [][]string
}

func (d *document) heading(level int, text string) {
	*d = append(*d, block{heading: text, level: level})
}

func (d *document) lines(lines ...string) {
	if len(lines) > 0 {
		*d = append(*d, block{lines: lines})
	}
}

func (d *document) table(head []string, rows [][]string) {
	if len(rows) > 0 {
		*d = append(*d, block{head: head, rows: rows})
	}
}

// text lays the document out for a terminal or a plain file, columns aligned.
func (d document) text() string {
	var out strings.Builder
	for i, b := range d {
		if i > 0 {
			out.WriteByte('\n')
		}
		switch {
		case b.heading != "":
			out.WriteString(b.heading + "\n" + underline(b))
		case b.head != nil:
			writeColumns(&out, append([][]string{b.head}, b.rows...))
		default:
			out.WriteString("  " + strings.Join(b.lines, "\n  ") + "\n")
		}
	}
	return out.String()
}

// underline sets the heading of a night and of a target apart; those below need none.
func underline(b block) string {
	if b.level > 2 {
		return ""
	}
	return strings.Repeat(map[int]string{1: "=", 2: "-"}[b.level], len([]rune(b.heading))) + "\n"
}

// writeColumns writes cells in columns two blanks apart. All characters that occur are one cell wide.
func writeColumns(out *strings.Builder, rows [][]string) {
	widths := make([]int, len(rows[0]))
	for _, row := range rows {
		for i, cell := range row {
			widths[i] = max(widths[i], len([]rune(cell)))
		}
	}
	for _, row := range rows {
		var line strings.Builder
		for i, cell := range row {
			line.WriteString("  " + cell + strings.Repeat(" ", widths[i]-len([]rune(cell))))
		}
		out.WriteString(strings.TrimRight(line.String(), " ") + "\n")
	}
}

// markdown lays the document out as Markdown.
func (d document) markdown() string {
	var out strings.Builder
	for i, b := range d {
		if i > 0 {
			out.WriteByte('\n')
		}
		switch {
		case b.heading != "":
			out.WriteString(strings.Repeat("#", b.level) + " " + escaped(b.heading) + "\n")
		case b.head != nil:
			out.WriteString(row(b.head) + row(strings.Split(strings.Repeat("--- ", len(b.head)-1)+"---", " ")))
			for _, cells := range b.rows {
				out.WriteString(row(cells))
			}
		default:
			for _, line := range b.lines {
				out.WriteString("- " + escaped(line) + "\n")
			}
		}
	}
	return out.String()
}

func row(cells []string) string {
	var safe []string
	for _, cell := range cells {
		safe = append(safe, escaped(cell))
	}
	return "| " + strings.Join(safe, " | ") + " |\n"
}

// escaped takes the meaning from the characters that would have one in a line of Markdown.
func escaped(text string) string {
	return strings.NewReplacer(`\`, `\\`, "|", `\|`, "*", `\*`, "_", `\_`, "`", "\\`", "<", "&lt;", "\n", " ", "\r", " ").Replace(text)
}
