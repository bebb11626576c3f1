package draw_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

const (
	digits   = "0123456789"
	alphabet = digits + "ABCDEFGHIJKLMNOPQRSTUVWXYZ" + "dhimns" + ":.−+±°/?!"
)

func bigTextOf(cs draw.Charset, scale int, text string) string {
	w, h := draw.BigTextSize(text, scale)
	g := draw.NewGrid(w, h)
	draw.BigTextScaled(g.Whole(), cs, theme.Answer, scale, text)
	return textOf(g)
}

func TestAllBigCharactersDiffer(t *testing.T) {
	for _, cs := range []draw.Charset{draw.Unicode, draw.ASCII} {
		for scale := 1; scale <= 4; scale++ {
			seen := map[string]rune{}
			for _, r := range alphabet + "\u2603" { // the snowman is not in the font: the box for such
				picture := bigTextOf(cs, scale, string(r))
				if other, ok := seen[picture]; ok {
					t.Errorf("%c and %c look the same at scale %d, %s", r, other, scale, charsetName(cs))
				}
				seen[picture] = r
			}
		}
	}
}

func TestBigDigitsAllTakeTheSameRoom(t *testing.T) {
	want, _ := draw.BigTextSize("0", 1)
	for _, r := range digits + "\u2007" {
		got, _ := draw.BigTextSize(string(r), 1)
		assert.Equal(t, want, got, "%c", r)
	}
}

func TestBigTextIsAsLargeAsFits(t *testing.T) {
	cases := []struct {
		text          string
		width, height int
		want          int // by 5 cells a digit, 1 for the colon, 2 between, 4½ rows, times the scale
	}{
		{"16:59", 29, 5, 1}, {"16:59", 28, 5, 0}, {"16:59", 29, 4, 0},
		{"16:59", 58, 9, 2}, {"16:59", 58, 8, 1}, {"16:59", 57, 9, 1},
		{"16:59", 87, 14, 3}, {"16:59", 1000, 1000, 6}, {"REWIND", 40, 10, 1}, {"16:59", 0, 0, 0},
	}
	for _, c := range cases {
		assert.Equal(t, c.want, draw.FitBigText(c.text, c.width, c.height), "%s in %d × %d", c.text, c.width, c.height)
	}
}

func TestBigTextWithoutRoomIsOrdinaryText(t *testing.T) {
	g := draw.NewGrid(10, 2)
	w, h := draw.BigText(g.Whole(), draw.Unicode, theme.Answer, "16:59")
	require.Equal(t, "16:59     |\n          |\n", textOf(g))
	require.Equal(t, [2]int{5, 1}, [2]int{w, h})
}

func TestSmallLettersWithoutAFormOfTheirOwnAreCapitals(t *testing.T) {
	require.Equal(t, bigTextOf(draw.Unicode, 1, "OFF"), bigTextOf(draw.Unicode, 1, "off"))
	require.NotEqual(t, bigTextOf(draw.Unicode, 1, "H"), bigTextOf(draw.Unicode, 1, "h"))
}
