package facts_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/ui/facts"
)

func chosen(target kit.Target) checklist.ChooseTarget {
	return checklist.ChooseTarget{Target: checklist.Target{Name: target.Name, Star: target.Star}}
}

// A run is its target's until it ends, whoever's turn it is by then, chosen or not.
func TestHandOverDoesNotChangeTheTargetOfARun(t *testing.T) {
	for _, c := range []struct {
		name    string
		chooses bool
	}{{"the choice is said before", true}, {"a journal without a choice", false}} {
		t.Run(c.name, func(t *testing.T) {
			n := &night{t: t, kit: sharedKit()}
			r := n.at(dusk)
			next := r.Shared()[1]
			on := checklist.TurnOn{Angle: degrees(-16)}
			choice, ok := r.ChoiceBefore(on)
			require.True(t, ok)
			assert.Equal(t, r.Shared()[0].Target.Name, choice.Target.Name)
			if c.chooses {
				n.at(dusk, choice)
			}
			before := n.at(dusk, on, checklist.StartSubs{})
			_, ok = before.ChoiceBefore(checklist.StopSubs{})
			assert.False(t, ok)
			_, ok = before.ChoiceBefore(checklist.StartSubs{})
			assert.False(t, ok, "a run has its target")
			after := n.at(next.Ready.Add(time.Minute))
			assert.Equal(t, before.Target.Name, after.Target.Name)
			assert.Equal(t, before.Target.Name, after.Past()[0].Target)
			assert.Equal(t, before.Past()[0].CameraAngle, after.Past()[0].CameraAngle)
			if c.chooses {
				assert.Equal(t, before.Target.Name, n.log.Runs[0].Target.Name, "the record has it")
			}
		})
	}
}

func TestWhatSaysTheTargetFirst(t *testing.T) {
	n := &night{t: t, kit: sharedKit()}
	off := n.at(dusk)
	for _, c := range []struct {
		name   string
		action checklist.Action
		want   bool
	}{
		{"on", checklist.TurnOn{}, true}, {"rewound", checklist.Rewound{}, true}, {"subs", checklist.StartSubs{}, true},
		{"read while it is off", checklist.Read{}, false}, {"a note", checklist.WriteNote{Text: "x"}, false},
	} {
		_, ok := off.ChoiceBefore(c.action)
		assert.Equal(t, c.want, ok, c.name)
	}
	adrift := n.at(dusk, checklist.TurnOn{})
	_, ok := adrift.ChoiceBefore(checklist.Read{})
	assert.True(t, ok, "tracking begins with the reading")
	alone := &night{t: t, kit: kit.Example()}
	_, ok = alone.at(dusk).ChoiceBefore(checklist.TurnOn{})
	assert.False(t, ok, "the night is not divided")
}

// Both ways out of turn: the second target from dusk on, and the first again in the second's turn. Its limit is
// called as in any night, and the division does not call it away.
func TestTargetChosenOutsideItsTurn(t *testing.T) {
	shared := facts.For(sharedKit(), exampleDate, checklist.Night{}, dusk, nil).Shared()
	early, late := shared[1].From.Add(-3*time.Hour), shared[1].Ready.Add(30*time.Minute)
	for _, c := range []struct {
		name   string
		target kit.Target
		at     time.Time
	}{{"before its turn", shared[1].Target, early}, {"after its turn", shared[0].Target, late}} {
		t.Run(c.name, func(t *testing.T) {
			n := &night{t: t, kit: sharedKit()}
			r := n.at(c.at, chosen(c.target))
			require.True(t, r.RewindNow().OK)
			start := n.kit.Derotator.Max - 5*sky.Degree // near the limit that it goes to
			if r.Rate < 0 {
				start = n.kit.Derotator.Min + 5*sky.Degree
			}
			alone := sharedKit()
			for i := range alone.Targets {
				alone.Targets[i].Share = 0
			}
			whole := &night{t: t, kit: alone}
			whole.at(c.at, chosen(c.target))
			want := whole.at(c.at.Add(time.Minute), checklist.TurnOn{Angle: &start}, checklist.StartSubs{})
			r = n.at(c.at.Add(time.Minute), checklist.TurnOn{Angle: &start}, checklist.StartSubs{})
			assert.Equal(t, want.Windows, r.Windows, "as if the night were not divided")
			assert.Equal(t, advice.Wait, r.Advice().Do)
			assert.False(t, r.Unusable())
			assert.Equal(t, want.Call.At, r.Call.At)
			assert.Equal(t, want.SubsLeft(), r.SubsLeft(), "nothing is left for the other")
			_, ok := r.HandOver()
			assert.False(t, ok)
			require.True(t, r.Call.Limit.At.OK)
			assert.Equal(t, advice.StopSubs, n.tonight.At(r.Call.Limit.At.At).Advice().Do)
			again := facts.For(n.kit, date, n.log, r.Now, nil)
			assert.Equal(t, r.Windows, again.Windows, "from the journal alone too")
		})
	}
}

// What is still to come is counted for all targets, and none of it twice.
func TestSuppliesOfADividedNightAreForAllItsTargets(t *testing.T) {
	n := &night{t: t, kit: sharedKit()}
	r := n.at(dusk.Add(-time.Hour))
	want := 0
	for _, s := range r.Shared() {
		for _, run := range s.Runs.Runs {
			want += len(run.Subs)
		}
		turn, ok := r.TurnOf(s.Target.Name)
		require.True(t, ok)
		assert.InDelta(t, s.Exposed.Hours(), turn.Working.Hours(), 0.35, "overheads and dithers are some per cent")
	}
	assert.InDelta(t, want, r.SuppliesAt(facts.Disk{}).Data.Subs, 3, "the first run may be planned a sub or two otherwise")
	first, second := r.Shared()[0], r.Shared()[1]
	n.at(dusk, chosen(first.Target))
	over := n.at(second.From.Add(time.Second))
	assert.True(t, over.IsOver())
	turn, ok := over.TurnOf(second.Target.Name)
	require.True(t, ok)
	assert.Equal(t, turn.Subs, over.SuppliesAt(facts.Disk{}).Data.Subs, "while it is not chosen yet")
	_, ok = over.TurnOf(first.Target.Name)
	assert.False(t, ok)
}

// What was taken before any choice stays the kit's first target's, when the next is chosen.
func TestARunBeforeAnyChoiceStaysTheFirstTargets(t *testing.T) {
	n := &night{t: t, kit: kit.Example()}
	n.at(dusk, checklist.TurnOn{Angle: degrees(-16)}, checklist.StartSubs{})
	before := n.at(dusk.Add(30*time.Minute), checklist.StopSubs{})
	after := n.at(dusk.Add(40*time.Minute), chosen(n.kit.Targets[1]))
	assert.Equal(t, n.kit.Targets[0].Name, after.Past()[0].Target)
	assert.Equal(t, before.Past()[0].CameraAngle, after.Past()[0].CameraAngle)
	assert.Equal(t, before.Past()[0].Subs, after.Past()[0].Subs)
	for _, count := range after.Counts {
		assert.Zero(t, count.Taken, "the second has none yet")
	}
}
