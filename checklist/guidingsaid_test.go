package checklist_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/sky"
)

func TestGuidingThroughARewind(t *testing.T) {
	s := begin(t).say(0, checklist.ChooseTarget{Target: tarantula}).say(1, checklist.Rewound{To: *deg(-16)}).
		say(2, checklist.GuidingCalibrated{})
	calibrated, ok := s.night.Guiding.Calibration()
	require.True(t, ok)
	assert.Equal(t, checklist.Stood{At: minute(2), Target: s.night.Target, Run: -1, Parked: deg(-16)}, calibrated)
	s.say(3, checklist.GuidingOn{})
	assert.True(t, s.night.Guiding.On)
	s.refuses(checklist.GuidingOn{}, "guiding is on already since 22:03; say that it is off, or that the star is lost, when that happens")
	s.say(4, checklist.TurnOn{}).say(5, checklist.GuidingLost{})
	require.NotNil(t, s.night.Guiding.Lost)
	assert.Equal(t, minute(5), *s.night.Guiding.Lost)
	s.refuses(checklist.GuidingLost{}, "the guide star is lost already since 22:05; say when guiding holds again")
	s.say(6, checklist.GuidingOn{}).say(7, checklist.GuidingCalibrated{})
	assert.Nil(t, s.night.Guiding.Lost, "it holds again")
	calibrated, _ = s.night.Guiding.Calibration()
	assert.Equal(t, 0, calibrated.Run, "in the first run")
	s.say(8, checklist.GuideChecked{Yes: true}).say(60, checklist.GuidingOff{})
	s.refuses(checklist.GuidingOff{}, "guiding is off already since 23:00; say when it is on")
	s.refuses(checklist.GuidingLost{}, "guiding is off and holds no star that it could lose; say when it is on")
	s.say(61, checklist.Rewound{To: *deg(-16)}).say(62, checklist.GuideChecked{})
	checks := s.night.Guiding.Checks
	require.Len(t, checks, 2)
	assert.True(t, checks[0].Yes)
	assert.False(t, checks[1].Yes)
	assert.Equal(t, 1, checks[1].Now.Run, "in the second run")
	assert.Equal(t, calibrated, checks[1].Calibrated)
	assert.Equal(t, checklist.Fold(s.events), s.night)
}

// The screens have one key for what went wrong with a step: of guiding that was on it is a star that was lost.
func TestGuidingThatFailsWhileItIsOnHasLostItsStar(t *testing.T) {
	s := begin(t).say(0, checklist.ChooseTarget{Target: tarantula}).say(1, checklist.TurnOn{Angle: deg(-16)}).say(2, checklist.GuidingCalibrated{})
	s.say(3, checklist.FailStep{Step: "start-guiding", Note: "no star"})
	assert.Nil(t, s.night.Guiding.Lost, "it never held one")
	assert.Equal(t, checklist.Failed, s.state("start-guiding").State)
	s.say(4, checklist.GuidingOn{}).say(5, checklist.FailStep{Step: "start-guiding", Note: "cloud"})
	require.NotNil(t, s.night.Guiding.Lost)
	assert.Equal(t, minute(5), *s.night.Guiding.Lost)
	assert.Equal(t, checklist.Open, s.state("start-guiding").State, "to be done again")
	s.say(6, checklist.Undo{})
	assert.Nil(t, s.night.Guiding.Lost)
}

func TestAForgottenWordDoesNotBlockTheNextLoop(t *testing.T) {
	s := begin(t).say(0, checklist.TurnOn{Angle: deg(-16)}).say(1, checklist.GuidingOn{}).
		say(60, checklist.Rewound{To: *deg(-16)}).say(61, checklist.GuidingOn{}) // nobody said that it was off
	assert.Equal(t, minute(61), s.night.Guiding.Since)
	begin(t).say(0, checklist.GuidingOff{}).say(1, checklist.TurnOn{Angle: deg(0)}).say(2, checklist.GuidingOff{})
}

func TestACheckNeedsACalibration(t *testing.T) {
	begin(t).refuses(checklist.GuideChecked{Yes: true}, "no calibration of the guiding has been said tonight; calibrate it and say so, then check it")
}

func TestTickedStepsSayTheSameOfGuiding(t *testing.T) { // as in journals from before these events
	s := begin(t).say(1, checklist.Rewound{To: *deg(-16)}).say(2, checklist.DoStep{Step: "calibrate-guiding"}).
		say(3, checklist.DoStep{Step: "start-guiding"})
	require.Len(t, s.night.Guiding.Calibrations, 1)
	assert.Equal(t, minute(2), s.night.Guiding.Calibrations[0].At)
	assert.True(t, s.night.Guiding.On)
	for _, id := range []string{"stop-guiding", "guiding-over"} {
		s.say(4, checklist.DoStep{Step: id})
		assert.False(t, s.night.Guiding.On, id)
		s.say(5, checklist.Undo{})
		assert.True(t, s.night.Guiding.On, "undone")
	}
	steps := checklist.Steps()
	for id, proof := range map[string]string{"calibrate-guiding": checklist.KindGuidingCalibrated, "start-guiding": checklist.KindGuidingOn,
		"stop-guiding": checklist.KindGuidingOff} {
		state := stateOf(t, steps, s.night, id)
		assert.Contains(t, state.DoneBy, proof, id)
	}
}

func stateOf(t *testing.T, l checklist.List, n checklist.Night, id string) checklist.StepState {
	t.Helper()
	for _, s := range l.State(n) {
		if s.ID == id {
			return s
		}
	}
	require.FailNow(t, "no step "+id)
	return checklist.StepState{}
}

func TestWhatIsSaidOfGuidingSettlesItsSteps(t *testing.T) {
	l := checklist.Steps()
	s := begin(t).say(0, checklist.ChooseTarget{Target: tarantula}).say(1, checklist.Rewound{To: *deg(-16)}).
		say(2, checklist.GuidingCalibrated{}).say(3, checklist.GuidingOn{})
	assert.Equal(t, checklist.Done, stateOf(t, l, s.night, "calibrate-guiding").State)
	assert.Equal(t, checklist.Done, stateOf(t, l, s.night, "start-guiding").State, "before the derotator is on, as the list has it")
	s.say(4, checklist.TurnOn{}).say(5, checklist.StartSubs{})
	assert.Equal(t, checklist.Done, stateOf(t, l, s.night, "start-guiding").State)
	s.say(6, checklist.GuidingLost{})
	lost := stateOf(t, l, s.night, "start-guiding")
	assert.True(t, lost.Waiting() && lost.Reopened, "a lost star must be found again")
	s.say(7, checklist.GuidingOn{})
	assert.Equal(t, checklist.Done, stateOf(t, l, s.night, "start-guiding").State)
	assert.True(t, stateOf(t, l, s.night, "stop-guiding").Waiting())
	s.say(50, checklist.StopSubs{}).say(51, checklist.GuidingOff{})
	assert.Equal(t, checklist.Done, stateOf(t, l, s.night, "stop-guiding").State)
	s.say(52, checklist.Rewound{To: *deg(-16)})
	assert.True(t, stateOf(t, l, s.night, "start-guiding").Waiting(), "in the next run again")
	assert.True(t, stateOf(t, l, s.night, "stop-guiding").Waiting())
	assert.Equal(t, checklist.Done, stateOf(t, l, s.night, "calibrate-guiding").State)
}

func TestCloudComesAndGoes(t *testing.T) {
	s := begin(t)
	s.refuses(checklist.SkyCleared{}, "no cloud has been said; say when it comes")
	s.say(10, checklist.CloudCame{})
	require.NotNil(t, s.night.Cloud)
	assert.Equal(t, minute(10), *s.night.Cloud)
	s.refuses(checklist.CloudCame{}, "it is cloudy already since 22:10; say when it is clear")
	s.say(20, checklist.SkyCleared{})
	assert.Nil(t, s.night.Cloud)
	s.say(21, checklist.Undo{})
	assert.NotNil(t, s.night.Cloud, "undone")
}

func TestCablesAreCountedFromWhereTheyHangStraight(t *testing.T) {
	s := begin(t).say(0, checklist.CablesStraight{}).say(1, checklist.ChooseTarget{Target: tarantula}).
		say(2, checklist.Sighted{Name: "Rigel", Star: orion.Star, Unread: true}).say(3, checklist.ChooseTarget{Target: tarantula})
	assert.Equal(t, checklist.Cables{Straight: minute(0), Gotos: []checklist.Goto{
		{At: minute(1), Name: "NGC 2070", Star: tarantula.Star}, {At: minute(2), Name: "Rigel", Star: orion.Star}}}, s.night.Cables,
		"the same target chosen again is no way")
	s.say(60, checklist.CablesStraight{}).say(61, checklist.ChooseTarget{Target: orion})
	require.Len(t, s.night.Cables.Gotos, 2)
	assert.Equal(t, "NGC 2070", s.night.Cables.Gotos[0].Name, "back to the target from there")
	assert.Equal(t, minute(60), s.night.Cables.Gotos[0].At)
}

func TestAStarCentredWithoutReadoutsProvesItsStep(t *testing.T) {
	l := checklist.Steps()
	s := begin(t).say(0, checklist.Sighted{Name: "Canopus", Unread: true})
	assert.Equal(t, checklist.Done, stateOf(t, l, s.night, "first-star").State)
	s.say(1, checklist.Sighted{Name: "Canopus", Readout: sky.Horizontal{Altitude: *deg(40), Azimuth: *deg(120)}})
	assert.True(t, stateOf(t, l, s.night, "second-star").Waiting(), "one star, twice")
	s.say(2, checklist.Sighted{Name: "Rigel", Unread: true})
	assert.Equal(t, checklist.Done, stateOf(t, l, s.night, "second-star").State)
	require.Len(t, s.night.Sights, 1, "only what was read can be fitted")
	assert.Equal(t, "Canopus", s.night.Sights[0].Name)
	assert.False(t, checklist.WithReadout(s.events[0]))
	assert.True(t, checklist.WithReadout(s.events[1]))
}

func TestNewEventsKeepToTheClockAndLeaveTheNightBeforeAlone(t *testing.T) {
	s := begin(t).say(0, checklist.ChooseTarget{Target: tarantula}).say(1, checklist.GuidingCalibrated{}).say(2, checklist.GuideChecked{Yes: true}).
		say(3, checklist.GuidingLost{}).say(4, checklist.Recentred{}).say(5, checklist.CloudCame{}).say(6, checklist.CablesStraight{}).
		say(7, checklist.Sighted{Name: "Rigel", Unread: true})
	before := s.night
	const hour = time.Hour
	s.say(10, checklist.NoticeJump{From: minute(10), To: minute(10).Add(hour)}).say(80, checklist.GuideChecked{})
	g := s.night.Guiding
	for what, got := range map[time.Time]time.Time{minute(1): g.Calibrations[0].At, minute(2): g.Checks[0].Now.At, minute(3): *g.Lost,
		minute(4): *s.night.Recentred, minute(5): *s.night.Cloud, minute(6): s.night.Cables.Straight, minute(7): s.night.Cables.Gotos[1].At} {
		assert.Equal(t, what.Add(hour), got)
	}
	assert.Equal(t, checklist.Fold(s.events[:8]), before)
	assert.Equal(t, checklist.Fold(s.events), s.night)
}

func TestWordsOfTheNewEvents(t *testing.T) {
	s := begin(t).say(0, checklist.GuidingCalibrated{}).say(1, checklist.GuidingOn{}).say(2, checklist.GuidingLost{}).
		say(3, checklist.GuideChecked{Yes: true}).say(4, checklist.GuideChecked{}).say(5, checklist.GuidingOff{}).say(6, checklist.Recentred{}).
		say(7, checklist.CablesStraight{}).say(8, checklist.CloudCame{}).say(9, checklist.SkyCleared{})
	var words []string
	for _, e := range s.events {
		words = append(words, checklist.Words(e))
	}
	assert.Equal(t, []string{"guiding calibrated", "guiding on", "guide star lost", "guiding checked: the star came back",
		"guiding checked: the star went off", "guiding off", "re-centred", "cables straight", "cloud", "clear again"}, words)
	assert.Equal(t, "undo: clear again, 22:09", s.night.UndoWords(adelaide))
}
