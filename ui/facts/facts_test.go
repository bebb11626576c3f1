package facts_test

import (
	"encoding/json"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/checklist/journal"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/ui/facts"
)

var date = plan.Date{Year: 2026, Month: time.December, Day: 5}

// dusk is astronomical dusk of the example night, 21:37 at its site.
var dusk = time.Date(2026, 12, 5, 11, 7, 2, 0, time.UTC)

// night says actions one after the other and derives the facts after each.
type night struct {
	t       require.TestingT
	kit     kit.Kit
	log     checklist.Night
	ordinal int64
	tonight *facts.Tonight
}

func (n *night) at(when time.Time, actions ...checklist.Action) facts.Run {
	for _, a := range actions {
		n.tonight = facts.For(n.kit, date, n.log, when, n.tonight)
		kind, body, err := checklist.Say(n.log, n.tonight.At(when).Completed(a), n.kit.Site.Zone)
		require.NoError(n.t, err)
		raw, err := json.Marshal(body)
		require.NoError(n.t, err)
		n.ordinal++
		n.log = n.log.Next(journal.Event{Ordinal: n.ordinal, Night: date.String(), At: when, Kind: kind, Body: raw})
	}
	n.tonight = facts.For(n.kit, date, n.log, when, n.tonight)
	return n.tonight.At(when)
}

func degrees(x float64) *sky.Angle {
	a := sky.Angle(x) * sky.Degree
	return &a
}

func TestAdviceOfARun(t *testing.T) {
	n := &night{t: t, kit: kit.Example()}
	n.at(dusk.Add(-time.Minute), checklist.TurnOn{Angle: degrees(-16)})
	r := n.at(dusk.Add(time.Minute), checklist.StartSubs{})
	assert.Equal(t, advice.Wait, r.Advice().Do)
	assert.Equal(t, r.Call.At, *r.Advice().By)
	assert.Nil(t, r.Advice().Offer, "waiting offers nothing")
	assert.True(t, r.Call.Rewind())
	last, ok := r.Call.Last()
	require.True(t, ok)
	assert.Equal(t, advice.FinishSub, n.tonight.At(last.Exposure.From).Advice().Do)
	assert.Equal(t, advice.Warning, n.tonight.At(last.Over.Add(-4*time.Minute)).Advice().Level, "the kit warns five minutes before")
	due := n.tonight.At(last.Over).Advice()
	assert.Equal(t, advice.Rewind, due.Do)
	assert.Equal(t, advice.Limit, due.Why)
	assert.Equal(t, checklist.StopSubs{}, due.Offer, "the subs come first")
	past := n.tonight.At(r.Call.Limit.At.At).Advice()
	assert.Equal(t, advice.StopSubs, past.Do)
	assert.Equal(t, advice.Limit, past.Why)
	assert.Equal(t, advice.Calling, past.Level)
	dawn := n.tonight.At(r.Call.Window.To).Advice()
	assert.Equal(t, advice.StopSubs, dawn.Do, "still exposing at dawn")
}

func TestTargetThatIsNeverUsable(t *testing.T) {
	k := kit.Example()
	k.Targets = []kit.Target{{Name: "north", Star: sky.Star{Place: sky.J2000{Dec: 85 * sky.Degree}}}}
	n := &night{t: t, kit: k}
	r := n.at(dusk)
	assert.Empty(t, r.Windows)
	assert.Equal(t, advice.Stow, r.Advice().Do)
	assert.Equal(t, advice.NothingLeft, r.Advice().Why)
}

func TestWhatIsKnownNeedNotBeSaid(t *testing.T) {
	n := &night{t: t, kit: kit.Example()}
	n.at(dusk, checklist.TurnOn{Angle: degrees(-10)})
	r := n.at(dusk.Add(20 * time.Minute))
	off, ok := r.Completed(checklist.TurnOff{}).(checklist.TurnOff)
	require.True(t, ok)
	require.NotNil(t, off.Angle)
	assert.Equal(t, r.Angle, *off.Angle)
	said := r.Completed(checklist.Rewound{From: degrees(3), To: -16 * sky.Degree}).(checklist.Rewound)
	assert.Equal(t, *degrees(3), *said.From, "what was said stands")
	n.at(dusk.Add(20*time.Minute), checklist.TurnOff{})
	require.NotNil(t, n.log.Parked, "it is known where it was left")
	assert.InDelta(t, r.Angle.Degrees(), n.log.Parked.Degrees(), 1e-9)
}

// A reading holds for the whole run: the camera angle in the table is counted from it.
func TestReadingsCountInTheTable(t *testing.T) {
	n := &night{t: t, kit: kit.Example()}
	n.at(dusk, checklist.TurnOn{Angle: degrees(-10)})
	n.at(dusk.Add(30*time.Minute), checklist.Read{Angle: *degrees(2)})
	n.at(dusk.Add(40*time.Minute), checklist.TurnOff{})
	row := n.tonight.Rows()[0]
	course := n.tonight.Course
	assert.Equal(t, course.OfJ2000(course.CameraAngle(*degrees(2), dusk.Add(30*time.Minute))), row.CameraAngle)
	want := course.Angle(plan.Anchor{At: dusk.Add(30 * time.Minute), Angle: *degrees(2)}, dusk.Add(40*time.Minute))
	assert.InDelta(t, want.Degrees(), row.EndAngle.Degrees(), 1e-9)
}

// The rows of the night follow one another, and what the night still gives never grows by waiting.
func TestRowsFollowOneAnother(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := &night{t: t, kit: kit.Example()}
		n.kit.Derotator.Sense = rapid.SampledFrom([]int{-1, 1}).Draw(t, "sense")
		now := dusk.Add(time.Duration(rapid.IntRange(0, 300).Draw(t, "minutes")) * time.Minute)
		start := sky.Angle(rapid.IntRange(-16, 16).Draw(t, "start")) * sky.Degree
		r := n.at(now, checklist.TurnOn{Angle: &start})
		if rapid.Bool().Draw(t, "subs") {
			now = now.Add(time.Minute)
			r = n.at(now, checklist.StartSubs{})
		}
		var before time.Time
		for _, row := range n.tonight.Rows() {
			require.False(t, row.From.Before(before), "rows overlap at %v", row.From)
			require.False(t, row.To.Before(row.From))
			before = row.To
		}
		require.True(t, r.Angle >= n.kit.Derotator.Min && r.Angle <= n.kit.Derotator.Max)
		left := r.SubsLeft()
		later := n.at(now.Add(30 * time.Minute)).SubsLeft()
		// Another start fits the subs a little otherwise: one more of the longest, at most.
		require.LessOrEqual(t, later, left+2*time.Minute)
	})
}
