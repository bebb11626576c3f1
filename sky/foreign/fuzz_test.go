package foreign_test

import (
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"

	"duskhand/sky/foreign"
)

// FuzzForeign holds that nothing that comes out drives a terminal, and that names which differ look different.
func FuzzForeign(f *testing.F) {
	for _, text := range []string{"M 42", "a\x1b]0;x\x07", "a\u202ecod.fits", "a\u009b31m", "=1+1", "a\xffb", "\\x1b", "\t\n"} {
		f.Add(text, "M 42")
	}
	f.Fuzz(func(t *testing.T, one, other string) {
		for _, text := range []string{one, other} {
			for _, out := range []string{foreign.Line(text), foreign.Name(text), foreign.Cell(text)} {
				for _, r := range out {
					require.True(t, unicode.IsPrint(r), "%q became %q", text, out)
				}
			}
		}
		// A backslash that is typed looks like one of ours: of such names nothing is promised.
		if one != other && !strings.Contains(one+other, `\`) {
			require.NotEqual(t, foreign.Name(one), foreign.Name(other))
		}
	})
}
