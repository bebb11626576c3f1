package ui_test

import (
	"fmt"
	"image/color"
	"io"
	"math"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/ui"
	"duskhand/ui/draw"
	"duskhand/ui/testdata/emulator"
	"duskhand/ui/theme"
)

// What the night palette does to dark-adapted eyes, measured on every scene of the golden screens.
//
// Rods, which see in the dark, hardly answer to the red primary of a display and strongly to its green and
// blue (CIE 1951 scotopic curve: some 0.02 of its maximum at 620 nm, 0.8 to 1 about 500 nm). So the bound for
// green and blue is nought. Red light in quantity dazzles all the same: the whole screen's mean luminance has a
// bound too.
const (
	// largestMean bounds the mean relative luminance of a screen of 80 × 24 or more, as a share of one that is white
	// all over, by an estimate of the ink that is on the high side. Measured (-v prints it for each): the brightest is
	// digits only in 120 × 40 at 2.77 %, then the call in 80 × 24 at 2.75 %; the median is 1.4 % in 80 × 24 and 0.5 % in
	// 200 × 60.
	largestMean = 0.03
	// largestCall is that of a screen with a call, which is at the palette's full red and the largest thing of the
	// night while all else steps back: 3.7 % at most in 80 × 24, 3.9 % where 256 colours have no red between.
	largestCall = 0.04
	// largestSmall is that of smaller windows, where digits and words take a larger share of fewer cells: 4.45 % at
	// most, in 30 × 8.
	largestSmall = 0.05
	// leastToRead is the contrast on black of what must be read: WCAG 2.2 asks 3 : 1 of large text (1.4.3) and of
	// drawings (1.4.11). Pure red on black has 5.25 : 1, so the 4.5 : 1 of small text is out of reach but for the answer.
	leastToRead = 3.0
	// leastFaint is that of marks which may be overlooked.
	leastFaint = 2.5
	// leastNeeded is that of what one needs at two metres: the answer, what it counts to, what to do.
	leastNeeded = 4.5
	// leastCall is that of a call: all that red can give.
	leastCall = 5.25
	// mostBehind is the most that anything else has while a call stands: what pure words have.
	mostBehind = 3.05
)

func TestDarkEveryScreenIsDark(t *testing.T) {
	sizes := [][2]int{{80, 24}, {120, 40}, {40, 12}, {200, 60}, {30, 8}}
	for name := range scenes() {
		for _, profile := range []termenv.Profile{termenv.TrueColor, termenv.ANSI256} {
			for _, charset := range []draw.Charset{draw.Unicode, draw.ASCII} {
				if *sweep == 1 && (profile == termenv.ANSI256) != (charset == draw.ASCII) {
					continue // the crossed pairs are looked at in a sweep: colours don't hang on the marks
				}
				t.Run(fmt.Sprintf("%s %s charset %d", name, profile.Name(), charset), func(t *testing.T) {
					s := inScene(t, name, func(c *ui.Config) { c.Palette, c.Profile, c.Charset = theme.Night, profile, charset })
					for _, size := range sizes {
						lit := measure(t, show(s, size[0], size[1]), size[0], size[1])
						t.Logf("%d×%d: mean %.2f %% of white, %.0f %% of cells inked, least contrast %.2f", size[0], size[1],
							100*lit.mean, 100*lit.inked, lit.least)
						assert.LessOrEqual(t, lit.mean, meanAllowed(name, size), "%v", size)
						assert.GreaterOrEqual(t, lit.least, leastFaint, "%v", size)
					}
				})
			}
		}
	}
}

func meanAllowed(scene string, size [2]int) float64 {
	switch {
	case size[0] < 80 || size[1] < 24:
		return largestSmall
	case scene == "rewind":
		return largestCall
	}
	return largestMean
}

// show gives the session a window and returns what a terminal of that size would show.
func show(s *session, width, height int) emulator.Screen {
	s.t.Helper()
	s.resize(width, height)
	view := s.model.View()
	for _, line := range strings.Split(view, "\n") {
		require.LessOrEqual(s.t, ansi.StringWidth(line), width, "no line wider than the window: %q", plain(line))
	}
	return shown(s.t, view, width, height)
}

// light is what a screen gives off.
type light struct {
	mean  float64 // relative luminance, of all cells, 1 for white all over
	inked float64 // share of cells that are not blank
	least float64 // contrast of the faintest inked cell with its ground
}

// measure looks at every cell, and refuses green and blue in any.
func measure(t *testing.T, screen emulator.Screen, width, height int) light {
	t.Helper()
	l := light{least: math.Inf(1)}
	for y := range height {
		for x := range width {
			cell := screen.Cell(x, y)
			for _, c := range []color.Color{cell.Ground, cell.Text} {
				if _, green, blue := lit(t, c, x, y); green+blue > 0 {
					t.Fatalf("green or blue at %d,%d", x, y)
				}
			}
			ink := inkOf(cell.Char, cell.Bold)
			l.mean += ink*luminance(cell.Text) + (1-ink)*luminance(cell.Ground)
			if ink > 0 {
				l.inked++
				l.least = min(l.least, contrast(cell.Text, cell.Ground))
			}
		}
	}
	l.mean, l.inked = l.mean/float64(width*height), l.inked/float64(width*height)
	return l
}

// inkOf returns which share of a cell's pixels a character lights. Blocks are what Unicode says of them. The rest
// are the largest in their group, rounded up, of DejaVu Sans Mono in cells of its own line height, measured by
// drawing each at 200 px: letters and digits 0.17 to 0.28, bold 0.25 to 0.37; box lines 0.05 to 0.19; marks up to 0.40
// (a full circle). Braille it lacks: a dot of 0.7 of its pitch across fills 0.4 of its eighth of the cell.
func inkOf(r rune, bold bool) float64 {
	switch {
	case r == 0 || r == ' ' || r == '\u2800':
		return 0
	case r == '█':
		return 1
	case strings.ContainsRune("▀▄▌▐", r):
		return 0.5
	case r >= '▁' && r <= '▇':
		return float64(r-'▁'+1) / 8
	case r >= '\u2800' && r <= '\u28ff':
		return 0.4 * float64(dots(r)) / 8
	case r >= '─' && r <= '╿':
		return 0.2
	case r >= '■' && r <= '◿':
		return 0.4
	case bold:
		return 0.37
	}
	return 0.28
}

func dots(braille rune) (n int) {
	for pattern := braille - '\u2800'; pattern > 0; pattern >>= 1 {
		n += int(pattern & 1)
	}
	return n
}

// luminance and contrast are WCAG 2.2's relative luminance and contrast ratio.
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

func contrast(text, ground color.Color) float64 {
	a, b := luminance(text)+0.05, luminance(ground)+0.05
	return max(a, b) / min(a, b)
}

// The measures themselves, on values that follow from their definitions.
func TestDarkMeasures(t *testing.T) {
	assert.InDelta(t, 21, contrast(color.White, color.Black), 1e-9)
	assert.InDelta(t, 5.252, contrast(color.RGBA{R: 255, A: 255}, color.Black), 1e-9)
	white := shown(t, strings.Repeat("\x1b[38;2;255;0;0;48;2;0;0;0m█", 8), 8, 1)
	assert.InDelta(t, 0.2126, measure(t, white, 8, 1).mean, 1e-9, "a screen of full red")
	assert.Equal(t, 0.4, inkOf('⣿', false))
	assert.Equal(t, 0.375, inkOf('▃', true))
	assert.Zero(t, inkOf('\u2800', true))
}

// Every role has the contrast that its purpose asks for, in the colours of both kinds of terminal that have
// colours of their own.
func TestDarkRolesCanBeRead(t *testing.T) {
	least := func(role theme.Role) float64 {
		switch role {
		case theme.Call:
			return leastCall
		case theme.Answer, theme.Need, theme.Caution:
			return leastNeeded
		case theme.Ground, theme.Faint, theme.Line:
			return leastFaint
		}
		return leastToRead
	}
	for _, profile := range []termenv.Profile{termenv.TrueColor, termenv.ANSI256} {
		for _, role := range theme.Roles() {
			cell := shown(t, inRole(role, profile), 1, 1).Cell(0, 0)
			got := contrast(cell.Text, cell.Ground)
			t.Logf("%s, role %d: %.2f : 1", profile.Name(), role, got)
			assert.GreaterOrEqual(t, got, least(role), "%s, role %d", profile.Name(), role)
		}
	}
}

// While a call stands nothing but the call is brighter than words.
func TestDarkAllElseStepsBackBehindACall(t *testing.T) {
	t.Parallel()
	s := inScene(t, "rewind", nil)
	for _, size := range [][2]int{{80, 24}, {120, 40}, {200, 60}} {
		screen, bright, dim := show(s, size[0], size[1]), 0, 0
		for y := range size[1] {
			for x := range size[0] {
				cell := screen.Cell(x, y)
				switch c := contrast(cell.Text, cell.Ground); {
				case inkOf(cell.Char, cell.Bold) == 0:
				case c >= leastCall:
					bright++
				default:
					dim++
					assert.LessOrEqual(t, c, mostBehind, "%v at %d,%d", size, x, y)
				}
			}
		}
		assert.Greater(t, bright, 100, "the call in big letters")
		assert.Positive(t, dim)
	}
}

// With sixteen colours the night asks for black and for dark red, and for nothing else, on every screen.
func TestDarkOnSixteenColoursIsRedAndBlack(t *testing.T) {
	for name := range scenes() {
		s := inScene(t, name, func(c *ui.Config) { c.Palette, c.Profile = theme.Night, termenv.ANSI })
		screen := show(s, 80, 24)
		for y := range 24 {
			for x := range 80 {
				cell := screen.Cell(x, y)
				require.Equal(t, ansi.Black, cell.Ground, "%s: ground at %d,%d", name, x, y)
				require.Equal(t, ansi.Red, cell.Text, "%s: text at %d,%d", name, x, y)
			}
		}
	}
}

// letter is a surface of one letter.
type letter struct{ role theme.Role }

func (letter) Width() int  { return 1 }
func (letter) Height() int { return 1 }
func (l letter) Cell(int, int) (rune, string, theme.Role) {
	return 'x', "", l.role
}

func inRole(role theme.Role, profile termenv.Profile) string {
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(profile)
	return theme.New(r, theme.Night).Render(letter{role})
}

func shown(t *testing.T, view string, width, height int) emulator.Screen {
	t.Helper()
	screen := emulator.New(width, height)
	_, err := screen.Write([]byte(strings.ReplaceAll(view, "\n", "\r\n")))
	require.NoError(t, err)
	return screen
}

func (s *session) resize(width, height int) {
	s.send(tea.WindowSizeMsg{Width: width, Height: height})
}
