package ui_test

import (
	"errors"
	"path/filepath"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/ui"
	"duskhand/ui/draw"
	"duskhand/ui/form"
	"duskhand/ui/testdata/clocks"
	"duskhand/ui/theme"
)

// newcomer opens the example as somebody who has no kit yet.
type newcomer struct {
	*session
	world   time.Time
	answers map[string]string
	typed   map[string]string // on the disk
	opened  error

	unreadable error // what was typed before
}

func begin(t *testing.T, width, height int) *newcomer {
	t.Helper()
	n := &newcomer{session: &session{t: t, now: opened}, world: time.Date(2026, 11, 24, 8, 0, 0, 0, time.UTC)}
	startWith(n.session, width, height, func(c *ui.Config) {
		c.NewKit = &ui.NewKit{Config: form.Config{
			Zone: "Australia/Broken_Hill", Now: func() time.Time { return n.world },
			Keep: func(typed map[string]string) error { n.typed = typed; return nil },
			Typed: func() (map[string]string, error) {
				if n.typed == nil && n.unreadable == nil {
					return map[string]string{}, nil
				}
				return n.typed, n.unreadable
			},
			Write: func(answers map[string]string) (string, error) { n.answers = answers; return "kit.toml", nil },
		}, Open: func(string) (ui.Config, error) {
			data, err := kit.Template(n.answers)
			require.NoError(t, err)
			k, err := kit.Read(data, "kit.toml")
			require.NoError(t, err)
			return ui.Config{Kit: k, Clock: clocks.Led(func() time.Time { return n.world }), Palette: theme.Night, Profile: c.Profile, Out: c.Out,
				JournalPath: filepath.Join(t.TempDir(), "journal.db")}, n.opened
		},
		}
	})
	return n
}

// fill answers every question of the form that shows.
// What can't be read, nor set aside, is not written over.
func TestWhatCannotBeReadIsNotWrittenOver(t *testing.T) {
	n := begin(t, 80, 24)
	n.unreadable = errors.New("what was typed before can't be read")
	n.press("K").sees("can't be read").press("x").sees("x_")
	assert.Nil(t, n.typed)
	n.press("esc", "q")
	assert.True(t, n.quit)
}

func (n *newcomer) fill() *newcomer {
	for _, text := range []string{"Dry Lake", "31°57'S 141°30'E", "", "80", "480", "3.76", "6248", "4176", "-16", "16", "ends", "120", "0.5", "", "", "", "L 60 120,R,G,B 120 40", "NGC 253"} {
		n.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(text), Paste: true})
		n.press("enter")
	}
	return n
}

func TestTheExampleOffersAKitOfOnesOwn(t *testing.T) {
	n := begin(t, 80, 24)
	n.sees("EXAMPLE NIGHT", "K: make a kit of your own", "until the rewind")
	n.press("?").press("down", "down", "down", "down", "down", "down", "down", "down", "down", "down").
		sees("make a kit of your own").press("?")
	n.seesNot("K: make")
	start(t, 80, 24, nil).seesNot("K: make").press("K").sees("EXAMPLE NIGHT")
}

func TestAKitOfOnesOwnIsMadeAndTheNightGoesOnWithIt(t *testing.T) {
	n := begin(t, 80, 24)
	n.press("K").sees("A kit of your own", "14 answers are open")
	n.fill().sees("complete: ctrl+s writes it")
	n.send(tea.KeyMsg{Type: tea.KeyCtrlS})
	n.seesNot("EXAMPLE", "REPLAY").sees("Dry Lake", "18:30:00 ACDT", "NGC 253", "of this stage left")
	assert.Equal(t, "ends", n.answers["derotator.stops"])
	n.press("K").seesNot("A kit of your own")
	n.world = n.world.Add(time.Second)
	n.send(n.model.Tick())
	n.sees("18:30:01 ACDT")
	require.NoError(t, n.model.Close())
}

func TestLeavingTheFormLosesNothing(t *testing.T) {
	n := begin(t, 80, 24)
	n.press("K", "q", "o", "?").sees("qo?").press("esc").sees("EXAMPLE NIGHT", "until the rewind").seesNot("qo?")
	n.press("K").sees("qo?")
	n.press("ctrl+c").sees("EXAMPLE NIGHT")
	assert.False(t, n.quit)
	n.press("q")
	assert.True(t, n.quit)
}

func TestWhatWasTypedComesBackAnotherEvening(t *testing.T) {
	first := begin(t, 80, 24)
	first.press("K", "S", "a", "l", "t", "esc", "q")
	assert.True(t, first.quit)
	next := begin(t, 80, 24)
	next.typed = first.typed
	next.press("K").sees("Salt", "13 answers are open")
	damaged := begin(t, 80, 24)
	damaged.unreadable = errors.New("what was typed before can't be understood")
	damaged.press("K").sees("what was typed before can't be understood", "14 answers are open")
}

// Leaving waits for what is on its way to the disk, and a second time does not.
func TestLeavingWaitsForWhatWasTyped(t *testing.T) {
	n := begin(t, 80, 24)
	n.press("K")
	keep := n.hold(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("S")})
	n.press("esc", "q")
	assert.False(t, n.quit)
	n.carryOut(keep)
	assert.True(t, n.quit)
	assert.Equal(t, map[string]string{"site.name": "S"}, n.typed)
}

func TestAKitThatCannotBeOpenedIsToldInTheForm(t *testing.T) {
	n := begin(t, 80, 24)
	n.opened = errors.New("steps.toml:3: step is unknown")
	n.press("K")
	n.fill().send(tea.KeyMsg{Type: tea.KeyCtrlS})
	n.sees("steps.toml:3: step is unknown", "Dry Lake")
	n.press("esc").sees("EXAMPLE NIGHT")
}

// The offer may take nothing away that a screen needs.
func TestTheOfferKeepsTheRulesOfScreens(t *testing.T) {
	n := begin(t, 80, 24)
	for _, size := range [][2]int{{120, 40}, {80, 24}, {60, 20}, {40, 12}, {20, 5}, {8, 2}} {
		n.send(tea.WindowSizeMsg{Width: size[0], Height: size[1]})
		keepsTheRules(t, n.model.View(), size[0], size[1], theme.Night, draw.Unicode)
		if size[0] >= 40 {
			n.sees("until the rewind", "K: make a kit")
		}
	}
}

func TestTheFormFitsEveryWindow(t *testing.T) {
	n := begin(t, 80, 24)
	n.press("K")
	n.fill()
	for _, size := range [][2]int{{80, 24}, {60, 20}, {20, 5}, {3, 1}} {
		n.send(tea.WindowSizeMsg{Width: size[0], Height: size[1]})
		assert.NotEmpty(t, n.model.View())
	}
}

// A new user's own night with four filters and a zone that is typed: from K to the night's steps, each key counted. The
// site's name is left to the place.
func TestFewKeysLeadToOnesOwnNight(t *testing.T) {
	n := begin(t, 80, 24)
	presses := 0
	press := func(msg tea.KeyMsg) { n.send(msg); presses++ }
	press(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("K")})
	for i, text := range []string{"", "-31.95 141.5", "Australia/Broken_Hill", "80", "480", "3.76", "6248", "4176", "-16", "", "e", "120", ".5",
		"", "", "", "L 60 120,R,G,B 120 40", "M 42"} {
		if i > 0 {
			press(tea.KeyMsg{Type: tea.KeyEnter})
		}
		for _, r := range text {
			press(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}})
		}
	}
	press(tea.KeyMsg{Type: tea.KeyCtrlS})
	n.sees("31°57′ south, 141°30′ east", "of this stage left", "M 42, Orion Nebula")
	t.Logf("%d presses", presses)
	assert.LessOrEqual(t, presses, 110)
}
