package theme_test

import (
	"image/color"
	"math"
	"strings"
	"testing"

	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/ui/theme"
)

// ratio returns the contrast of two colours, 1 to 21. Source: WCAG 2.2, definitions of relative luminance and
// contrast ratio.
func ratio(a, b color.Color) float64 {
	lighter, darker := luminance(a), luminance(b)
	if darker > lighter {
		lighter, darker = darker, lighter
	}
	return (lighter + 0.05) / (darker + 0.05)
}

func luminance(c color.Color) float64 {
	r, g, b, _ := c.RGBA()
	linear := func(channel uint32) float64 {
		v := float64(channel) / 0xffff
		if v <= 0.04045 {
			return v / 12.92
		}
		return math.Pow((v+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(r) + 0.7152*linear(g) + 0.0722*linear(b)
}

// The expected ratios are those that the definition gives for the colours' own values, by hand: white on black
// 21, red on black 0.2126/0.05 + 1.
func TestTheMeasureOfContrast(t *testing.T) {
	black, white, red := color.Gray{Y: 0}, color.Gray{Y: 255}, color.RGBA{R: 255, A: 255}
	assert.InDelta(t, 21, ratio(white, black), 1e-9)
	assert.InDelta(t, 21, ratio(black, white), 1e-9)
	assert.InDelta(t, 5.252, ratio(red, black), 1e-9)
}

// What the sixteen colours look like is the terminal's own affair, so they are not measured.
func TestContrastKeepsItsPromiseInEveryRole(t *testing.T) {
	p := everyRole()
	for _, profile := range []termenv.Profile{termenv.TrueColor, termenv.ANSI256} {
		e := screen(t, newTheme(theme.Contrast, profile).Render(p), p.Width(), p.Height())
		for _, role := range theme.Roles() {
			cell := e.Cell(0, int(role))
			require.NotNil(t, cell.Text, "role %d, %s", role, profile.Name())
			require.NotNil(t, cell.Ground, "role %d, %s", role, profile.Name())
			assert.GreaterOrEqual(t, ratio(cell.Text, cell.Ground), 10.0, "role %d, %s", role, profile.Name())
		}
	}
}

// What the sixteen colours are called is fixed (ECMA-48, 8.3.117; 8 to 15 are aixterm's bright ones), what they look like is the
// terminal's. At night only 0 and 1 may be asked for; each other palette has its own few.
func TestOnSixteenColoursEachPaletteAsksForItsOwnFewOnly(t *testing.T) {
	allowed := map[theme.Palette]map[string]bool{
		theme.Night:    {"31": true, "40": true},
		theme.Day:      {"90": true, "34": true, "36": true, "33": true, "31": true},
		theme.Mono:     {},
		theme.Contrast: {"40": true, "37": true, "97": true, "93": true},
	}
	shape := map[string]bool{"": true, "0": true, "1": true, "4": true, "7": true}
	for _, palette := range theme.Palettes() {
		own, told := allowed[palette]
		require.True(t, told, "%s has no row above", palette)
		codes := sgr.FindAllStringSubmatch(newTheme(palette, termenv.ANSI).Render(everyRole()), -1)
		require.NotEmpty(t, codes)
		for _, code := range codes {
			for _, part := range strings.Split(code[1], ";") {
				assert.True(t, own[part] || shape[part], "%s asks for SGR %s", palette, part)
			}
		}
	}
}

// Without colour the loud roles differ from the quiet ones by bold, underline or reverse.
func TestWithoutColourTheLoudRolesAreMarked(t *testing.T) {
	for _, role := range []theme.Role{theme.Key, theme.Mark, theme.Chosen, theme.Caution, theme.Call, theme.Answer} {
		loud := newTheme(theme.Mono, termenv.ANSI).Render(page{words(role, "x", 1)})
		assert.NotEqual(t, "x", loud, "role %d", role)
	}
	assert.Equal(t, "x", newTheme(theme.Mono, termenv.ANSI).Render(page{words(theme.Text, "x", 1)}))
}
