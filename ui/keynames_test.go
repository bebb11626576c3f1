package ui_test

import (
	"slices"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/ui"
)

// The kit's table of actions and the screens' table of keys are two views of one thing.
func TestTheKitNamesEveryKeyOfTheScreens(t *testing.T) {
	keys := ui.DefaultKeys()
	named := ui.NamedKeys(&keys)
	require.Len(t, kit.KeyActions(), len(named))
	names := map[any]string{}
	for _, a := range kit.KeyActions() {
		b, found := named[a.Name]
		require.True(t, found, "%s has no binding", a.Name)
		require.Empty(t, names[b], "%s and %s are one binding", names[b], a.Name)
		names[b] = a.Name
		var defaults []string
		for _, k := range b.Keys() {
			if k == " " {
				k = "space"
			}
			if k != "ctrl+c" { // leaves in any case
				defaults = append(defaults, k)
			}
		}
		assert.Equal(t, a.Default, defaults, a.Name)
		if !slices.Contains([]string{"target", "up", "down", "new_kit"}, a.Name) { // which say more in the kit
			assert.Equal(t, b.Help().Desc, a.Help, a.Name)
		}
	}
	for _, b := range ui.All(&keys) {
		if names[b] == "" {
			assert.Equal(t, "a screen by its number", b.Help().Desc, "every other binding has a name in the kit")
		}
	}
}

// What can be pressed on a screen, the kit takes to be possible there: else it would let two actions share a
// key that both listen to.
func TestKeysArePossibleOnlyWhereTheKitSaysSo(t *testing.T) {
	screens := []string{"run", "night", "two stars", "focus star", "frame", "subs", "decide", "alarms", "steps"}
	s := start(t, 80, 24, func(c *ui.Config) { c.NewKit = &ui.NewKit{} })
	for _, screen := range screens {
		keys := s.model.Keys()
		named := ui.NamedKeys(&keys)
		for _, a := range kit.KeyActions() {
			if named[a.Name].Enabled() && len(a.Screens) > 0 {
				assert.Contains(t, a.Screens, screen, a.Name)
			}
		}
		s.press("tab")
	}
}

// Every name that the kit takes is one that the terminal's messages can have.
func TestTheKitsNamesOfKeysAreTheTerminals(t *testing.T) {
	sent := map[string]bool{"space": true}
	for kind := tea.KeyType(-100); kind < 128; kind++ {
		sent[tea.KeyMsg{Type: kind}.String()] = true
	}
	for _, name := range kit.KeyNames() {
		assert.True(t, sent[name], "%s is never sent", name)
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
	s.press("D", "enter").sees("the derotator is off", "f5 rewound to")
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
	s.press("?").sees("up the list")
}
