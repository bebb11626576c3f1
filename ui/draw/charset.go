package draw

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"duskhand/ui/theme"
)

// Charset is the choice of characters that drawings are made of.
type Charset uint8

// The two charsets.
const (
	Unicode Charset = iota // blocks, box lines, braille
	ASCII                  // for terminals and fonts that lack those
)

// pick returns the rune of the charset.
func (cs Charset) pick(unicode, ascii rune) rune {
	if cs == ASCII {
		return ascii
	}
	return unicode
}

// ToASCII replaces every character that is not ASCII by a look-alike of the same width, so that a
// screen need not know which charset its words will be shown in: minus by -, degree by d, an accented
// letter by the bare one, anything unknown by a question mark. Drawings made with ASCII stay as they
// are.
func (g *Grid) ToASCII() {
	for i := range g.cells {
		c := &g.cells[i]
		switch {
		case c.first == theme.Continued:
			c.first = ' '
		case c.first >= utf8.RuneSelf:
			c.first = asciiFor(c.first)
		}
		c.marks = ""
	}
}

// asciiFor returns the look-alike of r.
func asciiFor(r rune) rune {
	switch r {
	case '−', '–', '—', '‐', '‑', '─', '━', '╌', '╶', '╴':
		return '-'
	case '│', '┃', '╷', '╵':
		return '|'
	case '├', '┤', '┬', '┴', '┼', '┌', '┐', '└', '┘':
		return '+'
	case '°':
		return 'd'
	case '′', '’', '‘':
		return '\''
	case '″', '“', '”':
		return '"'
	case '·', '•', '∙', '…':
		return '.'
	case '×':
		return 'x'
	case '▲', '↑':
		return '^'
	case '▼', '↓':
		return 'v'
	case '▸', '▶', '→', '›':
		return '>'
	case '◂', '◀', '←', '‹':
		return '<'
	case '●', '○', '◇':
		return 'o'
	case '✓':
		return 'y'
	case '≈', '±':
		return '~'
	case '\u00a0', '\u2007', '\u2009', '\u202f':
		return ' '
	case '█', '▀', '▄':
		return '#'
	case 'µ':
		return 'u'
	}
	if latin, ok := betaCode(r); ok {
		return latin
	}
	if bare, _ := utf8.DecodeRuneInString(norm.NFKD.String(string(r))); bare < utf8.RuneSelf {
		return bare
	}
	return '?'
}

// betaCode returns the letter for a small Greek one, as in the designations of stars: Beta Code, the
// transliteration of the Thesaurus Linguae Graecae, in small letters.
func betaCode(r rune) (rune, bool) {
	const greek, latin = "αβγδεζηθικλμνξοπρσςτυφχψω", "abgdezhqiklmncoprsstufxyw"
	if i := strings.IndexRune(greek, r); i >= 0 {
		return rune(latin[i/2]), true // each Greek letter takes two bytes
	}
	return 0, false
}

// ASCIIText returns text as ToASCII would show it: a look-alike of the same width for each character that
// is not ASCII, combining marks left out.
func ASCIIText(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r < utf8.RuneSelf:
			return r
		case unicode.Is(unicode.Mn, r):
			return -1
		}
		return asciiFor(r)
	}, text)
}
