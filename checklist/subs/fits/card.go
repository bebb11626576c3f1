package fits

import (
	"strconv"
	"strings"
	"unicode"

	"duskhand/sky/foreign"
)

const (
	cardSize  = 80   // bytes; FITS Standard 4.0, section 3.3.1
	blockSize = 2880 // bytes; section 3.1
)

// value is what stands behind a keyword, without its comment. Quoted text is told from the rest, so that
// FILTER = '3' is a name and BITPIX = '16' is no number.
type value struct {
	text   string
	quoted bool
}

// cards are the values of a header by keyword, and the keyword's first where a writer broke the rule that
// it stands once.
type cards map[string]value

// add takes in one card of 80 bytes. last is the keyword that a CONTINUE card would go on with; add returns
// the next one. COMMENT, HISTORY, HIERARCH and cards without a value indicator are passed over.
func (c cards) add(card []byte, last string) (next string) {
	keyword := strings.TrimRight(string(card[:8]), " ")
	if keyword == "CONTINUE" {
		return c.goOn(string(card[8:]), last)
	}
	if keyword == "" || card[8] != '=' || card[9] != ' ' {
		return ""
	}
	if _, twice := c[keyword]; twice {
		return ""
	}
	c[keyword] = parseValue(string(card[10:]))
	return keyword
}

// goOn appends a CONTINUE card to a text that ends with an ampersand (section 4.2.1.2).
func (c cards) goOn(rest, last string) string {
	before, ok := c[last]
	more := parseValue(rest)
	if !ok || !before.quoted || !more.quoted || !strings.HasSuffix(before.text, "&") {
		return ""
	}
	c[last] = value{text: strings.TrimSuffix(before.text, "&") + more.text, quoted: true}
	return last
}

// parseValue reads columns 11 to 80: a text in quotes, where two quotes stand for one, or anything up to
// the slash of the comment (section 4.2).
func parseValue(field string) value {
	field = strings.TrimLeft(field, " ")
	if !strings.HasPrefix(field, "'") {
		bare, _, _ := strings.Cut(field, "/")
		return value{text: strings.TrimSpace(bare)}
	}
	var text strings.Builder
	for rest := field[1:]; ; {
		before, after, closed := strings.Cut(rest, "'")
		text.WriteString(before)
		if !closed || !strings.HasPrefix(after, "'") {
			return value{text: strings.TrimRight(text.String(), " "), quoted: true}
		}
		text.WriteByte('\'')
		rest = after[1:]
	}
}

// words returns a text for people: what a terminal would obey, or could not show, is taken out.
func (c cards) words(keyword string) string {
	return strings.TrimSpace(strings.ReplaceAll(foreign.Line(c[keyword].text), string(unicode.ReplacementChar), ""))
}

// whole returns a whole number; ok is false when the keyword is absent or not a whole number.
func (c cards) whole(keyword string) (n int64, ok bool) {
	v := c[keyword]
	n, err := strconv.ParseInt(strings.TrimPrefix(v.text, "+"), 10, 64)
	if err != nil || v.quoted {
		return 0, false
	}
	return n, true
}

// number returns a number, also one with Fortran's D for the exponent (section 4.2.4). Some writers put
// numbers in quotes, and what they mean is plain.
func (c cards) number(keyword string) (x float64, ok bool) {
	text := strings.Map(func(r rune) rune {
		if r == 'D' || r == 'd' {
			return 'E'
		}
		return r
	}, c[keyword].text)
	x, err := strconv.ParseFloat(text, 64)
	return x, err == nil && x-x == 0 // neither infinite nor not a number
}

// says tells whether a logical keyword is T.
func (c cards) says(keyword string) bool {
	v := c[keyword]
	return v.text == "T" && !v.quoted
}
