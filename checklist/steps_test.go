package checklist_test

import (
	"slices"
	"strings"
	"testing"

	"duskhand/checklist"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTheProgramsListCoversTheNight(t *testing.T) {
	perStage, seen, last := map[checklist.Stage]int{}, map[string]bool{}, 0
	for _, s := range checklist.Steps().All() {
		assert.False(t, seen[s.ID], s.ID)
		for _, g := range s.Guards {
			for _, earlier := range g.After {
				assert.True(t, seen[earlier], "%s is guarded by %s, which must come earlier", s.ID, earlier)
			}
		}
		seen[s.ID] = true
		perStage[s.Stage]++
		at := slices.Index(checklist.Stages(), s.Stage)
		assert.GreaterOrEqual(t, at, last, s.ID)
		last = at
	}
	require.Len(t, checklist.Stages(), 10) // the project's handbook, section 1
	for _, stage := range checklist.Stages() {
		assert.GreaterOrEqual(t, perStage[stage], 2, stage)
	}
}

// The dangers are those of the project's handbook, section 13; each is told where the work is done.
func TestEveryDangerIsToldWhereItThreatens(t *testing.T) {
	l := checklist.Steps()
	for _, want := range []struct{ step, says string }{
		{"same-patch", "Sun"}, {"caps-off", "blindness and fire within a second"}, {"first-star", "near the Sun"}, {"caps-on", "fire"},
		{"scopes-on", "two hands, safety screw first"}, {"pier-down", "two hands"}, {"take-down", "overhead"},
		{"power-on", "turns on its own at power-up: fingers, hair and cables clear"}, {"find-ends", "Watch the first full swing"},
		{"way-is-clear", "at every rewind"}, {"rewind-again", "fingers, hair and cables clear"},
		{"power-ready", "residual-current protection, dry connectors"}, {"power-ready", "local electrical code"},
		{"power-ready", "Lithium batteries in frost: follow the maker's limits"}, {"power-off", "local electrical code"},
		{"walk-the-ground", "Aviation law and local rules"},
		{"somebody-knows", "Cold and fatigue"}, {"drive-rested", "Cold and fatigue"},
	} {
		s, ok := l.Step(want.step)
		require.True(t, ok, want.step)
		assert.Contains(t, s.Caution, want.says, want.step)
	}
}

func TestTheOrderThatProtectsTheNightIsInTheList(t *testing.T) {
	l := checklist.Steps()
	for _, want := range []struct {
		step, after string
		must        bool
	}{
		{"find-ends", "cables-slack", true}, {"power-on", "cables-slack", true}, {"first-rewind", "cables-slack", true},
		{"calibrate-guiding", "first-rewind", false}, {"start-guiding", "first-rewind", true},
		{"start-subs", "derotator-on", true}, {"start-subs", "derotator-seen", false}, {"start-subs", "start-guiding", false},
		{"rewind-again", "stop-guiding", false}, {"rewind-again", "finish-sub", false}, {"stop-guiding", "finish-sub", false},
	} {
		s, ok := l.Step(want.step)
		require.True(t, ok, want.step)
		assert.True(t, slices.ContainsFunc(s.Guards, func(g checklist.Guard) bool {
			return g.Must == want.must && slices.Contains(g.After, want.after) && g.Say != ""
		}), "%s after %s", want.step, want.after)
	}
}

func TestASentenceHoldsTheNightsFactsOrDoesWithoutThem(t *testing.T) {
	s := checklist.Step{Do: "Rewind to {rewind_to}; it lasts {next_run}.", Plain: "Rewind."}
	assert.Equal(t, "Rewind to −16°; it lasts 1 h 52 min.", s.Sentence(map[string]string{"rewind_to": "−16°", "next_run": "1 h 52 min"}))
	assert.Equal(t, "Rewind.", s.Sentence(map[string]string{"rewind_to": "−16°"}))
	assert.Equal(t, "Rewind.", s.Sentence(nil))
	assert.Equal(t, "Rewind to {next_run}; it lasts x.", s.Sentence(map[string]string{"rewind_to": "{next_run}", "next_run": "x"}),
		"a target's name is never read as a fact")
	assert.Equal(t, "Park.", checklist.Step{Do: "Park."}.Sentence(nil))

	all := map[string]string{}
	for _, p := range checklist.Placeholders() {
		all[p.Name] = "FACT"
		assert.NotEmpty(t, p.Meaning)
	}
	used := map[string]bool{}
	for _, s := range checklist.Steps().All() {
		for _, sentence := range []string{s.Sentence(nil), s.Sentence(all)} {
			assert.True(t, strings.HasSuffix(sentence, "."), sentence)
			assert.NotContains(t, sentence, "{")
		}
		assert.NotContains(t, s.Sentence(nil), "FACT")
		for name := range all {
			used[name] = used[name] || strings.Contains(s.Do, "{"+name+"}")
		}
	}
	assert.True(t, used["start_angle"] && used["star_1"] && used["focus_star"] && used["call_at"] && used["rewind_to"])
}
