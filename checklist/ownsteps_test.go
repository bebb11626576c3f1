package checklist_test

import (
	"errors"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"duskhand/checklist"
	"duskhand/plan/kit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

var update = flag.Bool("update", false, "write the golden files anew; read the difference")

// ids returns the steps of a stage.
func ids(l checklist.List, stage checklist.Stage) []string {
	var all []string
	for _, s := range l.All() {
		if s.Stage == stage {
			all = append(all, s.ID)
		}
	}
	return all
}

func TestOwnStepsAreAddedMovedAndDropped(t *testing.T) {
	l, err := checklist.ReadOwn([]byte(`
drop = ["bias", "hand-warmers-off"]
drop_guarded = ["calibrate-guiding"]

[[add]]
id = "hand-warmers"
before = "first-rewind"
do = "Put hand warmers in for the run until {call_at}."
plain = "Put hand warmers in."
why = "Cold fingers drop screws."
loop = true

[[add]]
id = "hand-warmers-off"
after = "hand-warmers"
do = "Take them out."
why = "They burn."
[[add.guard]]
after = ["hand-warmers"]
force = "must"
say = "Put them in first."

[[move]]
id = "still-sharp"
before = "finish-sub"

[[move]]
id = "dew-heaters"
before = "caps-on"
`), "steps.toml")
	require.NoError(t, err)
	assert.Equal(t, []string{"way-is-clear", "hand-warmers", "first-rewind"}, ids(l, "rewind"))
	assert.Equal(t, []string{"start-guiding", "see-correction"}, ids(l, "guide"))
	assert.Equal(t, []string{"still-sharp", "finish-sub", "stop-guiding", "rewind-again"}, ids(l, "rewind again"))
	assert.NotContains(t, ids(l, "stow"), "bias")
	heaters, _ := l.Step("dew-heaters")
	assert.Equal(t, checklist.Stage("stow"), heaters.Stage, "a moved step joins the stage of its neighbour")
	guiding, _ := l.Step("start-guiding")
	require.Len(t, guiding.Guards, 1, "the guard that named a dropped step has fallen away")
	assert.Equal(t, []string{"first-rewind"}, guiding.Guards[0].After)
	warmers, _ := l.Step("hand-warmers")
	assert.Equal(t, "Put hand warmers in for the run until 00:31.", warmers.Sentence(map[string]string{"call_at": "00:31"}))
	assert.True(t, warmers.Loop)
}

func TestAnEmptyFileChangesNothing(t *testing.T) {
	l, err := checklist.ReadOwn(nil, "steps.toml")
	require.NoError(t, err)
	assert.Equal(t, checklist.Steps(), l)
}

func TestFaultsOfAnOwnFileAreAllToldAtOnce(t *testing.T) {
	for _, name := range []string{"faults", "dropped", "nolist", "notoml"} {
		t.Run(name, func(t *testing.T) {
			base := filepath.Join("testdata", "ownsteps", name)
			data, err := os.ReadFile(base + ".toml")
			require.NoError(t, err)
			_, err = checklist.ReadOwn(data, "steps.toml")
			var faults kit.Faults
			require.True(t, errors.As(err, &faults))
			got := err.Error() + "\n"
			if *update {
				require.NoError(t, os.WriteFile(base+".golden", []byte(got), 0o600))
			}
			want, err := os.ReadFile(base + ".golden")
			require.NoError(t, err)
			assert.Equal(t, string(want), got)
			for _, fault := range faults {
				assert.Positive(t, fault.Line, fault.Error())
			}
		})
	}
}

// A move that is accepted leaves every guard's steps before its own.
func TestAnyMoveIsRefusedOrKeepsTheGuards(t *testing.T) {
	var all []string
	for _, s := range checklist.Steps().All() {
		all = append(all, s.ID)
	}
	rapid.Check(t, func(t *rapid.T) {
		var file strings.Builder
		for range rapid.IntRange(1, 4).Draw(t, "moves") {
			file.WriteString("[[move]]\nid = \"" + rapid.SampledFrom(all).Draw(t, "id") + "\"\n" +
				rapid.SampledFrom([]string{"before", "after"}).Draw(t, "side") + " = \"" + rapid.SampledFrom(all).Draw(t, "beside") + "\"\n")
		}
		l, err := checklist.ReadOwn([]byte(file.String()), "steps.toml")
		if err != nil {
			require.Contains(t, err.Error(), "steps.toml:")
			return
		}
		seen := map[string]bool{}
		for _, s := range l.All() {
			for _, g := range s.Guards {
				for _, earlier := range g.After {
					require.True(t, seen[earlier], "%s before %s", s.ID, earlier)
				}
			}
			seen[s.ID] = true
		}
		require.Len(t, seen, len(all))
	})
}

func FuzzReadOwn(f *testing.F) {
	for _, name := range []string{"faults", "dropped", "nolist", "notoml"} {
		data, err := os.ReadFile(filepath.Join("testdata", "ownsteps", name+".toml"))
		require.NoError(f, err)
		f.Add(data)
	}
	f.Add([]byte("[[add]]\nid=\"x\"\ndo=\"X.\"\nwhy=\"x\"\nafter=\"park\"\n[[add.guard]]\nafter=[\"park\"]\nforce=\"must\"\nsay=\"x\"\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		l, err := checklist.ReadOwn(data, "steps.toml")
		if err != nil {
			var faults kit.Faults
			require.True(t, errors.As(err, &faults) && len(faults) > 0, "every refusal is told by line")
			return
		}
		night := checklist.Night{}
		for _, s := range l.State(night) {
			require.NotEmpty(t, s.Sentence(nil))
		}
		l.Next(night)
		_, ends := l.Step("end-the-runs")
		require.True(t, ends)
	})
}
