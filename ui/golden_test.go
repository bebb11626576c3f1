package ui_test

import (
	"flag"
	"fmt"
	"image/color"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/ui"
	"duskhand/ui/draw"
	"duskhand/ui/testdata/emulator"
	"duskhand/ui/theme"
)

var update = flag.Bool("update", false, "rewrite the golden files")

func TestGoldenScreens(t *testing.T) {
	for name := range scenes() {
		t.Run(name, func(t *testing.T) {
			s := inScene(t, name, nil)
			for _, size := range [][2]int{{80, 24}, {120, 40}, {40, 12}} {
				s.resize(size[0], size[1])
				golden(t, fmt.Sprintf("%s-%dx%d-night", name, size[0], size[1]), s.model.View())
			}
		})
	}
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", "TestGoldenScreens", name+".golden")
	if *update {
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err, "run with -update to write it, then read it")
	assert.Equal(t, string(want), got)
}

// Rules that hold for every screen at every size, in every palette and charset, whatever it shows.
func TestEveryScreenKeepsTheRules(t *testing.T) {
	for name := range scenes() {
		for _, palette := range theme.Palettes() {
			for _, charset := range []draw.Charset{draw.Unicode, draw.ASCII} {
				t.Run(fmt.Sprintf("%s %v charset %d", name, palette, charset), func(t *testing.T) {
					s := inScene(t, name, func(c *ui.Config) { c.Palette, c.Charset = palette, charset })
					for _, size := range [][2]int{{80, 24}, {120, 40}, {200, 60}, {60, 20}, {40, 12}, {40, 10}, {30, 8}, {20, 5}, {8, 2}, {1, 1}} {
						s.send(tea.WindowSizeMsg{Width: size[0], Height: size[1]})
						keepsTheRules(t, s.model.View(), size[0], size[1], palette, charset)
					}
				})
			}
		}
	}
}

func keepsTheRules(t *testing.T, view string, width, height int, palette theme.Palette, charset draw.Charset) {
	t.Helper()
	lines := strings.Split(view, "\n")
	require.Len(t, lines, height, "exactly as high as the window")
	for _, line := range lines {
		require.LessOrEqual(t, ansi.StringWidth(line), width, "no line wider than the window: %q", plain(line))
	}
	if charset == draw.ASCII {
		for _, r := range plain(view) {
			require.Less(t, r, rune(128), "ASCII only")
		}
	}
	if palette == theme.Night {
		onlyRedOnBlack(t, view, width, height)
	}
	if width >= 20 && height >= 5 {
		require.Contains(t, plain(view), "EXAMPLE", "the example is marked on every screen")
	}
}

// onlyRedOnBlack looks at the cells of an emulated terminal: nothing green or blue is lit.
func onlyRedOnBlack(t *testing.T, view string, width, height int) {
	t.Helper()
	screen := emulator.New(width, height)
	_, err := screen.Write([]byte(strings.ReplaceAll(view, "\n", "\r\n")))
	require.NoError(t, err)
	for y := range height {
		for x := range width {
			cell := screen.Cell(x, y)
			red, green, blue := lit(t, cell.Ground, x, y)
			if red+green+blue > 0 { // an assertion for each of a million cells would take as long as drawing them
				t.Fatalf("the ground at %d,%d is lit", x, y)
			}
			if cell.Char == ' ' {
				continue
			}
			_, green, blue = lit(t, cell.Text, x, y)
			if green+blue > 0 {
				t.Fatalf("text at %d,%d is not red", x, y)
			}
		}
	}
}

// lit returns what a colour of a cell gives off, and refuses the terminal's own.
func lit(t *testing.T, c color.Color, x, y int) (red, green, blue uint32) {
	if c == nil {
		t.Fatalf("unpainted at %d,%d", x, y)
	}
	red, green, blue, _ = c.RGBA()
	return red, green, blue
}

// Without colour every state is still told apart.
func TestStatesDifferWithoutColour(t *testing.T) {
	seen := map[string]string{}
	for name := range scenes() {
		s := inScene(t, name, func(c *ui.Config) { c.Palette, c.NoColor, c.Profile = theme.Mono, true, termenv.Ascii })
		text := s.text()
		for other, before := range seen {
			assert.NotEqual(t, before, text, "%s and %s look the same", name, other)
		}
		seen[name] = text
	}
}

// Digits change, and nothing jumps: from one second to the next the screen differs in a few cells only.
func TestNothingJumps(t *testing.T) {
	s := start(t, 80, 24, nil)
	before := strings.Split(s.text(), "\n")
	s.wait(time.Second)
	after := strings.Split(s.text(), "\n")
	changed := 0
	for i := range after {
		if i > 0 && i < 3 || i > 12 { // not the clock and the digits themselves
			a, b := []rune(before[i]), []rune(after[i])
			require.Len(t, b, len(a))
			for j := range a {
				if a[j] != b[j] {
					changed++
				}
			}
		}
	}
	assert.LessOrEqual(t, changed, 4, "the seconds of the sub")
}

func BenchmarkView(b *testing.B) {
	for _, size := range [][2]int{{80, 24}, {120, 40}} {
		for _, screen := range []string{"run", "night"} {
			b.Run(fmt.Sprintf("%s-%dx%d", screen, size[0], size[1]), func(b *testing.B) {
				s := start(&testing.T{}, size[0], size[1], nil)
				scenes()[screen](s)
				b.ReportAllocs()
				for range b.N {
					_ = s.model.View()
				}
			})
		}
	}
}

func BenchmarkSecond(b *testing.B) {
	s := start(&testing.T{}, 80, 24, nil)
	b.ReportAllocs()
	for range b.N {
		s.send(s.model.Tick())
	}
}
