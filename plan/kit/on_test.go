package kit_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
)

func TestProgramsAreBoundToEvents(t *testing.T) {
	k, err := kit.Read([]byte(least+`
[[on]]
event = "rewind-due"
command = ["notify-send", "rewind"]
[[on]]
event = "rewound"
command = ["touch", "rewound"]
[[on]]
event = "rewind-due"
command = ["lamp", "on"]
`), "kit.toml")
	require.NoError(t, err)
	assert.Equal(t, [][]string{{"notify-send", "rewind"}, {"lamp", "on"}}, k.Bound(kit.RewindDue))
	assert.Equal(t, [][]string{{"touch", "rewound"}}, k.Bound(kit.Rewound))
	assert.Empty(t, k.Bound(kit.TargetDone))
	assert.Empty(t, kit.Example().On)
}

func TestFaultsOfBoundPrograms(t *testing.T) {
	tests := []struct{ name, table, want string }{
		{"an event that is none", "[[on]]\nevent = \"dawn\"\ncommand = [\"a\"]",
			`on[1].event = "dawn" is unknown; give "limit-near" or "rewind-due" or "rewound" or "run-started" or "target-done"`},
		{"no event", "[[on]]\ncommand = [\"a\"]", "on[1].event is missing"},
		{"no command", "[[on]]\nevent = \"rewound\"", "on[1].command is missing; give a list of 1 to 20 texts"},
		{"an empty command", "[[on]]\nevent = \"rewound\"\ncommand = []", "on[1].command is a list of 0, not right"},
		{"a command line", "[[on]]\nevent = \"rewound\"\ncommand = \"touch x\"", `on[1].command = "touch x" is not right`},
		{"a program without name", "[[on]]\nevent = \"rewound\"\ncommand = [\"\"]", "has the item"},
		{"one table", "[on]\nevent = \"rewound\"\ncommand = [\"a\"]", "on is a table; write it as [[on]]"},
		{"a misspelt key", "[[on]]\nevents = \"rewound\"\ncommand = [\"a\"]", "did you mean on.event?"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := kit.Read([]byte(least+test.table+"\n"), "kit.toml")
			require.Error(t, err)
			assert.Contains(t, err.Error(), test.want)
		})
	}
}
