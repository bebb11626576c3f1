package ui_test

import (
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

// Deleting the word ahead from the last character read behind the end of the text, and ended the program.
func TestDeletingTheWordAheadInAQuestion(t *testing.T) {
	s := own(t, 120, 40)
	s.press("n").press(typed("12")[:2]...).press("left")
	s.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{'d'}, Alt: true})
	s.sees("note: 1_")
}

// Who was asked to confirm pressed the next keys of the night, and they became text.
func TestOneKeyAnswersAConfirmation(t *testing.T) {
	t.Parallel()
	s := own(t, 80, 24).press("space").wait(time.Minute).press("space", "o")
	s.sees("subs are being taken; derotator off all the same", "enter says that it is off · esc goes back", "█")
	for _, key := range []string{"u", "a", "1", "r", "space"} {
		s.press(key).sees(key+" is no answer here; waiting for enter or esc", "derotator off all the same")
	}
	s.sees("until the rewind").press("esc").seesNot("all the same").sees("sub 1 has")
	s.press("o", "enter").sees("derotator off").seesNot("all the same")
}

func TestNAnswersTheDivisionAtOnce(t *testing.T) {
	t.Parallel()
	s := own(t, 80, 24).press("/").sees("divide the rest of the night", "n gives it to one target alone")
	s.press("n").seesNot("divide the rest of the night among")
}

// A call comes before any question: the question steps back into the footer.
func TestACallIsNotCoveredByAQuestion(t *testing.T) {
	t.Parallel()
	s := start(t, 80, 24, nil).wait(17 * time.Minute).press("o")
	s.sees("now, before the limit at", "derotator off all the same: enter says that it is off · esc goes back")
	s.press("x").sees("x is no answer here", "derotator off all the same").press("enter").seesNot("all the same")
}

// After a refused entry the text stays, and what is asked stands below what was wrong with it.
func TestARefusedEntryStaysWithItsQuestion(t *testing.T) {
	t.Parallel()
	s := own(t, 80, 24).press("a", "a", "b", "c", "enter").sees(`"abc" is no angle; give the degrees that the derotator shows, as −16.0°`, "the derotator shows: abc_")
	for range 3 {
		s.send(tea.KeyMsg{Type: tea.KeyBackspace})
	}
	s.press("−", "1", "2", ",", "5").sees("the derotator shows: −12,5_").press("enter").seesNot("the derotator shows:")
}

// Who says that both telescopes are focused has focused both.
func TestFocusedIsNotAnsweredByFocusFirst(t *testing.T) {
	t.Parallel()
	s := own(t, 80, 24).press("4", "f", "enter").seesNot("Noted; but", "Focus both telescopes first")
	s.press("9").sees("focus")
}
