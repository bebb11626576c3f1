package command

import (
	"io"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// asciiWriter writes text for a terminal that takes nothing but ASCII. Every Write must hold whole
// characters.
type asciiWriter struct{ to io.Writer }

// Write writes text with look-alikes for what is not ASCII.
func (w asciiWriter) Write(text []byte) (int, error) {
	if _, err := io.WriteString(w.to, toASCII(string(text))); err != nil {
		return 0, err
	}
	return len(text), nil
}

// toASCII returns text with a look-alike of the same width for each character that is not ASCII, so that
// columns stay straight: minus for −, d for °, the bare letter for an accented one, ? for the unknown.
func toASCII(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r < utf8.RuneSelf:
			return r
		case unicode.Is(unicode.Mn, r):
			return -1
		}
		if like, known := lookAlikes()[r]; known {
			return like
		}
		if bare, _ := utf8.DecodeRuneInString(norm.NFD.String(string(r))); bare < utf8.RuneSelf {
			return bare
		}
		return '?'
	}, text)
}

func lookAlikes() map[rune]rune {
	return map[rune]rune{'−': '-', '–': '-', '—': '-', '→': '>', '°': 'd', '±': '~', '×': 'x', '″': '"', '′': '\'', 'µ': 'u', '·': '.', '…': '.', '’': '\''}
}
