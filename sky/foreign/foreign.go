// Package foreign prints text that others wrote: names of files, headers of frames, notes, names in a kit. A
// terminal obeys some characters (escape sequences, the C1 controls), some turn the order of what is read around
// (bidirectional marks), and a table's program takes some cells for formulas. Whatever is not our own goes
// through here before anybody sees it.
package foreign

import (
	"io"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Line returns text as one line without what can't be printed: controls, format and bidirectional marks and
// broken UTF-8 are left out, white space of any kind is a blank.
func Line(text string) string {
	if plain(text) {
		return text
	}
	var b strings.Builder
	for _, r := range strings.ToValidUTF8(text, "") {
		switch {
		case unicode.IsSpace(r):
			b.WriteByte(' ')
		case unicode.IsPrint(r):
			b.WriteRune(r)
		}
	}
	return b.String()
}

// Name returns text as one line in which what can't be printed is written out, "\x1b" or "\u202e", so that two
// names that differ look different.
func Name(text string) string { return visible(text, "") }

// Text is Name for text of several lines: line ends and tabs stay.
func Text(text string) string { return visible(text, "\n\t") }

func visible(text, kept string) string {
	if plain(text) {
		return text
	}
	var b strings.Builder
	for rest := text; rest != ""; {
		r, size := utf8.DecodeRuneInString(rest)
		switch {
		case r == utf8.RuneError && size == 1:
			b.WriteString(`\x` + strconv.FormatUint(0x100|uint64(rest[0]), 16)[1:])
		case unicode.IsPrint(r) || strings.ContainsRune(kept, r):
			b.WriteRune(r)
		default:
			b.WriteString(strings.Trim(strconv.QuoteRune(r), "'"))
		}
		rest = rest[size:]
	}
	return b.String()
}

// plain tells whether nothing but printable ASCII stands in text, the usual case.
func plain(text string) bool {
	for i := range len(text) {
		if text[i] < ' ' || text[i] > '~' {
			return false
		}
	}
	return true
}

// Cell returns a name for a cell of CSV. Programs for tables take a cell that begins with one of = + - @ for a
// formula, quotes or not; an apostrophe in front makes it text (common practice).
func Cell(text string) string {
	text = Name(text)
	if text != "" && strings.ContainsRune("=+-@", rune(text[0])) {
		return "'" + text
	}
	return text
}

// Writer writes text through Text: the last gate before a terminal. Every Write must hold whole characters.
type Writer struct{ To io.Writer }

// Write writes text; what it returns counts the bytes that came in.
func (w Writer) Write(text []byte) (int, error) {
	if _, err := io.WriteString(w.To, Text(string(text))); err != nil {
		return 0, err
	}
	return len(text), nil
}
