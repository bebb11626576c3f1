package theme_test

import (
	"fmt"
	"image/color"
	"io"
	"regexp"
	"strings"
	"testing"

	"github.com/charmbracelet/lipgloss"
	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/ui/testdata/emulator"
	"duskhand/ui/theme"
)

// spot is one cell of a surface for tests.
type spot struct {
	first rune
	marks string
	role  theme.Role
}

// page is a surface for tests.
type page [][]spot

func (p page) Height() int { return len(p) }
func (p page) Width() int  { return len(p[0]) }
func (p page) Cell(x, y int) (rune, string, theme.Role) {
	return p[y][x].first, p[y][x].marks, p[y][x].role
}

func words(role theme.Role, text string, width int) []spot {
	line := make([]spot, width)
	for i, r := range []rune(text) {
		line[i] = spot{first: r, role: role}
	}
	return line
}

// everyRole has a line per role, with blanks of that role and of the ground.
func everyRole() page {
	var p page
	for _, role := range theme.Roles() {
		line := words(role, fmt.Sprintf("role %d  ", role), 20)
		line[14] = spot{first: '●', role: role}
		p = append(p, line)
	}
	return append(p, make([]spot, 20))
}

func newTheme(p theme.Palette, profile termenv.Profile) theme.Theme {
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(profile)
	return theme.New(r, p)
}

// profiles are the kinds of terminal that have colour.
func profiles() []termenv.Profile {
	return []termenv.Profile{termenv.TrueColor, termenv.ANSI256, termenv.ANSI}
}

// screen shows a page in a terminal emulator and returns it.
func screen(t *testing.T, text string, width, height int) emulator.Screen {
	t.Helper()
	e := emulator.New(width, height)
	_, err := e.Write([]byte(strings.ReplaceAll(text, "\n", "\r\n")))
	require.NoError(t, err)
	return e
}

// TestNightIsRedOnBlackInEveryCell looks at what a terminal would show. With 16 colours the emulator
// takes the values of ECMA-48 colour 1 as 80 00 00, as most terminals do within their own red.
func TestNightIsRedOnBlackInEveryCell(t *testing.T) {
	p := everyRole()
	for _, profile := range profiles() {
		t.Run(profile.Name(), func(t *testing.T) {
			e := screen(t, newTheme(theme.Night, profile).Render(p), p.Width(), p.Height())
			for y := range p.Height() {
				for x := range p.Width() {
					cell := e.Cell(x, y)
					where := fmt.Sprintf("column %d, row %d", x, y)
					requireShade(t, cell.Ground, where, false)
					requireShade(t, cell.Text, where, true)
					require.False(t, cell.Blink, where) // reversed text would show as lit ground, faint as another red
				}
			}
		})
	}
}

// requireShade refuses a colour that is the terminal's own, has green or blue, or has red against lit.
func requireShade(t *testing.T, c color.Color, where string, lit bool) {
	t.Helper()
	require.NotNil(t, c, "%s: the terminal's own colour", where)
	red, green, blue, _ := c.RGBA()
	require.Zero(t, green, "green at %s", where)
	require.Zero(t, blue, "blue at %s", where)
	require.Equal(t, lit, red > 0, "red at %s", where)
}

func TestNightUsesNoBrightColourOfTheSixteen(t *testing.T) {
	p := everyRole()
	e := screen(t, newTheme(theme.Night, termenv.ANSI).Render(p), p.Width(), p.Height())
	for y := range p.Height() {
		assert.Equal(t, ansi.Red, e.Cell(0, y).Text, "row %d", y)
		assert.Equal(t, ansi.Black, e.Cell(0, y).Ground, "row %d", y)
	}
}

func TestTheCallIsTheBrightestAndNoRoleIsDarkerThanAQuieterOne(t *testing.T) {
	p := everyRole()
	for _, profile := range []termenv.Profile{termenv.TrueColor, termenv.ANSI256} {
		e := screen(t, newTheme(theme.Night, profile).Render(p), p.Width(), p.Height())
		red := func(role theme.Role) uint32 {
			r, _, _, _ := e.Cell(0, int(role)).Text.RGBA()
			return r
		}
		for _, role := range theme.Roles()[1:] {
			assert.GreaterOrEqual(t, red(role), red(role-1), "%s, role %d", profile.Name(), role)
		}
		assert.Equal(t, uint32(0xffff), red(theme.Call), profile.Name())
		if profile == termenv.TrueColor { // the cube has no red between
			assert.Greater(t, red(theme.Call), red(theme.Answer))
		}
	}
}

var sgr = regexp.MustCompile(`\x1b\[([0-9;]*)m`)

func TestMonoHasNoColour(t *testing.T) {
	allowed := map[string]bool{"": true, "0": true, "1": true, "4": true, "7": true} // ECMA-48, 8.3.117
	for _, profile := range profiles() {
		text := newTheme(theme.Mono, profile).Render(everyRole())
		codes := sgr.FindAllStringSubmatch(text, -1)
		require.NotEmpty(t, codes, "bold, underline and reverse should tell roles apart")
		for _, code := range codes {
			for _, part := range strings.Split(code[1], ";") {
				assert.True(t, allowed[part], "SGR %s, %s", part, profile.Name())
			}
		}
	}
}

func TestWithoutAnyEscapesTheTextIsPlain(t *testing.T) {
	for _, palette := range theme.Palettes() {
		assert.NotContains(t, newTheme(palette, termenv.Ascii).Render(everyRole()), "\x1b", palette.String())
	}
}

func TestLinesAreFilledOnPaintedGroundOnly(t *testing.T) {
	p := page{words(theme.Text, "ab", 6), make([]spot, 6)}
	for _, profile := range profiles() {
		for _, painted := range []theme.Palette{theme.Night, theme.Contrast} {
			for _, line := range strings.Split(newTheme(painted, profile).Render(p), "\n") {
				assert.Equal(t, 6, ansi.StringWidth(line), "%s: %q", painted, line)
			}
		}
		for _, palette := range []theme.Palette{theme.Day, theme.Mono} {
			assert.Equal(t, "ab\n", ansi.Strip(newTheme(palette, profile).Render(p)), palette.String())
		}
	}
}

func TestTheChosenRowIsReversedToItsEndWithoutColour(t *testing.T) {
	p := page{words(theme.Chosen, "ab    ", 6)}
	text := newTheme(theme.Mono, termenv.ANSI).Render(p)
	require.Equal(t, "\x1b[7mab    \x1b[0m", text)
}

func TestUnderlineEndsBeforeTheGround(t *testing.T) {
	line := words(theme.Caution, "ab", 6)
	line[4] = spot{first: 'c', role: theme.Caution}
	text := newTheme(theme.Mono, termenv.ANSI).Render(page{line})
	require.Equal(t, "\x1b[4;4mab\x1b[0m  \x1b[4;4mc\x1b[0m", text)
}

func TestNeighboursOfOneRoleShareTheirEscapes(t *testing.T) {
	line := words(theme.Text, "one two", 12)
	line[9] = spot{first: 'x', role: theme.Answer}
	text := newTheme(theme.Night, termenv.TrueColor).Render(page{line})
	assert.Equal(t, 2, strings.Count(text, "\x1b[0m"), "%q", text)
	assert.Contains(t, text, "one two  \x1b[0m")
}

func TestWideCharactersAndMarksComeOutWhole(t *testing.T) {
	p := page{{
		{first: '月', role: theme.Text}, {first: theme.Continued, role: theme.Text},
		{first: 'e', marks: "\u0301", role: theme.Text}, {},
	}}
	require.Equal(t, "月e\u0301", newTheme(theme.Mono, termenv.Ascii).Render(p))
}

func TestAThemeKnowsItsPalette(t *testing.T) {
	for _, palette := range theme.Palettes() {
		require.Equal(t, palette, newTheme(palette, termenv.ANSI).Palette())
	}
}
