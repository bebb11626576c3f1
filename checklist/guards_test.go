package checklist_test

import (
	"testing"

	"duskhand/checklist"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// told is a story in which the checklist judges what is said.
func (s *story) told(at int, a checklist.Action) *story {
	s.t.Helper()
	kind, body, err := checklist.Steps().Say(s.night, a, adelaide)
	require.NoError(s.t, err)
	return s.event(minute(at), kind, body)
}

func (s *story) done(at int, steps ...string) *story {
	s.t.Helper()
	for _, step := range steps {
		s.told(at, checklist.DoStep{Step: step})
	}
	return s
}

func (s *story) forbids(a checklist.Action, words string) {
	s.t.Helper()
	_, _, err := checklist.Steps().Say(s.night, a, adelaide)
	assert.EqualError(s.t, err, words)
	assert.Empty(s.t, checklist.Steps().Warnings(s.night, a), "what is refused is not warned about too")
}

func (s *story) warns(a checklist.Action, words ...string) {
	s.t.Helper()
	_, _, err := checklist.Steps().Say(s.night, a, adelaide)
	require.NoError(s.t, err, "a warning lets pass")
	assert.Equal(s.t, words, checklist.Steps().Warnings(s.night, a))
}

func (s *story) quiet(a checklist.Action) {
	s.t.Helper()
	_, _, err := checklist.Steps().Say(s.night, a, adelaide)
	require.NoError(s.t, err)
	assert.Empty(s.t, checklist.Steps().Warnings(s.night, a))
}

func (s *story) state(step string) checklist.StepState {
	s.t.Helper()
	for _, state := range checklist.Steps().State(s.night) {
		if state.ID == step {
			return state
		}
	}
	require.Fail(s.t, "no step "+step)
	return checklist.StepState{}
}

func (s *story) next() string {
	next, _ := checklist.Steps().Next(s.night)
	return next.ID
}

func TestCablesComeBeforeTheFirstFullSwing(t *testing.T) {
	s := begin(t)
	assert.Equal(t, checklist.NotYet, s.state("find-ends").State)
	s.forbids(checklist.DoStep{Step: "find-ends"},
		"This is the first full swing: first see that every cable has slack over the whole travel.")
	s.warns(checklist.SkipStep{Step: "cables-slack", Reason: "seen in daylight"},
		"The derotator may turn as soon as it has power: first see that every cable has slack over the whole travel.",
		"This is the first full swing: first see that every cable has slack over the whole travel.",
		"The cables have not been seen to be slack over the whole travel: look before the derotator swings.")
	s.warns(checklist.Rewound{To: *deg(-16)}, // what has happened is written down
		"The cables have not been seen to be slack over the whole travel: look before the derotator swings.",
		"The derotator has not been seen to find both its ends: its angle may mean nothing.")
	s.done(0, "cables-slack")
	s.quiet(checklist.DoStep{Step: "find-ends"})
	s.told(1, checklist.FailStep{Step: "cables-slack", Note: "the USB cable is short"})
	s.forbids(checklist.DoStep{Step: "find-ends"},
		"This is the first full swing: first see that every cable has slack over the whole travel.")
	s.told(2, checklist.SkipStep{Step: "cables-slack", Reason: "USB over the air now"})
	s.quiet(checklist.DoStep{Step: "find-ends"})
}

func TestOnlyWhatIsStillToBeDoneIsWarnedAbout(t *testing.T) {
	s := begin(t).told(0, checklist.Rewound{To: *deg(-16)}).told(1, checklist.TurnOn{})
	s.warns(checklist.Rewound{To: *deg(-16)}, // the first swing is long made: of cables no more
		"Guiding has not been said to be stopped: it chases its star while the field swings. Stop it first.")
	s.warns(checklist.SkipStep{Step: "cables-slack", Reason: "x"}, // the first rewind is done
		"The derotator may turn as soon as it has power: first see that every cable has slack over the whole travel.",
		"This is the first full swing: first see that every cable has slack over the whole travel.")
}

func TestTheRewindComesBeforeTheGuiding(t *testing.T) {
	s := begin(t).done(0, "cables-slack", "find-ends")
	s.warns(checklist.DoStep{Step: "calibrate-guiding"},
		"The first rewind still turns the guide camera: unless the mount turns its corrections with its derotator, "+
			"calibrate after it, or see then that a correction moves the star back.")
	s.forbids(checklist.DoStep{Step: "start-guiding"}, "A rewind pulls the guide star away: rewind first, then start guiding.")
	s.quiet(checklist.Rewound{To: *deg(-16)})
	s.told(1, checklist.Rewound{To: *deg(-16)})
	s.warns(checklist.DoStep{Step: "start-guiding"}, "The guiding has not been calibrated tonight.")
	s.done(2, "calibrate-guiding")
	s.quiet(checklist.DoStep{Step: "start-guiding"})
}

// Which mounts keep a calibration over a rewind nobody has told: so none is forbidden, and none is trusted.
func TestACalibrationMayBeMadeAtAnyTime(t *testing.T) {
	s := begin(t).done(0, "calibrate-guiding")
	assert.Equal(t, checklist.Done, s.state("calibrate-guiding").State)
	s.done(1, "cables-slack", "find-ends").told(2, checklist.Rewound{To: *deg(-16)})
	s.quiet(checklist.DoStep{Step: "start-guiding"})
	calibrate, _ := checklist.Steps().Step("calibrate-guiding")
	assert.Contains(t, calibrate.Why, "only if the mount turns its corrections with its derotator")
	for _, g := range calibrate.Guards {
		assert.False(t, g.Must, g.Say)
	}
}

func TestGuidingIsSeenToCorrectAfterEachRewindAndHandOver(t *testing.T) {
	const asks = "see it correct; else calibrate again"
	s := running(t).told(70, checklist.StopSubs{}).told(71, checklist.Rewound{To: *deg(-16)})
	require.Equal(t, "start-guiding", s.next(), "after a rewind")
	assert.Contains(t, s.state("start-guiding").Sentence(nil), asks)
	s.done(72, "start-guiding", "derotator-seen").told(73, checklist.StartSubs{}).told(140, checklist.StopSubs{})
	s.told(141, checklist.ChooseTarget{Target: checklist.Target{Name: "NGC 253", Star: tarantula.Star}})
	assert.True(t, s.state("start-guiding").Waiting(), "after a hand-over")
	assert.Contains(t, s.state("start-guiding").Sentence(nil), asks)
}

func TestTheDerotatorIsOnAndSeenBeforeTheFirstSub(t *testing.T) {
	s := begin(t).done(0, "cables-slack", "find-ends").told(1, checklist.Rewound{To: *deg(-16)}).
		done(2, "calibrate-guiding", "start-guiding")
	s.forbids(checklist.StartSubs{}, "the derotator is off; turn it on, see that it turns, say so, then start the subs")
	s.forbids(checklist.DoStep{Step: "derotator-seen"}, "It cannot be seen to turn while it is off: turn it on and say so.")
	s.told(3, checklist.TurnOn{})
	s.warns(checklist.StartSubs{}, "Nobody has seen the derotator turn in this run: look at it now.")
	s.done(4, "derotator-seen")
	s.quiet(checklist.StartSubs{})
	s.told(5, checklist.TurnOff{})
	assert.Equal(t, checklist.Open, s.state("derotator-on").State, "off is off")
}

func TestGuidingStopsBeforeARewindAndStartsAfterIt(t *testing.T) {
	s := running(t)
	s.warns(checklist.Rewound{To: *deg(-16)},
		"Subs are being taken: the one that is exposed during the rewind is lost. Stop the subs first.",
		"Guiding has not been said to be stopped: it chases its star while the field swings. Stop it first.")
	s.warns(checklist.DoStep{Step: "stop-guiding"}, "A sub is still being taken: let it finish before guiding stops.")
	s.told(70, checklist.StopSubs{})
	s.warns(checklist.Rewound{To: *deg(-16)},
		"Guiding has not been said to be stopped: it chases its star while the field swings. Stop it first.")
	s.done(71, "stop-guiding")
	s.quiet(checklist.Rewound{To: *deg(-16)})
	s.told(72, checklist.Rewound{To: *deg(-16)}).done(73, "derotator-seen")
	s.warns(checklist.StartSubs{}, "Guiding has not been started in this run: start it, then begin with the subs.")
	s.done(74, "start-guiding")
	s.quiet(checklist.StartSubs{})
}

func TestWhatFeedsTheCountdownIsSaidAndNotTicked(t *testing.T) {
	s := running(t)
	for step, words := range map[string]string{"rewind-again": "rewound", "finish-sub": "subs stopped", "end-the-runs": "derotator off"} {
		s.forbids(checklist.DoStep{Step: step},
			"this step is done by what happened and not ticked: say that it happened ("+words+"), or skip it with a reason")
	}
	s.quiet(checklist.DoStep{Step: "axis-lean"}) // the kit's value may stand
}

func TestStepsAreRefusedInWords(t *testing.T) {
	s := begin(t).done(9, "pier-down")
	s.forbids(checklist.DoStep{Step: "cable-slack"}, `there is no step "cable-slack"; did you mean "cables-slack"?`)
	s.forbids(checklist.FailStep{Step: "cable-slack", Note: "x"}, `there is no step "cable-slack"; did you mean "cables-slack"?`)
	s.forbids(checklist.DoStep{Step: "pier-down"}, "this step is done already since 22:09; to take that back undo it") // 11:30 UTC + 9 min + 10:30
	s.forbids(checklist.SkipStep{Step: "pier-down", Reason: "x"}, "this step is done already since 22:09; to take that back undo it")
	s.forbids(checklist.SkipStep{Step: "bias", Reason: " "}, "no reason is given; say in a few words why the step is left out")
	s.forbids(checklist.FailStep{Step: "bias"}, "no note is given; say in a few words what went wrong")
	s.refuses(checklist.DoStep{}, "no step is named; give the id of one of the checklist")
}
