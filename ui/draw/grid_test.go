package draw_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

func TestPutCountsCellsNotBytes(t *testing.T) {
	cases := []struct {
		name, text string
		want       string // the eight columns of the row
		end        int    // the column after the text, by the Unicode widths (UAX #11, UAX #29)
	}{
		{"plain words", "run 1", "run 1   ", 5},
		{"a minus and a degree take one cell each", "−4°", "−4°     ", 3},
		{"a wide character takes two", "月a", "月a     ", 3},
		{"a combining mark stays with its base", "e\u0301a", "e\u0301a      ", 2},
		{"what is too long is cut, the column isn't", "0123456789", "01234567", 10},
		{"a wide character is never cut in half", "0123456月", "0123456 ", 9},
		{"a line break is dropped", "a\nb", "ab      ", 2},
		{"an escape loses its power", "a\x1b[31mb", "a[31mb  ", 6},
		{"a one-byte control sequence too", "a\u009b1mb", "a1mb    ", 4},
		{"a tab is one blank", "a\tb", "a b     ", 3},
		{"an override of direction is dropped", "a\u202eb", "ab      ", 2},
		{"bad UTF-8 is shown as such", "a\xffb", "a\ufffdb     ", 3},
		{"nothing", "", "        ", 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			g := draw.NewGrid(8, 1)
			end := g.Put(0, 0, theme.Text, c.text)
			assert.Equal(t, c.want+"|\n", textOf(g))
			assert.Equal(t, c.end, end)
			assert.Equal(t, c.end, draw.Width(c.text))
		})
	}
}

func TestPutBesideTheEdges(t *testing.T) {
	g := draw.NewGrid(6, 3)
	g.Put(-2, 0, theme.Text, "abcd")
	g.PutRight(6, 1, theme.Text, "xyz")
	g.PutCentre(2, theme.Text, "mid")
	g.Put(0, -1, theme.Text, "above")
	g.Put(0, 3, theme.Text, "below")
	require.Equal(t, "cd    |\n   xyz|\n mid  |\n", textOf(g))
}

func TestAMarkAloneJoinsWhatStandsBeforeIt(t *testing.T) {
	g := draw.NewGrid(4, 1)
	x := g.Put(0, 0, theme.Text, "e")
	g.Put(x, 0, theme.Text, "\u0301a")
	require.Equal(t, "e\u0301a  |\n", textOf(g))
}

func TestOverwritingHalfAWideCharacterBlanksTheOther(t *testing.T) {
	for _, c := range []struct {
		x    int
		want string
	}{{0, "a 月|\n"}, {1, " a月|\n"}, {2, "月a |\n"}, {3, "月 a|\n"}} {
		g := draw.NewGrid(4, 1)
		g.Put(0, 0, theme.Text, "月月")
		g.Put(c.x, 0, theme.Text, "a")
		assert.Equal(t, c.want, textOf(g), "column %d", c.x)
	}
}

func TestAreasAreCutToTheirParent(t *testing.T) {
	g := draw.NewGrid(10, 5)
	a := g.Area(-3, -1, 8, 3)
	assert.Equal(t, [2]int{5, 2}, [2]int{a.Width(), a.Height()})
	inner := a.Area(4, 1, 100, 100)
	assert.Equal(t, [2]int{1, 1}, [2]int{inner.Width(), inner.Height()})
	outside := a.Area(20, 20, 3, 3)
	assert.Equal(t, [2]int{0, 0}, [2]int{outside.Width(), outside.Height()})
	outside.Put(0, 0, theme.Text, "nothing")
	draw.Area{}.Put(0, 0, theme.Text, "nothing")
	require.Equal(t, strings.Repeat("          |\n", 5), textOf(g))
}

func TestPutNeverWritesOutsideItsArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width, height := rapid.IntRange(0, 12).Draw(t, "width"), rapid.IntRange(0, 6).Draw(t, "height")
		g := draw.NewGrid(width, height)
		x, y := rapid.IntRange(-5, 15).Draw(t, "x"), rapid.IntRange(-3, 8).Draw(t, "y")
		w, h := rapid.IntRange(-2, 15).Draw(t, "w"), rapid.IntRange(-2, 8).Draw(t, "h")
		a := g.Area(x, y, w, h)
		for range rapid.IntRange(1, 6).Draw(t, "texts") {
			a.Put(rapid.IntRange(-9, 15).Draw(t, "column"), rapid.IntRange(-2, 8).Draw(t, "row"),
				theme.Text, rapid.String().Draw(t, "text"))
		}
		for cy := range height {
			for cx := range width {
				inside := cx >= x && cy >= y && cx < x+w && cy < y+h
				if first, marks, _ := g.Cell(cx, cy); !inside && (first != 0 || marks != "") {
					t.Fatalf("%q stands at column %d, row %d, outside the area", first, cx, cy)
				}
			}
		}
		for _, line := range strings.Split(strings.TrimSuffix(textOf(g), "\n"), "\n") {
			if got := draw.Width(line); height > 0 && got != width+1 {
				t.Fatalf("line %q is %d cells wide, want %d", line, got, width+1)
			}
		}
	})
}

func TestAClearedGridIsBlank(t *testing.T) {
	g := draw.NewGrid(4, 1)
	g.Put(0, 0, theme.Answer, "月e\u0301")
	g.Clear()
	require.Equal(t, "    |\n", textOf(g))
	require.Equal(t, "....|\n", rolesOf(g))
	first, marks, role := g.Cell(9, 9)
	require.Equal(t, []any{rune(0), "", theme.Ground}, []any{first, marks, role}, "outside")
}
