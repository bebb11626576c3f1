package kit_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
)

func withKeys(lines ...string) []byte {
	return []byte(least + "\n[keys]\n" + strings.Join(lines, "\n") + "\n")
}

func TestKeysAreKeptAsTheFileHasThem(t *testing.T) {
	k, err := kit.Read(withKeys(`next = ["space", "f5"]`, `whatever = "D"`), "kit.toml")
	require.NoError(t, err)
	assert.Equal(t, kit.Keys{"next": {"space", "f5"}, "whatever": {"D"}}, k.Keys)
}

func TestKeysThatAreNone(t *testing.T) {
	line := strings.Count(least, "\n") + 3
	cases := []struct{ name, line, says string }{
		{"a slip of the finger", `next = "spcae"`, `= "spcae" is no key that is known; did you mean "space"?`},
		{"a blank", `next = " "`, `write "space"`},
		{"another way to write it", `note = "Ctrl-N"`, `did you mean "ctrl+n"?`},
		{"a capital by its shift", `note = "shift+n"`, `did you mean "N"?`},
		{"two characters", `next = ["x1", "x1"]`, `is no key that is known`},
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
			assert.Equal(t, line, faults[0].Line)
		})
	}
}

// Who knows the names of the section is handed it whole, with its lines; what that finds is told beside all else.
func TestTheNamesOfKeysAreCheckedByTheCaller(t *testing.T) {
	check := func(given kit.KeyTable) []kit.Fault {
		assert.Equal(t, []string{"good", "none", "odd"}, given.Names())
		assert.True(t, given.Faulty("none"))
		assert.Equal(t, []string{"x"}, given.Keys["good"])
		return []kit.Fault{given.Fault("odd", "is odd")}
	}
	_, err := kit.Read(withKeys(`good = "x"`, `odd = "y"`, `none = 3`), "kit.toml", check)
	var faults kit.Faults
	require.ErrorAs(t, err, &faults)
	line := strings.Count(least, "\n") + 3
	require.Len(t, faults, 2)
	assert.Equal(t, kit.Fault{File: "kit.toml", Line: line + 1, Key: "keys.odd", Problem: "is odd"}, faults[0])
	assert.Equal(t, line+2, faults[1].Line)
}

func TestReferenceAndTemplateShowTheRowsOfKeys(t *testing.T) {
	rows := []kit.KeyRow{{Name: "go", Help: "Goes.", Default: []string{"space"}}, {Name: "up", Help: "Rises.", Default: []string{"up", "k"}}}
	text := string(kit.Reference(rows...))
	assert.Contains(t, text, "## `[keys]`")
	assert.Contains(t, text, "| `go` | Goes. | The name of a key, or a list of 1 to 6; \"space\" if left out. | `\"space\"` |")
	template, err := kit.Template(nil, rows...)
	require.NoError(t, err)
	assert.Contains(t, string(template), "[keys]\n# Goes. The name")
	assert.Contains(t, string(template), `# up = ["up", "k"]`)
	assert.True(t, slices.Contains(strings.Split(string(template), "\n"), `# go = "space"`))
}
