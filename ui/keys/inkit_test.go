package keys_test

import (
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan/kit"
	"duskhand/ui/keys"
)

// reading reads the example's kit with a section of keys below it.
func reading(lines ...string) (kit.Kit, kit.Faults) {
	text := string(kit.ExampleTOML()) + "\n[keys]\n" + strings.Join(lines, "\n") + "\n"
	k, err := kit.Read([]byte(text), "kit.toml", keys.Check)
	faults, _ := err.(kit.Faults)
	return k, faults
}

func TestKeysOfTheFileStandBesideDefaults(t *testing.T) {
	k, faults := reading(`next = ["space", "f5"]`, `derotator = "D"`, `open = "enter"`)
	require.Empty(t, faults, "its own default may be written down, though it is reserved")
	table := keys.New(k.Keys)
	assert.Equal(t, []string{"space", "f5"}, table.Of(keys.Next).Keys)
	assert.Equal(t, "D", table.Shown(keys.Derotator))
	assert.Equal(t, []string{"up", "k"}, table.Of(keys.Up).Keys)
}

func TestKeysThatWillNotDo(t *testing.T) {
	line := strings.Count(string(kit.ExampleTOML()), "\n") + 3
	cases := []struct{ name, line, says string }{
		{"an unknown action", `derotater = "o"`, "keys.derotater is unknown; did you mean keys.derotator?"},
		{"one like no other", `zzzzzz = "o"`, "keys.zzzzzz is unknown; [keys] takes next, derotator, "},
		{"a key that leaves", `next = "ctrl+c"`, `keys.next = "ctrl+c" is reserved: it leaves the program`},
		{"a key that suspends", `next = "ctrl+z"`, `keys.next = "ctrl+z" is reserved: it suspends the program`},
		{"a key of prompts", `next = "enter"`, `keys.next = "enter" is reserved: it answers what is asked`},
		{"escape", `undo = "esc"`, `keys.undo = "esc" is reserved: it leaves what is asked`},
		{"a number of a screen", `undo = "3"`, `keys.undo = "3" is reserved: it goes to a screen`},
		{"the keys of screens by number", `number = "N"`, "keys.number is unknown"},
		{"a key used already", `next = "o"`, `keys.next has the key "o", and so has keys.derotator (the default)`},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, faults := reading(c.line)
			require.Len(t, faults, 1)
			assert.Contains(t, faults[0].Error(), c.says)
			assert.Equal(t, line, faults[0].Line)
			assert.Equal(t, "kit.toml", faults[0].File)
		})
	}
}

func TestTwoActionsOfOneScreenCannotShareAKey(t *testing.T) {
	_, faults := reading(`note = "N"`, `undo = "N"`)
	require.Len(t, faults, 1)
	assert.Contains(t, faults[0].Error(), `keys.note has the key "N", and so has keys.undo (line `)
	_, faults = reading(`mosaic = "m"`, `skip = "m"`)
	assert.Empty(t, faults, "one is on the screen frame, the other on steps")
	_, faults = reading(`derotator = "r"`, `rewound = "o"`)
	assert.Empty(t, faults, "exchanged")
	_, faults = reading(`derotator = "r"`, `note = "esc"`, `undo = "spcae"`)
	assert.Len(t, faults, 3, "all faults at once")
}

func TestWhateverKeysAreGivenNoTwoActionsShareOne(t *testing.T) {
	pool := append([]string{"a", "b", "N", "?", ".", "alt+x", "enter", "esc", "é"}, kit.KeyNames()...)
	rows := keys.KitRows()
	rapid.Check(t, func(t *rapid.T) {
		var lines []string
		chosen := rapid.SliceOfNDistinct(rapid.IntRange(0, len(rows)-1), 0, 5, rapid.ID[int]).Draw(t, "actions")
		for _, i := range chosen {
			lines = append(lines, rows[i].Name+` = "`+rapid.SampledFrom(pool).Draw(t, "key")+`"`)
		}
		k, faults := reading(lines...)
		if len(faults) > 0 {
			return
		}
		table := keys.New(k.Keys)
		for screen := range keys.ScreenCount {
			owner := map[string]keys.Action{}
			for _, b := range table.In(everything(screen)).All() {
				for _, name := range b.Keys {
					if b.Possible && owner[name] != "" {
						t.Fatalf("%s: %q is of %s and %s", screen, name, owner[name], b.Action)
					}
					if b.Possible {
						owner[name] = b.Action
					}
				}
			}
		}
	})
}

// everything is a state in which all is possible that ever is on a screen.
func everything(s keys.Screen) keys.State {
	return keys.State{Screen: s, Read: true, Writes: true, Offers: true, On: true, Subs: true, Targets: 2, Undoable: true,
		Redoable: true, NewKit: true, Steps: true, Chosen: true, Air: true, Draft: true, Elsewhere: true}
}

func TestEveryRowIsWhole(t *testing.T) {
	seen, places := map[keys.Action]bool{}, map[int]bool{}
	for _, r := range keys.Rows() {
		require.NotEmpty(t, r.Action)
		require.NotEmpty(t, r.Keys, r.Action)
		require.NotEmpty(t, r.Help, r.Action)
		require.NotNil(t, r.When, r.Action)
		require.False(t, seen[r.Action], "%s stands in two rows", r.Action)
		require.False(t, r.Place > 0 && places[r.Place], "%s stands where another does in the footer", r.Action)
		seen[r.Action], places[r.Place] = true, true
		possible := false
		for screen := range keys.ScreenCount {
			possible = possible || keys.New(nil).In(everything(screen)).Of(r.Action).Possible
		}
		assert.True(t, possible, "%s can never be pressed", r.Action)
	}
}

func TestTheReferenceSaysWhereAKeyHolds(t *testing.T) {
	help := map[string]string{}
	for _, r := range keys.KitRows() {
		help[r.Name] = r.Help
	}
	assert.Equal(t, "Say that the next thing is done.", help["next"])
	assert.Equal(t, "Leave the step out, and why, on the screen steps.", help["skip"])
	assert.Equal(t, "Temperature, by the thermometer, on the screen focus star and decide.", help["temperature"])
	assert.Equal(t, "Down the list, or the frame down, on every screen but run.", help["down"])
	assert.NotContains(t, help, "number")
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

func TestCtrlCLeavesWhateverTheKitSays(t *testing.T) {
	table := keys.New(kit.Keys{"quit": {"Q"}}).In(keys.State{})
	action, ok := table.Action(tea.KeyMsg{Type: tea.KeyCtrlC})
	assert.True(t, ok)
	assert.Equal(t, keys.Quit, action)
	_, ok = table.Action(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("q")})
	assert.False(t, ok)
}
