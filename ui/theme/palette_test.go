package theme_test

import (
	"testing"

	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/ui/theme"
)

func TestEveryPaletteIsFoundByItsName(t *testing.T) {
	for _, p := range theme.Palettes() {
		got, err := theme.ParsePalette(p.String())
		require.NoError(t, err)
		assert.Equal(t, p, got)
	}
	got, err := theme.ParsePalette(" Day ")
	require.NoError(t, err)
	assert.Equal(t, theme.Day, got)
}

func TestAWrongPaletteNameIsToldTheRightOnes(t *testing.T) {
	for _, name := range []string{"nigth", "", "dark"} {
		_, err := theme.ParsePalette(name)
		require.ErrorContains(t, err, `"`+name+`"`)
		for _, p := range theme.Palettes() {
			assert.ErrorContains(t, err, p.String())
		}
	}
}

func TestChoosingAPalette(t *testing.T) {
	cases := []struct {
		name, asked string
		noColor     bool
		profile     termenv.Profile
		want        theme.Palette
	}{
		{"what was asked for", "day", false, termenv.TrueColor, theme.Day},
		{"the same with few colours", "night", false, termenv.ANSI, theme.Night},
		{"the person wants no colour", "night", true, termenv.TrueColor, theme.Mono},
		{"the one for weak eyes", "contrast", false, termenv.ANSI256, theme.Contrast},
		{"no colour before contrast", "contrast", true, termenv.ANSI256, theme.Mono},
		{"the terminal has no colour", "day", false, termenv.Ascii, theme.Mono},
		{"a name that nobody checked doesn't glare", "bright", false, termenv.TrueColor, theme.Night},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.want, theme.Choose(c.asked, c.noColor, c.profile))
		})
	}
}
