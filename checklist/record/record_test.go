package record_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // the example's zone, on computers without their own table

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/checklist/record"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

var update = flag.Bool("update", false, "write the golden files anew; read the difference")

// dusk is 11:10 UTC, 21:40 at the example's site, three minutes into its dark window.
var dusk = time.Date(2026, 12, 5, 11, 10, 0, 0, time.UTC)

var fifth = plan.Date{Year: 2026, Month: time.December, Day: 5}

// story is a night as it is told.
type story struct {
	t      testing.TB
	events []journal.Event
	log    checklist.Night
}

func (s *story) say(minute float64, actions ...checklist.Action) *story {
	s.t.Helper()
	for _, a := range actions {
		kind, body, err := checklist.Say(s.log, a, time.UTC)
		require.NoError(s.t, err)
		s.event(minute, kind, body)
	}
	return s
}

func (s *story) event(minute float64, kind string, body any) *story {
	s.t.Helper()
	raw, err := json.Marshal(body)
	require.NoError(s.t, err)
	e := journal.Event{Ordinal: int64(len(s.events) + 1), Night: "2026-12-05", At: dusk.Add(time.Duration(minute * float64(time.Minute))), Kind: kind, Body: raw}
	s.events, s.log = append(s.events, e), s.log.Next(e)
	return s
}

func (s *story) night() record.Events { return record.Events{Date: fifth, Events: s.events} }

func deg(value float64) *sky.Angle {
	a := sky.Angle(value) * sky.Degree
	return &a
}

func target(k kit.Kit, i int) checklist.ChooseTarget {
	return checklist.ChooseTarget{Target: checklist.Target{Name: k.Targets[i].Name, Star: k.Targets[i].Star}}
}

// evening is a night of three runs on two targets, with all that a record must tell.
func evening(t testing.TB, k kit.Kit) *story {
	s := &story{t: t}
	s.say(-30, checklist.OpenNight{Kit: "kit.toml"}, target(k, 0))
	s.say(-20, checklist.MeasureAxis{Tilt: 2.31 * sky.Degree, Toward: 212 * sky.Degree, Uncertainty: 0.2 * sky.Degree, How: "fit of 2 stars, residual 1.2′"})
	s.event(-15, checklist.KindStepSkipped, checklist.StepSkippedBody{Step: "balance", Reason: "as last night"})
	temp := 11.5
	s.say(-10, checklist.FocusNow{Star: "Canopus", TempC: &temp})
	s.say(0, checklist.TurnOn{Angle: deg(-16)})
	s.say(1, checklist.StartSubs{}).say(91, checklist.StopSubs{})
	s.event(92, checklist.KindStepFailed, checklist.StepFailedBody{Step: "guiding-again", Loop: 2, Note: "star lost, cloud"})
	s.say(98.5, checklist.Rewound{From: deg(9.5), To: *deg(-16)})
	s.say(100, checklist.StartSubs{}).say(104, checklist.WriteNote{Text: "thin | cloud, 20_min"})
	s.say(110, checklist.WriteNote{Text: "from a script:\x1b[2J\ngone"})
	s.say(130, checklist.ReadTemperature{TempC: -0.5})
	s.say(160, checklist.StopSubs{})
	s.event(161, "of a newer version", map[string]int{"x": 1})
	s.event(162, checklist.KindCommandFailed, checklist.CommandFailedBody{Event: kit.Rewound, Command: []string{"lamp", "off"}, Problem: "exit status 1"})
	s.say(165, checklist.WriteNote{Text: "a slip"}).say(166, checklist.Undo{})
	other := target(k, 1)
	other.Angle = deg(3)
	s.say(170, other).say(172, checklist.StartSubs{Filter: "R"})
	s.say(200, checklist.TurnOff{})
	s.event(205, checklist.KindStepDone, checklist.StepDoneBody{Step: "flats"})
	s.event(206, checklist.KindStepSkipped, checklist.StepSkippedBody{Step: "darks", Reason: "too cold"})
	return s
}

// sixty is the example's kit with subs of 60 s through every filter: with 4 s between them, and 12 s more for
// the dither after each fifth, 5 subs take 332 s.
func sixty() kit.Kit {
	k := kit.Example()
	for i := range k.Subs.Filters {
		k.Subs.Filters[i].Exposure = time.Minute
	}
	return k
}

func of(k kit.Kit, nights ...record.Events) record.Record {
	return record.Of(k, nights, func(plan.Date) bool { return true }, dusk.Add(24*time.Hour))
}

func TestGoldenRecords(t *testing.T) {
	k := kit.Example()
	r := of(k, evening(t, k).night())
	for name, write := range map[string]func(*bytes.Buffer) error{
		"record.txt": func(b *bytes.Buffer) error { return r.Text(b) }, "record.md": func(b *bytes.Buffer) error { return r.Markdown(b) },
		"record.json": func(b *bytes.Buffer) error { return r.JSON(b) }, "record.csv": func(b *bytes.Buffer) error { return r.CSV(b) },
	} {
		t.Run(name, func(t *testing.T) {
			var got bytes.Buffer
			require.NoError(t, write(&got))
			path := filepath.Join("testdata", name)
			if *update {
				require.NoError(t, os.MkdirAll("testdata", 0o755))
				require.NoError(t, os.WriteFile(path, got.Bytes(), 0o644))
			}
			want, err := os.ReadFile(path)
			require.NoError(t, err)
			assert.Equal(t, string(want), got.String())
		})
	}
}

func TestSubsAreThoseOfTheRuns(t *testing.T) {
	k := sixty()
	n := of(k, evening(t, k).night()).Nights[0]
	require.Len(t, n.Targets, 2)
	first := n.Targets[0]
	require.Len(t, first.Runs, 2)
	// 90 min = 5400 s: 16 fives in 5312 s, then one more in 60 s.
	assert.Equal(t, 81, first.Runs[0].Subs())
	// 60 min = 3600 s. The sequence goes on within its five, whose dither comes a sub earlier: 4 subs in
	// 268 s, then 10 fives in 3320 s, and 12 s that no sub fits.
	assert.Equal(t, 54, first.Runs[1].Subs())
	l := first.Runs[0].Filters[0]
	assert.Equal(t, "L", l.Filter)
	assert.Equal(t, record.Stretch{From: 1, To: 5}, l.Numbers[0])
	assert.Equal(t, record.Stretch{From: 21, To: 25}, l.Numbers[1])
	assert.Equal(t, dusk.Add(time.Minute), l.First)
	// 28 min = 1680 s of R alone: 5 fives in 1660 s, and 20 s that none fits.
	assert.Equal(t, "R", n.Targets[1].Runs[0].Filters[0].Filter)
	assert.Equal(t, 25, n.Targets[1].Runs[0].Subs())
	assert.Equal(t, 3, n.Targets[1].Runs[0].Number, "in the night")
}

func TestRewindsTellWhatTheyCost(t *testing.T) {
	k := sixty()
	n := of(k, evening(t, k).night()).Nights[0]
	require.Len(t, n.Rewinds, 1)
	w := n.Rewinds[0]
	assert.Equal(t, 51*time.Second, w.Turning.Round(time.Second)) // 25.5° at 0.5°/s
	// The last exposure ended at 1 min + 5372 s, the next began at 100 min = 60 s + 5940 s.
	assert.Equal(t, 568*time.Second, w.Pause)
	assert.True(t, w.Pauses)
}

func TestRunsWhoseFramesCoincide(t *testing.T) {
	k := kit.Example()
	k.Derotator.Min, k.Derotator.Max = -400*sky.Degree, 400*sky.Degree
	s := &story{t: t}
	s.say(-1, target(k, 0)).say(0, checklist.TurnOn{Angle: deg(0)})
	angle := 0.0
	for i, turn := range []float64{180, 0.2, 40, -179.9, 90} {
		at := float64(10 * i)
		s.say(at+1, checklist.StartSubs{}).say(at+6, checklist.StopSubs{})
		// The stage has tracked for 10 minutes; what counts is by how much the rewind turns it from there.
		course := plan.NewNight(k, fifth).Course(k.Targets[0], kit.Axis{Tilt: k.Axis.Tilt, Toward: k.Axis.Toward})
		now := course.Angle(plan.Anchor{At: dusk.Add(time.Duration(at) * time.Minute), Angle: sky.Angle(angle) * sky.Degree}, dusk.Add(time.Duration(at+10)*time.Minute))
		angle = now.Degrees() + turn
		s.say(at+10, checklist.Rewound{To: sky.Angle(angle) * sky.Degree})
	}
	s.say(51, checklist.StartSubs{}).say(56, checklist.StopSubs{})
	groups := func(k kit.Kit) string {
		var names strings.Builder
		for _, run := range of(k, s.night()).Nights[0].Targets[0].Runs {
			names.WriteString(run.Group)
		}
		return names.String()
	}
	assert.Equal(t, "AAABBC", groups(k), "at 0°, 180°, 180.2°, 220.2°, 40.3°, 130.3°")
	k.Camera.Width = k.Camera.Height
	assert.Equal(t, "AAABBB", groups(k), "a square chip coincides at quarter turns too")
	turned := of(k, s.night()).Nights[0].Targets[0].Groups[0].Turned
	assert.Equal(t, []int{2, 3}, turned)
}

func TestCommonFieldIsThatOfTheCameraAngles(t *testing.T) {
	k := kit.Example()
	target := of(k, evening(t, k).night()).Nights[0].Targets[0]
	var angles []sky.Angle
	for _, run := range target.Runs {
		angles = append(angles, run.CameraAngle)
	}
	assert.InDelta(t, 25.5, (angles[1] - angles[0]).Signed().Abs().Degrees(), 2, "about what the rewind turned, as read") // the reading is made up
	want := plan.Overlap(6248*sky.Arcsecond, 4176*sky.Arcsecond, angles)
	assert.InDelta(t, want.Share, target.Common.Share, 1e-9) // rounding
	assert.InDelta(t, want.CropWidth.Arcseconds(), float64(target.Crop.Width), 1)
	assert.Less(t, target.Common.Share, 0.95)
}

func TestOwedUntilSomebodySaysDone(t *testing.T) {
	k := kit.Example()
	state := func(s *story, frames string) record.Owed {
		for _, o := range of(k, s.night()).Nights[0].Owed {
			if o.Frames == frames {
				return o
			}
		}
		return record.Owed{}
	}
	s := evening(t, k)
	assert.True(t, state(s, "flats").Done)
	assert.Equal(t, record.Owed{Frames: "darks", For: "60 s", State: "skipped: too cold"}, state(s, "darks"))
	assert.Equal(t, record.Owed{Frames: "bias", State: "not recorded"}, state(s, "bias"))
	s.say(210, checklist.WriteNote{Text: "darks not done yet"})
	assert.False(t, state(s, "darks").Done)
	s.say(211, checklist.WriteNote{Text: "Darks done, 40 of them."})
	assert.True(t, state(s, "darks").Done)
	s.say(212, checklist.Undo{})
	assert.False(t, state(s, "darks").Done, "taken back")
	assert.Empty(t, of(k, (&story{t: t}).say(0, checklist.OpenNight{}).night()).Nights[0].Owed, "no subs, no debts")
}

func TestTotalsAreOverAllNightsAndWhatIsLeft(t *testing.T) {
	k := kit.Example()
	one := evening(t, k).night()
	two := evening(t, k).night()
	two.Date.Day = 6
	for i := range two.Events {
		two.Events[i].At = two.Events[i].At.Add(24 * time.Hour)
	}
	r := record.Of(k, []record.Events{one, two}, func(d plan.Date) bool { return d == fifth }, dusk.Add(72*time.Hour))
	require.Len(t, r.Nights, 1, "only what was asked for is shown")
	subs := map[string]int{}
	for _, f := range r.Nights[0].Targets[0].Counts {
		subs[f.Filter] = f.Count
	}
	for _, total := range r.Totals {
		if total.Target != k.Targets[0].Name {
			continue
		}
		assert.Equal(t, 2*subs[total.Filter], total.Count, total.Filter)
		assert.Equal(t, 2, total.Nights)
		assert.Equal(t, max(0, total.Wanted-total.Count), total.Left())
	}
	assert.Equal(t, 4*len(k.Targets), len(r.Totals), "what was not begun is still wanted")
}

func TestExposuresThatNoCountHas(t *testing.T) {
	k := sixty()
	s := (&story{t: t}).say(0, checklist.TurnOn{}).say(1, checklist.StartSubs{}).say(21, checklist.Read{Angle: *deg(3)}).say(31, checklist.StopSubs{}).
		say(32, checklist.StartSubs{Filter: "Ha"}).say(42, checklist.StopSubs{})
	n := of(k, s.night()).Nights[0]
	require.Len(t, n.Strays, 2)
	assert.Equal(t, record.Stray{Span: plan.Span{From: dusk.Add(32 * time.Minute), To: dusk.Add(42 * time.Minute)}, Filter: "Ha", Why: "the kit has no such filter"}, n.Strays[0])
	assert.Equal(t, record.Stray{Span: plan.Span{From: dusk.Add(time.Minute), To: dusk.Add(21 * time.Minute)}, Why: "nobody knew the derotator's angle"}, n.Strays[1])
	assert.Equal(t, 9, n.Targets[0].Runs[0].Subs(), "600 s from the reading on")
}

func TestANightThatNobodyEndedEndsWithTheDark(t *testing.T) {
	k := kit.Example()
	k.Subs.Filters[0].Count = 100_000
	s := (&story{t: t}).say(0, checklist.TurnOn{Angle: deg(0)}).say(1, checklist.StartSubs{Filter: "L"})
	run := of(k, s.night()).Nights[0].Targets[0].Runs[0]
	assert.True(t, run.Open)
	dawn := time.Date(2026, 12, 5, 17, 42, 0, 0, time.UTC) // as the plan prints it, to the minute
	assert.WithinDuration(t, dawn, run.To, time.Minute)
	assert.False(t, run.Filters[0].Last.After(run.To))
	live := record.Of(k, []record.Events{s.night()}, func(plan.Date) bool { return true }, dusk.Add(10*time.Minute))
	assert.Equal(t, 8, live.Nights[0].Targets[0].Runs[0].Subs(), "540 s: 5 in 332 s, 3 more in 192 s")
}

func TestAClockThatJumpedKeepsTheRecordInOrder(t *testing.T) {
	k := kit.Example()
	at := func(minute float64) time.Time { return dusk.Add(time.Duration(minute * float64(time.Minute))) }
	s := (&story{t: t}).say(0, checklist.TurnOn{Angle: deg(-16)}).say(1, checklist.StartSubs{}).say(2, checklist.WriteNote{Text: "before"}).
		say(10, checklist.NoticeJump{From: at(10), To: at(70)}).say(80, checklist.StopSubs{}).say(81, checklist.WriteNote{Text: "after"})
	n := of(k, s.night()).Nights[0]
	assert.Equal(t, at(61), n.Targets[0].Runs[0].Filters[0].First, "on the clock as it goes now")
	var times []time.Time
	for _, m := range n.Mentions {
		times = append(times, m.At)
	}
	assert.Equal(t, []time.Time{at(62), at(70), at(81)}, times)
	assert.Contains(t, n.Mentions[1].Text, "went ahead by 1 h 00 min")
}

func TestWritersKeepOneShape(t *testing.T) {
	k := kit.Example()
	r := of(k, evening(t, k).night(), record.Events{Date: plan.Date{Year: 2026, Month: 12, Day: 7}})
	var text, table bytes.Buffer
	require.NoError(t, r.Text(&text))
	for _, line := range strings.Split(text.String(), "\n") {
		assert.Equal(t, strings.TrimRight(line, " "), line)
	}
	assert.Contains(t, text.String(), "No run was recorded.")
	require.NoError(t, r.CSV(&table))
	rows, err := csv.NewReader(&table).ReadAll() // refuses rows of unequal length
	require.NoError(t, err)
	assert.Greater(t, len(rows), 5)
	var document bytes.Buffer
	require.NoError(t, r.JSON(&document))
	assert.True(t, json.Valid(document.Bytes()))
	assert.NotContains(t, document.String(), "-0,")
}

// A run that began before any target was chosen was the kit's first's, as the screens had it, whatever is chosen
// afterwards.
func TestARunBeforeAnyChoiceIsTheFirstTargets(t *testing.T) {
	k := sixty()
	s := &story{t: t}
	s.say(0, checklist.TurnOn{Angle: deg(-16)}, checklist.StartSubs{}).say(30, checklist.StopSubs{})
	other := target(k, 1)
	other.Angle = deg(3)
	s.say(40, other).say(45, checklist.StartSubs{}).say(60, checklist.StopSubs{}, checklist.TurnOff{})
	targets := of(k, s.night()).Nights[0].Targets
	require.Len(t, targets, 2)
	assert.Equal(t, k.Targets[0].Name, targets[0].Name)
	assert.Equal(t, k.Targets[1].Name, targets[1].Name)
}

// A program for tables would take such a cell for a formula.
func TestNoCellOfTheTableIsAFormula(t *testing.T) {
	k := sixty()
	k.Targets[0].Name = "=HYPERLINK(\"http://example.org\")"
	k.Subs.Filters[0].Name = "@SUM(1)"
	s := &story{t: t}
	s.say(0, target(k, 0), checklist.TurnOn{Angle: deg(-16)}, checklist.StartSubs{}).say(30, checklist.StopSubs{})
	var table bytes.Buffer
	require.NoError(t, of(k, s.night()).CSV(&table))
	rows, err := csv.NewReader(&table).ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(rows), 1)
	assert.Equal(t, "'=HYPERLINK(\"http://example.org\")", rows[1][1])
	assert.Equal(t, "'@SUM(1)", rows[1][10])
}
