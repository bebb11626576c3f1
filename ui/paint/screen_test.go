package paint_test

import (
	"io"
	"os"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"
	"github.com/charmbracelet/x/term"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/ui/paint"
)

// written returns what is written to a screen's terminal while do is called.
func written(t *testing.T, do func(*paint.Screen)) string {
	t.Helper()
	reads, writes, err := os.Pipe()
	require.NoError(t, err)
	said := make(chan string)
	go func() {
		all, _ := io.ReadAll(reads)
		said <- string(all)
	}()
	do(paint.On(writes))
	require.NoError(t, writes.Close())
	return <-said
}

func libraryOpens(s *paint.Screen) { _, _ = io.WriteString(s, ansi.SetModeAltScreenSaveCursor) }

// The library takes it for a terminal, and all that the library writes goes by it: io.WriteString too.
func TestAScreenIsATerminalToTheLibrary(t *testing.T) {
	var _ term.File = (*paint.Screen)(nil)
	_, passes := any((*paint.Screen)(nil)).(io.StringWriter)
	assert.False(t, passes, "what io.WriteString says would not be seen")
}

func TestNothingIsPaintedOnTheShellsScreen(t *testing.T) {
	said := written(t, func(s *paint.Screen) {
		s.Paint("one\ntwo", 20, 2)
		libraryOpens(s)
		s.Paint("one\ntwo", 20, 2)
		_, _ = io.WriteString(s, ansi.ResetModeAltScreenSaveCursor)
		s.Paint("three\nfour", 20, 2)
		_, _ = io.WriteString(s, ansi.ShowCursor)
	})
	before, after, _ := strings.Cut(said, ansi.SetModeAltScreenSaveCursor)
	assert.Empty(t, before)
	shown, left, closed := strings.Cut(after, ansi.ResetModeAltScreenSaveCursor)
	require.True(t, closed)
	assert.Contains(t, shown, "one")
	assert.Contains(t, shown, "two")
	assert.Equal(t, ansi.ShowCursor, left, "the shell's screen is left alone")
}

// A second later one line differs, and that is all that is written; a window of another size is painted whole.
func TestOnlyWhatChangedIsPainted(t *testing.T) {
	var first, second, third int
	said := written(t, func(s *paint.Screen) {
		libraryOpens(s)
		s.Paint("title\n23:14:01\nfooter", 20, 3)
		s.Paint("title\n23:14:02\nfooter", 20, 3)
		s.Paint("title\n23:14:02\nfooter", 20, 3)
		s.Paint("title\n23:14:02\nfooter", 30, 3)
	})
	first, second, third = strings.Count(said, "title"), strings.Count(said, "23:14:02"), strings.Count(said, "footer")
	assert.Equal(t, []int{2, 2, 2}, []int{first, second, third})
	assert.Contains(t, said, ansi.CursorPosition(1, 2)+"23:14:02"+ansi.EraseLineRight)
}

// The library's blank picture is painted over, and lines that a smaller picture does not have are erased.
func TestWhatTheLibrarySpoilsIsPaintedOver(t *testing.T) {
	said := written(t, func(s *paint.Screen) {
		libraryOpens(s)
		s.Paint("one\ntwo\nthree", 20, 3)
		_, _ = s.Write([]byte(ansi.CursorHomePosition + " " + ansi.EraseLineRight))
		s.Paint("one\ntwo", 20, 3)
	})
	_, after, _ := strings.Cut(said, ansi.CursorHomePosition+" "+ansi.EraseLineRight)
	for _, line := range []string{"one", "two", "three"} {
		assert.Contains(t, after, line)
	}
	assert.True(t, strings.HasSuffix(said, ansi.CursorPosition(1, 3)+ansi.EraseScreenBelow))
}

// A line as wide as the window is not erased behind, which would take its last cell; one that is wider is cut.
func TestFullLinesKeepTheirLastCell(t *testing.T) {
	said := written(t, func(s *paint.Screen) {
		libraryOpens(s)
		s.Paint("12345\n1234567\nrows\nabove", 5, 3)
	})
	assert.NotContains(t, said, "12345"+ansi.EraseLineRight)
	assert.NotContains(t, said, "67"+"\x1b", "cut")
	assert.Contains(t, said, "above", "of more rows than the window has the last are shown, as the library does")
}

type counting struct{ seconds int }

func (c counting) Init() tea.Cmd { return nil }
func (c counting) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	if _, key := msg.(tea.KeyMsg); key {
		c.seconds++
	}
	return c, nil
}
func (c counting) View() string { return strings.Repeat("*", c.seconds) + "." }

func TestAModelIsPaintedAfterEachMessageOnceItsSizeIsKnown(t *testing.T) {
	said := written(t, func(s *paint.Screen) {
		libraryOpens(s)
		var m tea.Model = paint.New(counting{}, s)
		m, _ = m.Update(tea.KeyMsg{})
		m, _ = m.Update(tea.WindowSizeMsg{Width: 10, Height: 1})
		m, _ = m.Update(tea.KeyMsg{})
		assert.Empty(t, m.View(), "the library has nothing to show")
		assert.Equal(t, counting{2}, m.(paint.Model).Inner)
	})
	at := ansi.CursorPosition(1, 1)
	assert.Equal(t, ansi.SetModeAltScreenSaveCursor+at+"*."+ansi.EraseLineRight+at+"**."+ansi.EraseLineRight, said)
}
