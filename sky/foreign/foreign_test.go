package foreign_test

import (
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"duskhand/sky/foreign"
)

func TestForeignText(t *testing.T) {
	for _, c := range []struct{ name, text, line, shown, cell string }{
		{"plain", "M 42", "M 42", "M 42", "M 42"},
		{"other scripts and accents", "Hα 星 Boötes", "Hα 星 Boötes", "Hα 星 Boötes", "Hα 星 Boötes"},
		{"a colour", "a\x1b[31mb", "a[31mb", `a\x1b[31mb`, `a\x1b[31mb`},
		{"a title and a bell", "\x1b]0;x\x07", "]0;x", `\x1b]0;x\a`, `\x1b]0;x\a`},
		{"a control of eight bits", "a\u009b31m", "a31m", `a\u009b31m`, `a\u009b31m`},
		{"the other way round", "a\u202ecod.fits", "acod.fits", `a\u202ecod.fits`, `a\u202ecod.fits`},
		{"lines", "a\nb\tc", "a b c", `a\nb\tc`, `a\nb\tc`},
		{"broken UTF-8", "a\xffb", "ab", `a\xffb`, `a\xffb`},
		{"a formula", "=1+1", "=1+1", "=1+1", "'=1+1"},
		{"the other beginnings", "@x", "@x", "@x", "'@x"},
		{"a minus", "-x", "-x", "-x", "'-x"},
		{"a plus", "+x", "+x", "+x", "'+x"},
		{"a tab before a formula", "\t=1", " =1", `\t=1`, `\t=1`},
		{"nothing", "", "", "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.line, foreign.Line(c.text))
			assert.Equal(t, c.shown, foreign.Name(c.text))
			assert.Equal(t, c.cell, foreign.Cell(c.text))
		})
	}
	assert.Equal(t, "a\nb\t\\x1b", foreign.Text("a\nb\t\x1b"))
}

// Nothing that comes out drives a terminal, and different names stay different.
func TestNothingThatATerminalObeys(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := string(rapid.SliceOf(rapid.Byte()).Draw(t, "bytes"))
		if rapid.Bool().Draw(t, "runes") {
			text = rapid.String().Draw(t, "text")
		}
		for _, out := range []string{foreign.Line(text), foreign.Name(text), foreign.Cell(text)} {
			for _, r := range out {
				if r == unicode.ReplacementChar && !strings.ContainsRune(text, r) || !unicode.IsPrint(r) {
					t.Fatalf("%q became %q", text, out)
				}
			}
		}
	})
}
