package kit_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan/kit"
)

func withKeys(lines ...string) []byte {
	return []byte(least + "\n[keys]\n" + strings.Join(lines, "\n") + "\n")
}

func TestKeysOfTheFileAndDefaultsBesideThem(t *testing.T) {
	k, err := kit.Read(withKeys(`next = ["space", "f5"]`, `derotator = "D"`, `open = "enter"`), "kit.toml")
	require.NoError(t, err)
	assert.Equal(t, []string{"space", "f5"}, k.Keys["next"])
	assert.Equal(t, []string{"D"}, k.Keys["derotator"])
	assert.Equal(t, []string{"enter"}, k.Keys["open"], "its own default may be written down, though it is reserved")
	assert.Equal(t, []string{"up", "k"}, k.Keys["up"])
	assert.Len(t, k.Keys, len(kit.KeyActions()))
}

func TestKeysThatWillNotDo(t *testing.T) {
	head := strings.Count(least, "\n") + 2 // the line of [keys]
	cases := []struct{ name, line, says string }{
		{"an unknown action", `derotater = "o"`, "keys.derotater is unknown; did you mean keys.derotator?"},
		{"a key that leaves", `next = "ctrl+c"`, `keys.next = "ctrl+c" is reserved: it leaves the program`},
		{"a key of prompts", `next = "enter"`, `keys.next = "enter" is reserved: it answers what is asked`},
		{"escape", `undo = "esc"`, `keys.undo = "esc" is reserved: it leaves what is asked`},
		{"a number of a screen", `undo = "3"`, `keys.undo = "3" is reserved: it goes to a screen`},
		{"a slip of the finger", `next = "spcae"`, `= "spcae" is no key that is known; did you mean "space"?`},
		{"a blank", `next = " "`, `write "space"`},
		{"another way to write it", `note = "Ctrl-N"`, `did you mean "ctrl+n"?`},
		{"a capital by its shift", `note = "shift+n"`, `did you mean "N"?`},
		{"a key used already", `next = "o"`, `keys.next has the key "o", and so has keys.derotator (the default)`},
		{"the same key twice", `next = ["x1", "x1"]`, `is no key that is known`},
		{"once too often", `note = ["N", "N"]`, `has the key "N" twice`},
		{"a number", `note = 3`, `keys.note = 3 is not the name of a key in double quotes`},
		{"no key at all", `note = []`, `keys.note is a list of 0, not right; give the name of a key, or a list of 1 to 6`},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := kit.Read(withKeys(c.line), "kit.toml")
			var faults kit.Faults
			require.ErrorAs(t, err, &faults)
			require.Len(t, faults, 1)
			assert.Contains(t, faults[0].Error(), c.says)
			assert.Equal(t, head+1, faults[0].Line)
		})
	}
}

func TestTwoActionsOfOneScreenCannotShareAKey(t *testing.T) {
	_, err := kit.Read(withKeys(`note = "N"`, `undo = "N"`), "kit.toml")
	var faults kit.Faults
	require.ErrorAs(t, err, &faults)
	require.Len(t, faults, 1)
	assert.Contains(t, faults[0].Error(), `keys.note has the key "N", and so has keys.undo (line `)
	_, err = kit.Read(withKeys(`mosaic = "m"`, `skip = "m"`), "kit.toml")
	assert.NoError(t, err, "one is on the screen frame, the other on steps")
	_, err = kit.Read(withKeys(`derotator = "r"`, `rewound = "o"`), "kit.toml")
	assert.NoError(t, err, "exchanged")
	_, err = kit.Read(withKeys(`derotator = "r"`, `note = "esc"`, `undo = "spcae"`), "kit.toml")
	require.ErrorAs(t, err, &faults)
	assert.Len(t, faults, 3, "all faults at once")
}

func TestWhateverKeysAreGivenNoTwoActionsShareOne(t *testing.T) {
	pool := append([]string{"a", "b", "N", "?", ".", "alt+x", "enter", "esc", "é"}, kit.KeyNames()...)
	actions := kit.KeyActions()
	rapid.Check(t, func(t *rapid.T) {
		var lines []string
		chosen := rapid.SliceOfNDistinct(rapid.IntRange(0, len(actions)-1), 0, 5, rapid.ID[int]).Draw(t, "actions")
		for _, i := range chosen {
			lines = append(lines, actions[i].Name+` = "`+rapid.SampledFrom(pool).Draw(t, "key")+`"`)
		}
		k, err := kit.Read(withKeys(lines...), "kit.toml")
		if err != nil {
			return
		}
		for _, screen := range []string{"run", "night", "two stars", "focus star", "frame", "subs", "decide", "steps", "alarms"} {
			owner := map[string]string{}
			for _, a := range actions {
				if len(a.Screens) > 0 && !slices.Contains(a.Screens, screen) {
					continue
				}
				for _, key := range k.Keys[a.Name] {
					if owner[key] != "" {
						t.Fatalf("%s: %q is of %s and %s", screen, key, owner[key], a.Name)
					}
					owner[key] = a.Name
				}
			}
		}
	})
}

func TestReferenceExplainsTheKeys(t *testing.T) {
	text := string(kit.Reference())
	assert.Contains(t, text, "## `[keys]`")
	assert.Contains(t, text, "| `next` | Say that the next thing is done. | The name of a key, or a list of 1 to 6; \"space\" if left out. | `\"space\"` |")
	assert.Contains(t, text, "| `skip` | Leave the step out, and why, on the screen steps. |")
	assert.Contains(t, text, "on every screen but run")
}
