package command_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/ui/command"
)

func TestStepsPrintsTheChecklist(t *testing.T) {
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", "steps"))
	assert.Equal(t, string(checklist.StepsTOML()), s.out)
}

// The operator's own steps.toml beside the kit is checked with it, and used by the screens.
func TestOwnStepsBesideTheKit(t *testing.T) {
	s := newShell(t)
	s.terminal = true
	s.ownKit()
	s.write(".config/duskhand/steps.toml", "drop = [\"dew-heaters\"]\n")
	require.Equal(t, command.Done, s.run("", "kit", "check"), s.err)
	assert.Contains(t, s.out, "steps.toml is in order")
	require.Equal(t, command.Done, s.run(""), s.err)
	require.Len(t, s.shown, 1)
	_, there := s.shown[0].Steps.Step("dew-heaters")
	assert.False(t, there, "the step is dropped")

	s.write(".config/duskhand/steps.toml", "drop = [\"dew-heater\"]\n")
	assert.Equal(t, command.Failed, s.run("", "kit", "check"))
	assert.Contains(t, s.err, "steps.toml:1")
	assert.Contains(t, s.err, "dew-heaters", "the nearest step is named")
	assert.Equal(t, command.Failed, s.run(""), "the screens don't open with a faulty checklist")
}
