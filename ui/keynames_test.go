package ui_test

import (
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"

	"duskhand/plan/kit"
	"duskhand/ui"
	"duskhand/ui/keys"
)

// What can be pressed on a screen, its row takes to be possible there: else the kit would let two actions share a key
// that both listen to.
func TestKeysArePossibleOnlyWhereTheirRowsSaySo(t *testing.T) {
	s := start(t, 80, 24, func(c *ui.Config) { c.NewKit = &ui.NewKit{} })
	for screen := range keys.ScreenCount {
		for _, b := range s.model.Keys().All() {
			if b.Possible && len(b.On) > 0 {
				assert.Contains(t, b.On, screen, b.Action)
			}
		}
		s.press("tab")
	}
}

func withKeys(t *testing.T, keys kit.Keys) *session {
	t.Helper()
	return start(t, 80, 24, func(c *ui.Config) { c.Kit.Keys = keys })
}

func TestKeysOfTheKitAreHandledShownAndNamed(t *testing.T) {
	s := withKeys(t, kit.Keys{"derotator": {"D"}, "next": {"f5", "space"}, "help": {"H"}, "screen": {"N", "tab"}, "read": {"A"}})
	before := s.text()
	s.press("o", "?")
	assert.Equal(t, before, s.text(), "the old keys do nothing")
	s.sees("N next screen")
	s.press("D", "enter").sees("the derotator is off", "f5 guiding off")
	s.press("H").sees("D         derotator turned on, or off", "f5        say that").press("H")
	s.press("N").sees("of subs still to come tonight")
	s.press("tab").sees("to be sure")
}

func TestCtrlCLeavesWhateverTheKitSays(t *testing.T) {
	s := withKeys(t, kit.Keys{"quit": {"Q"}})
	s.press("q")
	assert.False(t, s.quit)
	s.press("ctrl+c")
	assert.True(t, s.quit)
	s = withKeys(t, kit.Keys{"quit": {"Q"}})
	s.press("Q")
	assert.True(t, s.quit)
}

func TestWordsThatNameAKeyFollowTheKit(t *testing.T) {
	s := withKeys(t, kit.Keys{"keep_framing": {"f2"}, "drop_framing": {"f3"}})
	s.send(tea.WindowSizeMsg{Width: 120, Height: 40})
	s.press("5", ">").sees("not kept yet: f2 keeps it, f3 drops it")
	s = withKeys(t, kit.Keys{"keep_framing": {"f2"}})
	s.press("2")
	s.press("?").press("down", "down", "down", "down", "down", "down", "down", "down", "down", "down").sees("up the list")
}
