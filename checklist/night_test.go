package checklist_test

import (
	"encoding/json"
	"testing"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/sky"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// dusk is the instant at which the test nights begin; minute(n) is n minutes later.
var dusk = time.Date(2026, 12, 5, 11, 30, 0, 0, time.UTC)

func minute(n int) time.Time { return dusk.Add(time.Duration(n) * time.Minute) }

// adelaide is UTC + 10:30, so that a time printed in UTC by mistake shows.
var adelaide = time.FixedZone("ACDT", 37800)

var tarantula = checklist.Target{Name: "NGC 2070", Star: sky.Star{Place: sky.J2000{RA: 84.675 * sky.Degree, Dec: -69.1 * sky.Degree}}}
var orion = checklist.Target{Name: "M 42", Star: sky.Star{Place: sky.J2000{RA: 83.822 * sky.Degree, Dec: -5.391 * sky.Degree}}}

// story tells a night, event by event, as a person at the keys would.
type story struct {
	t      testing.TB
	events []journal.Event
	night  checklist.Night
}

func begin(t testing.TB) *story { return &story{t: t} }

func (s *story) say(at int, a checklist.Action) *story {
	s.t.Helper()
	kind, body, err := checklist.Say(s.night, a, adelaide)
	require.NoError(s.t, err)
	return s.event(minute(at), kind, body)
}

func (s *story) event(at time.Time, kind string, body any) *story {
	s.t.Helper()
	e := eventOf(s.t, int64(len(s.events)+1), at, kind, body)
	s.events = append(s.events, e)
	s.night = s.night.Next(e)
	return s
}

func eventOf(t require.TestingT, ordinal int64, at time.Time, kind string, body any) journal.Event {
	text, err := json.Marshal(body)
	require.NoError(t, err)
	return journal.Event{Ordinal: ordinal, Night: "2026-12-05", At: at, Kind: kind, Body: text}
}

func (s *story) refuses(a checklist.Action, words string) {
	s.t.Helper()
	_, _, err := checklist.Say(s.night, a, adelaide)
	assert.EqualError(s.t, err, words)
}

func deg(value float64) *sky.Angle {
	a := sky.Angle(value) * sky.Degree
	return &a
}

// evening is a night of three runs, with a reading and an interruption.
func evening(t testing.TB) *story {
	return begin(t).
		say(0, checklist.OpenNight{Kit: "kit.toml", Target: "NGC 2070"}).
		say(1, checklist.ChooseTarget{Target: tarantula}).
		say(2, checklist.MeasureAxis{Tilt: 2 * sky.Degree, Toward: -10 * sky.Degree, Uncertainty: 1 * sky.Degree, How: "phone"}).
		say(5, checklist.Rewound{To: *deg(-16)}).
		say(10, checklist.TurnOn{}).
		say(11, checklist.StartSubs{Filter: "L"}).
		say(31, checklist.StartSubs{Filter: "R"}).
		say(41, checklist.StopSubs{}).
		say(45, checklist.Read{Angle: *deg(-3)}).
		say(46, checklist.StartSubs{Filter: "R"}).
		say(100, checklist.StopSubs{}).
		say(101, checklist.Rewound{From: deg(15.5), To: *deg(-16)}).
		say(102, checklist.StartSubs{Filter: "L"}).
		say(103, checklist.WriteNote{Text: "thin cloud"}).
		say(150, checklist.TurnOff{}).
		say(160, checklist.TurnOn{Angle: deg(1)})
}

func TestANightAddsUp(t *testing.T) {
	n := evening(t).night
	assert.Equal(t, "2026-12-05", n.Key)
	assert.Equal(t, &checklist.Opened{At: minute(0), Kit: "kit.toml", Target: "NGC 2070"}, n.Opened)
	assert.Equal(t, "NGC 2070", n.Target.Name)
	assert.InDelta(t, 350, n.Axis.Toward.Degrees(), 1e-9, "an azimuth is in [0°, 360°)")
	assert.True(t, n.DerotatorOn)
	assert.Equal(t, minute(160), n.DerotatorSince)
	assert.Equal(t, &checklist.Anchor{At: minute(160), Angle: *deg(1), Why: checklist.WhyOn}, n.Anchor)
	assert.Nil(t, n.Parked)
	assert.Nil(t, n.Subs)
	assert.Empty(t, n.Readings, "the reading was in an earlier run")
	assert.Equal(t, []checklist.Note{{At: minute(103), Text: "thin cloud"}}, n.Notes)

	require.Len(t, n.Runs, 3)
	first, second, third := n.Runs[0], n.Runs[1], n.Runs[2]
	assert.Equal(t, minute(10), first.Start)
	assert.Equal(t, *deg(-16), first.StartAngle, "set while it was off")
	assert.Equal(t, minute(101), first.End)
	assert.Equal(t, deg(15.5), first.EndAngle)
	assert.Equal(t, []checklist.Subs{
		{Filter: "L", Start: minute(11), End: minute(31)},
		{Filter: "R", Start: minute(31), End: minute(41)},
		{Filter: "R", Start: minute(46), End: minute(100)},
	}, first.Subs)
	assert.Equal(t, 84*time.Minute, first.Exposing()) // 20 + 10 + 54
	assert.Equal(t, 91*time.Minute, first.Lasted(minute(500)))
	assert.Equal(t, minute(150), second.Subs[0].End, "turning off ends the subs")
	assert.Nil(t, second.EndAngle, "nobody read it")
	assert.True(t, third.Open)
	assert.Equal(t, 5*time.Minute, third.Lasted(minute(165)))
}

func TestAReadingReanchorsTheOpenRun(t *testing.T) {
	n := begin(t).say(0, checklist.TurnOn{Angle: deg(-16)}).say(30, checklist.Read{Angle: *deg(-9)}).
		say(50, checklist.Read{Angle: *deg(-4)}).night
	require.Len(t, n.Runs, 1)
	assert.Equal(t, []checklist.Reading{{At: minute(30), Angle: *deg(-9)}, {At: minute(50), Angle: *deg(-4)}}, n.Readings)
	assert.Equal(t, &checklist.Anchor{At: minute(50), Angle: *deg(-4), Why: checklist.WhyRead}, n.Anchor)
	assert.Equal(t, minute(0), n.Runs[0].Start)
}

func TestARunBeginsOnlyWhenTheAngleIsKnown(t *testing.T) {
	s := begin(t).say(0, checklist.TurnOn{}).say(1, checklist.StartSubs{})
	assert.Empty(t, s.night.Runs)
	assert.Nil(t, s.night.Anchor)
	s.say(20, checklist.Read{Angle: *deg(3)}).say(30, checklist.StopSubs{})
	require.Len(t, s.night.Runs, 1)
	assert.Equal(t, minute(20), s.night.Runs[0].Start)
	assert.Equal(t, 10*time.Minute, s.night.Runs[0].Exposing(), "what was exposed before belongs to no run")
	assert.Empty(t, s.night.Readings, "it is the start of the run")
}

func TestAnotherTargetEndsTheRun(t *testing.T) {
	s := begin(t).say(0, checklist.ChooseTarget{Target: tarantula}).say(1, checklist.TurnOn{Angle: deg(0)})
	s.say(2, checklist.ChooseTarget{Target: tarantula})
	require.Len(t, s.night.Runs, 1, "the same target again changes nothing")
	unknown := s.night.Next(journal.Event{Ordinal: 9, At: minute(60), Kind: checklist.KindTargetChosen, Body: json.RawMessage(`{"name":"x"}`)})
	assert.Nil(t, unknown.Anchor, "the angle at the change is not known")
	assert.False(t, unknown.Runs[0].Open)
	s.say(60, checklist.ChooseTarget{Target: orion, Angle: deg(12)})
	require.Len(t, s.night.Runs, 2)
	assert.Equal(t, deg(12), s.night.Runs[0].EndAngle)
	assert.Equal(t, "NGC 2070", s.night.Runs[0].Target.Name)
	assert.Equal(t, "M 42", s.night.Runs[1].Target.Name)
	assert.Equal(t, checklist.WhyTarget, s.night.Anchor.Why)
}

func TestFoldAgreesWithNextOnEveryPrefix(t *testing.T) {
	s := evening(t).say(161, checklist.Undo{}).say(162, checklist.Undo{}).say(163, checklist.Redo{}).
		event(minute(164), "of a newer version", map[string]int{"x": 1}).
		event(minute(165), checklist.KindRead, "no body of a reading").
		say(166, checklist.NoticeJump{From: minute(166), To: minute(100)}).
		say(101, checklist.Read{Angle: *deg(4)})
	n := checklist.Night{}
	for i, e := range s.events {
		n = n.Next(e)
		require.Equal(t, checklist.Fold(s.events[:i+1]), n, "after event %d", i+1)
	}
	assert.Equal(t, []int64{20, 21}, n.PassedOver)
}

func TestNextLeavesTheNightBeforeAlone(t *testing.T) {
	s := evening(t)
	for i := range s.events {
		before := checklist.Fold(s.events[:i])
		for _, e := range s.events[i:] { // several futures of one past
			e.Ordinal = int64(i + 1)
			before.Next(e)
			before.Next(e)
		}
		before.Next(journal.Event{Ordinal: int64(i + 1), Kind: checklist.KindClockJumped, Body: json.RawMessage(`{"from_unix_ns":0,"to_unix_ns":3600000000000}`)})
		require.Equal(t, checklist.Fold(s.events[:i]), before, "event %d", i+1)
	}
}
