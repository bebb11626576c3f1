package checklist_test

import (
	"slices"
	"testing"

	"duskhand/checklist"
	"duskhand/sky"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// running is a night whose first run goes on, by the book from the cables on.
func running(t *testing.T) *story {
	return begin(t).told(0, checklist.ChooseTarget{Target: tarantula}).done(1, "cables-slack", "find-ends", "go-to-target", "frame-it").
		told(2, checklist.Rewound{To: *deg(-16)}).done(3, "calibrate-guiding", "start-guiding").
		told(4, checklist.TurnOn{}).done(5, "derotator-seen").told(6, checklist.StartSubs{Filter: "L"})
}

func TestTheListIsGoneThroughInOrder(t *testing.T) {
	s := begin(t)
	l := checklist.Steps()
	visited := map[checklist.Stage]bool{}
	says := map[string]checklist.Action{
		"choose-target": checklist.ChooseTarget{Target: tarantula}, "first-rewind": checklist.Rewound{To: *deg(-16)},
		"derotator-on": checklist.TurnOn{}, "start-subs": checklist.StartSubs{}, "watch": checklist.StopSubs{},
		"rewind-again": checklist.TurnOff{}, // the last run: no other rewind is made
	}
	var order []string
	for at := 0; ; at++ {
		next, ok := l.Next(s.night)
		if !ok {
			break
		}
		require.Less(t, at, 60, "the night comes to its end")
		order = append(order, next.ID)
		visited[next.Stage] = true
		assert.Equal(t, next.Stage, l.Stage(s.night))
		action := says[next.ID]
		if action == nil {
			action = checklist.DoStep{Step: next.ID}
		}
		s.quiet(action)
		s.told(at, action)
	}
	assert.Len(t, visited, 10)
	var want []string
	for _, step := range l.All() {
		if step.ID != "see-correction" && step.ID != "finish-sub" && step.ID != "end-the-runs" { // by the same events as start-guiding, watch and rewind-again here
			want = append(want, step.ID)
		}
	}
	assert.Equal(t, want, order)
	assert.Equal(t, checklist.Stage("stow"), l.Stage(s.night))
	assert.Equal(t, checklist.Over, s.state("rewind-again").State)
	assert.Empty(t, l.Left(s.night))
}

func TestTheLoopComesUpAfterEachRewind(t *testing.T) {
	s := running(t)
	require.Equal(t, 1, s.night.Loop())
	for run := 1; run <= 3; run++ {
		at := run * 100
		assert.Equal(t, "first-sub-good", s.next())
		s.done(at, "first-sub-good")
		assert.Equal(t, "watch", s.next())
		assert.Equal(t, checklist.Stage("run"), checklist.Steps().Stage(s.night))
		s.told(at+1, checklist.StopSubs{})
		assert.Equal(t, "stop-guiding", s.next())
		s.done(at+2, "stop-guiding")
		s.told(at+3, checklist.SkipStep{Step: "still-sharp", Reason: "carbon tube"})
		assert.Equal(t, "rewind-again", s.next())
		s.told(at+4, checklist.Rewound{From: deg(15), To: *deg(-16)})
		assert.Equal(t, run+1, s.night.Loop())
		assert.Equal(t, "start-guiding", s.next())
		assert.Equal(t, checklist.Open, s.state("start-guiding").State)
		assert.Equal(t, checklist.Done, s.state("calibrate-guiding").State, "whether it still holds is seen when guiding starts")
		s.done(at+5, "start-guiding")
		assert.Equal(t, "derotator-seen", s.next())
		s.done(at+6, "derotator-seen").told(at+7, checklist.StartSubs{Filter: "L"})
	}
	for run := 1; run <= 3; run++ { // what was done in earlier runs stays told
		for _, step := range checklist.Steps().InLoop(s.night, run) {
			switch step.ID {
			case "still-sharp":
				assert.Equal(t, checklist.Skipped, step.State)
				assert.Equal(t, "carbon tube", step.Text)
			case "rewind-again":
				assert.Equal(t, checklist.Done, step.State)
				assert.Equal(t, checklist.KindRewound, step.By)
				assert.Equal(t, minute(run*100+4), step.At)
			default:
				assert.Equal(t, checklist.Done, step.State, "%s in run %d", step.ID, run)
			}
		}
	}
}

func TestTheRewindBeforeTheFirstRunIsNotTheOneThatEndsIt(t *testing.T) {
	s := begin(t).told(0, checklist.Rewound{To: *deg(-16)}).told(1, checklist.Rewound{To: *deg(-15)})
	assert.Equal(t, 1, s.night.Loop())
	assert.Equal(t, checklist.Open, s.state("rewind-again").State)
	assert.Equal(t, checklist.Done, s.state("first-rewind").State)
}

func TestTurningOffAndOnAgainBeginsAnotherLoop(t *testing.T) {
	s := running(t).told(60, checklist.TurnOff{})
	assert.Equal(t, checklist.Over, s.state("rewind-again").State)
	assert.Equal(t, checklist.Stage("stow"), checklist.Steps().Stage(s.night))
	s.told(70, checklist.TurnOn{Angle: deg(-16)})
	assert.Equal(t, 2, s.night.Loop())
	assert.Equal(t, "start-guiding", s.next(), "the night goes on")
}

func TestARewindWhileOffAndTheTurningOnAfterItAreOneLoop(t *testing.T) {
	s := running(t).told(60, checklist.TurnOff{}).told(65, checklist.Rewound{To: *deg(-16)})
	assert.Equal(t, 2, s.night.Loop())
	s.done(66, "start-guiding").told(67, checklist.TurnOn{})
	assert.Equal(t, 2, s.night.Loop())
	assert.Equal(t, checklist.Done, s.state("start-guiding").State)
}

func TestEventsOfOtherScreensProveTheirSteps(t *testing.T) {
	sight := func(name string) checklist.Action {
		return checklist.Sighted{Name: name, Readout: sky.Horizontal{Altitude: 40 * sky.Degree, Azimuth: 120 * sky.Degree}}
	}
	s := begin(t).told(0, checklist.MeasureAxis{Tilt: 1 * sky.Degree}).told(1, sight("Achernar")).told(2, sight("Achernar"))
	assert.Equal(t, checklist.Done, s.state("axis-lean").State)
	assert.Equal(t, checklist.KindAxisMeasured, s.state("axis-lean").By)
	assert.Equal(t, checklist.Done, s.state("first-star").State)
	assert.Equal(t, checklist.Open, s.state("second-star").State, "the same star again is no second one")
	s.told(3, sight("Canopus")).told(4, checklist.FocusNow{})
	for _, step := range []string{"second-star", "focus-main", "focus-guide", "focus-told"} {
		assert.Equal(t, checklist.Done, s.state(step).State, step)
	}
	r := running(t).told(70, checklist.StopSubs{}).told(71, checklist.ReadTemperature{TempC: 4})
	assert.Equal(t, checklist.Done, r.state("still-sharp").State)
}

func TestOnePastHasSeveralFutures(t *testing.T) {
	for length := 1; length < 9; length++ {
		s := begin(t)
		for at := range length {
			s.told(at, checklist.FailStep{Step: "balance", Note: "x"})
		}
		futures := []*story{}
		for _, step := range []string{"park", "bias"} {
			future := &story{t: t, events: slices.Clone(s.events), night: s.night}
			futures = append(futures, future.done(20, step))
		}
		assert.Equal(t, checklist.Done, futures[0].state("park").State)
		assert.Equal(t, checklist.Open, futures[0].state("bias").State)
	}
}

func TestWhatMustComeFirstIsAskedForEvenIfItNoLongerWas(t *testing.T) {
	l, err := checklist.ReadOwn([]byte(`
[[add]]
id = "one"
after = "sequence-set"
do = "One."
why = "x"
[[add]]
id = "two"
after = "one"
do = "Two."
why = "x"
[[add.guard]]
after = ["one"]
force = "must"
say = "One first."
[[add]]
id = "three"
after = "two"
do = "Three."
why = "x"
loop = true
[[add.guard]]
after = ["two"]
force = "must"
say = "Two first."
`), "steps.toml")
	require.NoError(t, err)
	next, ok := l.Next(running(t).night)
	require.True(t, ok)
	assert.Equal(t, "one", next.ID)
	assert.Equal(t, checklist.Open, next.State)
}

func TestAFilterChangeOrAPauseEndsNoRun(t *testing.T) {
	s := running(t).told(30, checklist.StartSubs{Filter: "R"}).done(31, "first-sub-good")
	assert.Equal(t, "watch", s.next())
	s.told(40, checklist.StopSubs{}).told(50, checklist.StartSubs{Filter: "R"})
	assert.Equal(t, "watch", s.next())
	assert.Equal(t, checklist.Open, s.state("finish-sub").State)
	assert.Equal(t, 1, s.night.Loop())
}

func TestAnotherTargetIsFramedAgain(t *testing.T) {
	s := running(t).told(60, checklist.StopSubs{}).told(61, checklist.ChooseTarget{Target: orion, Angle: deg(3)})
	assert.Equal(t, "go-to-target", s.next())
	assert.True(t, s.state("frame-it").Reopened)
	assert.Equal(t, 2, s.night.Loop())
	s.done(62, "go-to-target", "frame-it", "way-is-clear")
	assert.Equal(t, "start-guiding", s.next(), "whether the stage is turned first the advice says, by what that buys")
	s.told(63, checklist.Rewound{To: *deg(-10)})
	assert.Equal(t, "start-guiding", s.next())
}

func TestWhatWasLeftOpenDoesNotNagDuringTheRuns(t *testing.T) {
	s := begin(t).told(0, checklist.TurnOn{Angle: deg(-16)})
	assert.Equal(t, "sky-promises", s.next())
	s.told(1, checklist.StartSubs{})
	assert.Equal(t, "start-guiding", s.next())
	states := checklist.Steps().StageStates(s.night)
	assert.Equal(t, checklist.StageState{Stage: "decide", Open: 4}, states[0], "it still counts as open")
}

func TestACloudedNightGoesStraightToStow(t *testing.T) {
	s := begin(t).told(0, checklist.SkipStep{Step: "end-the-runs", Reason: "clouded out"})
	assert.Equal(t, "guiding-over", s.next())
	s.told(1, checklist.TurnOn{})
	assert.Equal(t, "sky-promises", s.next(), "it cleared up")
}

func TestAFailedStepComesUpWhenAnotherMustFollowIt(t *testing.T) {
	s := begin(t)
	for s.next() != "cables-slack" {
		if s.next() == "choose-target" {
			s.told(0, checklist.ChooseTarget{Target: tarantula})
			continue
		}
		s.done(0, s.next())
	}
	s.told(1, checklist.FailStep{Step: "cables-slack", Note: "short"})
	next, ok := checklist.Steps().Next(s.night)
	require.True(t, ok)
	assert.Equal(t, "cables-slack", next.ID, "power-on must follow it")
	assert.Equal(t, checklist.Failed, next.State)
	assert.Equal(t, "short", next.Text)
}

func TestWhatTheNightOwes(t *testing.T) {
	s := running(t).told(7, checklist.SkipStep{Step: "darks", Reason: "too cold"}).
		told(8, checklist.SkipStep{Step: "dew-heaters", Reason: "dry air"}).
		told(9, checklist.FailStep{Step: "check-star", Note: "not found"})
	var owed []string
	for _, step := range checklist.Steps().Left(s.night) {
		owed = append(owed, step.ID+": "+step.Text)
	}
	assert.Equal(t, []string{"check-star: not found", "darks: too cold"}, owed)
}

func TestStepsAreUndone(t *testing.T) {
	s := running(t).done(10, "first-sub-good")
	assert.Equal(t, "undo: step first sub good, 22:10", s.night.UndoWords(adelaide)) // 11:30 UTC + 10 min + 10:30
	s.told(11, checklist.Undo{})
	assert.Equal(t, checklist.Open, s.state("first-sub-good").State)
	s.told(12, checklist.Undo{})
	assert.Equal(t, checklist.Open, s.state("start-subs").State, "what proved it is undone")
	s.told(13, checklist.Redo{})
	assert.Equal(t, checklist.Done, s.state("start-subs").State)
	s.told(14, checklist.StopSubs{}).told(15, checklist.Rewound{To: *deg(-16)}).told(16, checklist.Undo{})
	assert.Equal(t, 1, s.night.Loop(), "the loop of the run before is back")
	assert.Equal(t, checklist.Done, s.state("start-guiding").State)
	assert.Equal(t, checklist.Fold(s.events), s.night)
}

func TestAClockJumpMovesWhenStepsWereDone(t *testing.T) {
	s := begin(t).done(10, "pier-down").told(20, checklist.NoticeJump{From: minute(20), To: minute(80)})
	assert.Equal(t, minute(70), s.state("pier-down").At)
}
