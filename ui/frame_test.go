package ui_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/ui"
)

// framing opens the Frame screen.
func framing(t *testing.T, width, height int, change func(*ui.Config)) *session {
	return start(t, width, height, change).press("5").sees("camera angle", "NGC 2070")
}

func TestFrameScreenSaysHowTheChipStands(t *testing.T) {
	s := framing(t, 160, 40, nil)
	s.sees("296.6° now", "No angle is wanted", "guide star", "shared by 4 runs", "Without derotation", "Drawn: every star")
	s.sees("N", "E", "1°")
}

// The wanted angle is turned and kept, the plan follows it, and undo takes it back.
func TestWantedAngleBecomesPartOfTheNight(t *testing.T) {
	s := framing(t, 160, 40, nil)
	s.press("<").sees("not kept yet", "Wanted 287.0°", "9.6° off")
	s.press("enter").seesNot("not kept yet")
	s.press("tab", "shift+tab").sees("Wanted 287.0°", "u undo: framed NGC 2070 at 287°")
	s.press("d").sees("waits for it").press("d").sees("longest runs").press("d").sees("when they can")
	s.press("u").sees("Wanted 287.0°").seesNot("not kept yet") // the draft is what was entered last
	s.press("u").sees("No angle is wanted")
}

// Nothing that was entered is lost: a draft is kept by itself after a while, at another screen too, and when
// the person leaves.
func TestADraftKeepsItself(t *testing.T) {
	s := framing(t, 160, 40, nil)
	s.press("left").sees("not kept yet").wait(5 * time.Second).sees("not kept yet")
	s.press("left").wait(5 * time.Second).sees("not kept yet")
	s.press("tab").wait(4 * time.Second).press("5").seesNot("not kept yet").sees("u undo: framed NGC 2070")

	path := t.TempDir() + "/journal.db"
	k := kit.Example()
	k.Example = false
	mine := func(c *ui.Config) { c.Kit, c.JournalPath = k, path }
	s = start(t, 120, 40, mine).press("5", ",").sees("Wanted 3")
	s.press("q")
	require.True(t, s.quit)
	require.NoError(t, s.model.Close())
	start(t, 120, 40, mine).press("5").sees("Wanted 3").seesNot("not kept yet")
}

func TestADroppedDraftIsGone(t *testing.T) {
	framing(t, 160, 40, nil).press(">", "right").sees("Wanted").press("esc").sees("No angle is wanted").seesNot("not kept yet")
}

// A slow line or a key held down hands over many keys at once: each counts.
func TestKeysThatComeTogetherAllCount(t *testing.T) {
	s := framing(t, 160, 40, nil)
	s.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(">>,")})
	s.sees("Wanted 316.0°") // 297 to the degree, and 10 + 10 − 1
}

func TestFramingInNumbers(t *testing.T) {
	s := framing(t, 160, 40, nil)
	s.press("e").press(typed("400")...).sees("give an angle from 0 to 360°").press("esc")
	s.press("e").press(typed("300 12 -5")...).sees("Wanted 300.0°", "azimuth", "altitude", "′")
	s.press("e").press(typed("any")...).sees("No angle is wanted")
	s.press("0", "enter").sees("Nudge: none")
	s.press("i").press(typed("-320 150")...).sees("Nudge from −320, +150 pixels")
}

func TestMosaicOnTheFrameScreen(t *testing.T) {
	s := framing(t, 160, 40, nil)
	s.press("#").press(typed("2 3 20")...).sees("2 × 3 fields, 20 % overlap", "A1", "B3")
	s.press("#").press(typed("0 3")...).sees("rows and columns from 1 to 12").press("#").press(typed("x")...).sees("give rows and columns").press("esc")
	s.press("#").press(typed("1 1")...).seesNot("overlap")
}

func TestZoomAndViewChangeOnlyTheDrawing(t *testing.T) {
	s := framing(t, 160, 40, nil)
	before := s.text()
	for _, k := range []string{"+", "-", "v"} {
		s.press(k)
		assert.NotEqual(t, before, s.text(), k)
		before = s.text()
	}
	s.press("v").seesNot("not kept yet")
}

func TestSavedPageIsWhereItSays(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "pages")
	s := framing(t, 200, 40, func(c *ui.Config) { c.PagesFolder = folder })
	s.press("p").sees("written: ", "the one for paper")
	files, err := os.ReadDir(folder)
	require.NoError(t, err)
	var names []string
	for _, f := range files {
		names = append(names, f.Name())
	}
	assert.Equal(t, "2026-12-05-231400-ngc-2070-dark.svg 2026-12-05-231400-ngc-2070-print.svg", strings.Join(names, " "))
	s.press("p").sees("written: ", "the one for paper") // in the same second, and in place of none
	files, err = os.ReadDir(folder)
	require.NoError(t, err)
	assert.Len(t, files, 4)
	framing(t, 160, 40, nil).press("p").sees("plan writes one with --svg")
}

// BenchmarkFrame bounds drawing the Frame screen: 3 ms.
func BenchmarkFrame(b *testing.B) {
	s := framing(&testing.T{}, 120, 40, nil)
	b.ReportAllocs()
	for b.Loop() {
		s.model.View()
	}
}
