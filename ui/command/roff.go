package command

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// roff writes a manual page in the macros of man(7), which groff and mandoc both read.
type roff struct{ out strings.Builder }

// macro writes a request with its arguments, quoted.
func (r *roff) macro(name string, arguments ...string) {
	r.out.WriteString("." + name)
	for _, a := range arguments {
		r.out.WriteString(` "` + strings.ReplaceAll(roffText(a), `"`, `\(dq`) + `"`)
	}
	r.out.WriteByte('\n')
}

// tagged writes a paragraph with a tag at its left, bold.
func (r *roff) tagged(tag, text string) {
	r.macro("TP")
	r.line(`\fB` + roffText(tag) + `\fR`)
	r.line(roffLine(text))
}

// line writes a line that is roff already.
func (r *roff) line(text string) { r.out.WriteString(text + "\n") }

// prose writes a help text: paragraphs are filled, indented lines stand as they are.
func (r *roff) prose(text string) {
	asIs, fresh := false, true
	for _, line := range strings.Split(strings.Trim(text, "\n"), "\n") {
		line = strings.ReplaceAll(line, "\t", "  ")
		indented := strings.HasPrefix(line, "  ")
		switch {
		case strings.TrimSpace(line) == "":
			fresh = true
			continue
		case indented && !asIs:
			r.macro("PP")
			r.macro("RS", "4")
			r.macro("nf")
		case !indented && asIs:
			r.macro("fi")
			r.macro("RE")
			r.macro("PP")
		case fresh && asIs:
			r.line("")
		case fresh:
			r.macro("PP")
		}
		asIs, fresh = indented, false
		if indented {
			line = line[2:]
		}
		r.line(roffLine(line))
	}
	if asIs {
		r.macro("fi")
		r.macro("RE")
	}
}

// roffLine escapes text that begins a line, where a point or an apostrophe would be a request.
func roffLine(text string) string {
	escaped := roffText(text)
	if strings.HasPrefix(escaped, ".") || strings.HasPrefix(escaped, `\(aq`) {
		return `\&` + escaped
	}
	return escaped
}

// roffText escapes what roff reads as its own, and what it would print as another character than was written: a
// minus as a hyphen, straight quotes and accents as typographic ones. Source: groff_char(7), groff_man_style(7).
func roffText(text string) string {
	var out strings.Builder
	for _, r := range text {
		switch {
		case r == '\\':
			out.WriteString(`\(rs`)
		case r == '-':
			out.WriteString(`\-`)
		case r == '\'':
			out.WriteString(`\(aq`)
		case r == '`':
			out.WriteString(`\(ga`)
		case r == '^':
			out.WriteString(`\(ha`)
		case r == '~':
			out.WriteString(`\(ti`)
		case r >= utf8.RuneSelf:
			fmt.Fprintf(&out, `\[u%04X]`, r)
		default:
			out.WriteRune(r)
		}
	}
	return out.String()
}
