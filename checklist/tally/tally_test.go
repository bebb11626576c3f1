package tally_test

import (
	"encoding/json"
	"testing"
	"time"
	_ "time/tzdata" // the example's zone, on computers without their own table

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/checklist/tally"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

var dusk = time.Date(2026, 12, 5, 11, 30, 0, 0, time.UTC)

// night folds what is said at minutes after dusk.
type night struct {
	t   *testing.T
	log checklist.Night
	n   int64
}

func (s *night) say(minute int, a checklist.Action) *night {
	s.t.Helper()
	kind, body, err := checklist.Say(s.log, a, time.UTC)
	require.NoError(s.t, err)
	raw, err := json.Marshal(body)
	require.NoError(s.t, err)
	s.n++
	s.log = s.log.Next(journal.Event{Ordinal: s.n, Night: "2026-12-05", At: dusk.Add(time.Duration(minute) * time.Minute), Kind: kind, Body: raw})
	return s
}

func deg(value float64) *sky.Angle {
	a := sky.Angle(value) * sky.Degree
	return &a
}

func count(subs []plan.Sub) map[string]int {
	counts := map[string]int{}
	for _, s := range subs {
		counts[s.Filter.Name]++
	}
	return counts
}

// Subs of 60 s with 5 s between them: n fit a stretch of n·65 − 5 s.
func subs() kit.Subs {
	return kit.Subs{InARow: 5, Overhead: 5 * time.Second, Filters: []kit.Filter{
		{Name: "L", Exposure: time.Minute, Count: 8}, {Name: "R", Exposure: time.Minute, Count: 100}}}
}

func TestSubsAreCountedByRunTargetAndFilter(t *testing.T) {
	m42 := checklist.Target{Name: "M 42", Star: sky.Star{Place: sky.J2000{RA: 83.8 * sky.Degree}}}
	s := (&night{t: t}).
		say(0, checklist.TurnOn{Angle: deg(-16)}).
		say(1, checklist.StartSubs{}).say(11, checklist.StopSubs{}). // 600 s: 9 subs, 5 L and 4 R
		say(20, checklist.Rewound{To: *deg(-16)}).
		say(21, checklist.StartSubs{}).say(32, checklist.StopSubs{}). // 660 s: 10 subs, 1 R, 3 L that are left, R
		say(33, checklist.ChooseTarget{Target: m42, Angle: deg(0)}).
		say(34, checklist.StartSubs{Filter: "R"}).say(40, checklist.StopSubs{}). // 360 s: 5
		say(41, checklist.StartSubs{Filter: "Ha"}).say(50, checklist.StopSubs{}).
		say(51, checklist.StartSubs{})
	counted := tally.Count(kit.Kit{Subs: subs()}, s.log, "NGC 2070")
	require.Len(t, counted.Runs, 3)
	assert.Equal(t, map[string]int{"L": 5, "R": 4}, count(counted.Runs[0]))
	assert.Equal(t, map[string]int{"L": 3, "R": 7}, count(counted.Runs[1]))
	assert.Equal(t, map[string]int{"R": 5}, count(counted.Runs[2]), "the named filter")
	require.Len(t, counted.Unknown, 1)
	assert.Equal(t, "Ha", counted.Unknown[0].Filter)
	assert.Equal(t, []int{8, 11}, counted.Sequence("NGC 2070").Taken())
	assert.Equal(t, []int{0, 5}, counted.Sequence("M 42").Taken())
	assert.Equal(t, []int{0, 0}, counted.Sequence("M 31").Taken())

	progress, known := counted.Progress("M 42", *s.log.Subs, dusk.Add(53*time.Minute)) // 120 s: one done, one under way
	require.True(t, known)
	assert.Equal(t, map[string]int{"L": 1}, count(progress.Done), "turns again when nobody names a filter")
	assert.True(t, progress.Exposing)
}

// arrived says that a light of so many seconds has come that began at an instant.
func (s *night) arrived(start time.Time, filter string, exposure float64) *night {
	s.t.Helper()
	ns := start.UnixNano()
	body := checklist.SubArrivedBody{Path: start.Format("150405") + ".fits", StartNs: &ns, ExposureS: &exposure, Filter: filter, Kind: "light",
		SeenNs: start.Add(time.Duration(exposure)*time.Second + 3*time.Second).UnixNano()}
	return s.say(int(start.Sub(dusk).Minutes())+2, checklist.SubArrived{Body: body})
}

// arrivedOurs is arrived for a frame whose start on our clock was noted.
func (s *night) arrivedOurs(start time.Time, filter string, exposure float64) *night {
	s.arrived(start, filter, exposure)
	ours := start.UnixNano()
	s.log.Arrived[len(s.log.Arrived)-1].OursNs = &ours
	return s
}

// Frames that have arrived are what was taken, whatever the time would have allowed: here the sequence
// paused. A stretch in which nothing arrived is counted by the time, and one that goes on goes on from the
// last that arrived.
func TestArrivedFramesAreWhatWasTaken(t *testing.T) {
	minute := func(m float64) time.Time { return dusk.Add(time.Duration(m * float64(time.Minute))) }
	s := (&night{t: t}).
		say(0, checklist.TurnOn{Angle: deg(-16)}).
		say(1, checklist.StartSubs{}).arrived(minute(1.05), "L", 60).arrived(minute(7), "Red", 60).say(11, checklist.StopSubs{}). // time for 9
		say(12, checklist.StartSubs{}).say(15, checklist.StopSubs{}).                                                             // 180 s: 2
		say(20, checklist.StartSubs{}).arrived(minute(20.5), "L", 60)
	counted := tally.Count(kit.Kit{Subs: subs()}, s.log, "NGC 2070")
	require.Len(t, counted.Runs, 1)
	assert.Equal(t, map[string]int{"L": 2, "R": 3}, count(counted.Runs[0]), "after the one R two more of the five in a row, by the time")
	assert.Equal(t, []int{2, 3}, counted.Sequence("NGC 2070").Taken())
	stretch, going := counted.Going()
	require.True(t, going)
	assert.Equal(t, minute(20.5).Add(65*time.Second), stretch.Start, "its end and the overhead")
	progress, _ := counted.Progress("NGC 2070", stretch, minute(22))
	assert.True(t, progress.Exposing)
	assert.Equal(t, "L", progress.Now.Filter.Name)
}

func TestTargetAndAxisAreThoseOfTheNight(t *testing.T) {
	k := kit.Example()
	s := &night{t: t}
	assert.Equal(t, "NGC 2070", tally.Target(k, s.log).Name)
	assert.Equal(t, k.Axis, tally.Axis(k, s.log))
	other := k.Targets[1]
	s.say(0, checklist.ChooseTarget{Target: checklist.Target{Name: other.Name, Star: other.Star}}).
		say(1, checklist.MeasureAxis{Tilt: 1.5 * sky.Degree, Toward: 200 * sky.Degree, Uncertainty: 0.1 * sky.Degree, How: "fit"})
	assert.Equal(t, other.Object.ID, tally.Target(k, s.log).Object.ID, "as the kit has it")
	assert.InDelta(t, 1.5, tally.Axis(k, s.log).Tilt.Degrees(), 1e-9)
	stranger := checklist.Target{Name: "my patch", Star: sky.Star{Place: sky.J2000{RA: 1 * sky.Radian}}}
	assert.Equal(t, kit.Target{Name: "my patch", Star: stranger.Star}, tally.Chosen(k, checklist.Night{}, &stranger))
}

func TestWhatGoesOnCountsFromTheRunsStart(t *testing.T) {
	s := (&night{t: t}).say(0, checklist.TurnOn{}).say(1, checklist.StartSubs{Filter: "L"})
	_, ok := tally.Going(s.log)
	assert.False(t, ok, "no run yet")
	s.say(20, checklist.Read{Angle: *deg(3)})
	stretch, ok := tally.Going(s.log)
	require.True(t, ok)
	assert.Equal(t, checklist.Subs{Filter: "L", Start: dusk.Add(20 * time.Minute)}, stretch)
	s.say(30, checklist.StopSubs{})
	_, ok = tally.Going(s.log)
	assert.False(t, ok)
	assert.Equal(t, stretch.Start, s.log.Runs[0].Subs[0].Start, "as when they have stopped")
}

// What the night says of a target's framing takes the kit's place; another target keeps the kit's.
func TestFramingOfTheNightIsTheTargets(t *testing.T) {
	k := kit.Example()
	angle := 72 * sky.Degree
	said := checklist.Framing{Target: k.Targets[0].Name, CameraAngle: &angle, Keep: kit.AlwaysKeep, Middle: kit.SkyOffset{East: 3 * sky.Arcminute}}
	log := checklist.Night{Framings: []checklist.Framing{said}}
	target := tally.Target(k, log)
	assert.Equal(t, &angle, target.CameraAngle)
	assert.Equal(t, kit.AlwaysKeep, target.Keep)
	assert.Equal(t, said.Middle, target.Middle)
	assert.Equal(t, k.Targets[1], tally.Chosen(k, log, &checklist.Target{Name: k.Targets[1].Name}))
}

// Each frame counts once and in its run, whatever was said late or twice about the stretches; test frames don't.
func TestEachFrameCountsOnceAndInItsRun(t *testing.T) {
	minute := func(m float64) time.Time { return dusk.Add(time.Duration(m * float64(time.Minute))) }
	k := kit.Kit{Subs: subs()}
	// Another filter said while a frame of the one before is read: one L, one R.
	s := (&night{t: t}).say(0, checklist.TurnOn{Angle: deg(-16)}).say(1, checklist.StartSubs{Filter: "L"}).
		arrived(minute(1.1), "L", 60).say(4, checklist.StartSubs{Filter: "R"}).arrived(minute(3.95), "R", 60)
	counted := tally.Count(k, s.log, "NGC 2070")
	assert.Equal(t, map[string]int{"L": 1, "R": 1}, count(counted.Runs[0]))
	// Said that they began long after the first of them did, and a frame that nobody said anything of.
	s = (&night{t: t}).say(0, checklist.TurnOn{Angle: deg(-16)}).arrived(minute(1), "R", 60).
		say(6, checklist.StartSubs{}).arrived(minute(5.3), "R", 60).say(9, checklist.StopSubs{}).arrived(minute(12), "R", 60)
	counted = tally.Count(k, s.log, "NGC 2070")
	assert.Equal(t, map[string]int{"R": 3}, count(counted.Runs[0]))
	// Frames of three seconds to see the framing by are no subs.
	s = (&night{t: t}).say(0, checklist.TurnOn{Angle: deg(-16)}).arrived(minute(1), "R", 3).arrived(minute(2), "R", 3)
	counted = tally.Count(k, s.log, "NGC 2070")
	assert.Empty(t, counted.Runs[0])
}

// A clock that jumps takes the frames along: they stay in their run.
func TestArrivedFramesSurviveAJumpOfTheClock(t *testing.T) {
	s := (&night{t: t}).say(0, checklist.TurnOn{Angle: deg(-16)}).say(1, checklist.StartSubs{Filter: "R"}).
		arrivedOurs(dusk.Add(70*time.Second), "R", 60).arrivedOurs(dusk.Add(140*time.Second), "R", 60).
		say(6, checklist.NoticeJump{From: dusk.Add(6 * time.Minute), To: dusk.Add(66 * time.Minute)})
	counted := tally.Count(kit.Kit{Subs: subs()}, s.log, "NGC 2070")
	assert.Equal(t, map[string]int{"R": 2}, count(counted.Runs[0]))
}

func TestATargetWithFiltersOfItsOwnIsCountedByThem(t *testing.T) {
	k := kit.Example()
	k.Targets[1].Filters = []kit.TargetFilter{{Name: "G", Exposure: 10 * time.Second, Count: 1}}
	counted := tally.Count(k, checklist.Night{}, k.Targets[0].Name)
	sub, after, ok := counted.Sequence(k.Targets[1].Name).Next(time.Date(2026, 12, 5, 12, 0, 0, 0, time.UTC))
	require.True(t, ok)
	assert.Equal(t, "G", sub.Filter.Name)
	assert.Equal(t, 10*time.Second, sub.Exposure.Length())
	assert.True(t, after.Done(), "one was wanted")
	sub, _, _ = counted.Sequence(k.Targets[0].Name).Next(sub.Over)
	assert.Equal(t, "L", sub.Filter.Name, "the other target has the kit's")
}
