package checklist_test

import (
	"encoding/json"
	"testing"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/journal"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// anyStepAction draws an action of the checklist, often the next one, or any other of the night.
func anyStepAction(t *rapid.T, l checklist.List, n checklist.Night) checklist.Action {
	id := rapid.SampledFrom(l.All()).Draw(t, "step").ID
	if next, ok := l.Next(n); ok && rapid.Bool().Draw(t, "next") {
		id = next.ID
	}
	if rapid.Bool().Draw(t, "other") {
		return anyAction(t)
	}
	return rapid.SampledFrom([]checklist.Action{checklist.DoStep{Step: id}, checklist.SkipStep{Step: id, Reason: "x"},
		checklist.FailStep{Step: id, Note: "x"}}).Draw(t, "of the step")
}

func TestInvariantsOfTheChecklistInAnyNight(t *testing.T) {
	l := checklist.Steps()
	rapid.Check(t, func(t *rapid.T) {
		var events []journal.Event
		n, at := checklist.Night{}, dusk
		for range rapid.IntRange(1, 60).Draw(t, "length") {
			at = at.Add(time.Duration(rapid.IntRange(-5, 30).Draw(t, "minutes")) * time.Minute)
			action := anyStepAction(t, l, n)
			warnings := l.Warnings(n, action)
			kind, body, err := l.Say(n, action, adelaide)
			if err != nil {
				require.NotEmpty(t, err.Error())
				require.Empty(t, warnings)
				continue
			}
			text, err := json.Marshal(body)
			require.NoError(t, err)
			events = append(events, journal.Event{Ordinal: int64(len(events) + 1), Night: "2026-12-05", At: at, Kind: kind, Body: text})
			before := l.State(n)
			loop := n.Loop()
			n = n.Next(events[len(events)-1])
			require.Equal(t, checklist.Fold(events), n)
			checkSaid(t, l, n, action, before)
			checkSteps(t, l, n)
			switch kind {
			case checklist.KindUndone, checklist.KindRewound, checklist.KindTargetChosen, checklist.KindDerotatorOn:
				require.LessOrEqual(t, n.Loop(), loop+1)
			default:
				require.Equal(t, loop, n.Loop(), "%s reopens no loop", kind)
			}
		}
	})
}

// checkSaid demands that what was accepted is so, and that no must was broken.
func checkSaid(t *rapid.T, l checklist.List, n checklist.Night, a checklist.Action, before []checklist.StepState) {
	want := map[string]checklist.State{}
	switch a := a.(type) {
	case checklist.DoStep:
		want[a.Step] = checklist.Done
	case checklist.SkipStep:
		want[a.Step] = checklist.Skipped
	case checklist.FailStep:
		want[a.Step] = checklist.Failed
		if a.Step == "start-guiding" && n.Guiding.On { // its star is lost, and the step comes again
			for _, s := range l.State(n) {
				require.True(t, s.ID != a.Step || s.Waiting(), "%s is %s", s.ID, s.State)
			}
			return
		}
	}
	for i, s := range l.State(n) {
		state, said := want[s.ID]
		if !said {
			continue
		}
		require.Equal(t, state, s.State, s.ID)
		for _, g := range before[i].Unmet {
			require.False(t, g.Must && state == checklist.Done, "%s was done against: %s", s.ID, g.Say)
		}
	}
}

func checkSteps(t *rapid.T, l checklist.List, n checklist.Night) {
	open, all := 0, l.State(n)
	require.Len(t, all, len(l.All()))
	for _, s := range all {
		if s.Waiting() {
			open++
		}
		require.True(t, s.State == checklist.Over || s.Waiting() || s.By != "", "%s is %s by nothing", s.ID, s.State)
		require.Equal(t, s.State == checklist.Skipped || s.State == checklist.Failed, s.Text != "", s.ID)
		require.False(t, s.State == checklist.Over && !s.Loop && !s.Reopened, s.ID)
	}
	for _, stage := range l.StageStates(n) {
		open -= stage.Open
	}
	require.Zero(t, open, "stages count every open step once")
	next, ok := l.Next(n)
	require.False(t, ok && next.Settled(), "%s is next and %s", next.ID, next.State)
	require.NotEmpty(t, l.Stage(n))
	for _, s := range l.Left(n) {
		require.Contains(t, []checklist.State{checklist.Skipped, checklist.Failed}, s.State)
	}
}

// A night in which the operator always does what is next comes to its end.
func TestFollowingTheNextStepEndsTheNight(t *testing.T) {
	l := checklist.Steps()
	rapid.Check(t, func(t *rapid.T) {
		n, rewinds, ordinal := checklist.Night{}, rapid.IntRange(0, 4).Draw(t, "rewinds"), int64(0)
		for {
			next, ok := l.Next(n)
			if !ok {
				break
			}
			var action checklist.Action = checklist.DoStep{Step: next.ID}
			switch next.ID {
			case "choose-target":
				action = checklist.ChooseTarget{Target: tarantula}
			case "first-rewind":
				action = checklist.Rewound{To: *deg(-16)}
			case "derotator-on":
				action = checklist.TurnOn{}
			case "start-subs":
				action = checklist.StartSubs{}
			case "watch":
				action = checklist.StopSubs{}
			case "rewind-again":
				action = checklist.TurnOff{}
				if rewinds > 0 {
					rewinds, action = rewinds-1, checklist.Rewound{To: *deg(-16)}
				}
			}
			kind, body, err := l.Say(n, action, adelaide)
			require.NoError(t, err, next.ID)
			text, err := json.Marshal(body)
			require.NoError(t, err)
			ordinal++
			require.Less(t, ordinal, int64(120))
			n = n.Next(journal.Event{Ordinal: ordinal, At: minute(int(ordinal)), Kind: kind, Body: text})
		}
		for _, s := range l.State(n) {
			require.True(t, s.Settled(), "%s is %s", s.ID, s.State)
		}
	})
}
