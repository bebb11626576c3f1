package checklist_test

import (
	"encoding/json"
	"testing"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/sky"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// anyAction draws an action; many make no sense where they fall and are refused.
func anyAction(t *rapid.T) checklist.Action {
	angle := sky.Angle(rapid.Float64Range(-180, 180).Draw(t, "degrees")) * sky.Degree
	known := &angle
	if rapid.Bool().Draw(t, "unknown") {
		known = nil
	}
	target := rapid.SampledFrom([]checklist.Target{tarantula, orion}).Draw(t, "target")
	return rapid.SampledFrom([]checklist.Action{
		checklist.OpenNight{Kit: "kit.toml"}, checklist.ChooseTarget{Target: target, Angle: known},
		checklist.TurnOn{Angle: known}, checklist.TurnOff{}, checklist.Rewound{From: known, To: angle},
		checklist.Read{Angle: angle}, checklist.StartSubs{Filter: target.Name}, checklist.StopSubs{},
		checklist.MeasureAxis{Tilt: angle}, checklist.WriteNote{Text: "x"}, checklist.Undo{}, checklist.Redo{},
		checklist.GuidingCalibrated{}, checklist.GuidingOn{}, checklist.GuidingOff{}, checklist.GuidingLost{}, checklist.GuideChecked{Yes: angle > 0},
		checklist.Recentred{}, checklist.CablesStraight{}, checklist.CloudCame{}, checklist.SkyCleared{},
		checklist.Sighted{Name: target.Name, Star: target.Star, Unread: angle > 0}, checklist.DoStep{Step: "start-guiding"},
		checklist.NoticeJump{From: dusk, To: dusk.Add(time.Duration(angle.Degrees()) * time.Minute)},
	}).Draw(t, "action")
}

func TestInvariantsOfAnyNight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var events []journal.Event
		n, at := checklist.Night{}, dusk
		for range rapid.IntRange(1, 40).Draw(t, "length") {
			at = at.Add(time.Duration(rapid.IntRange(-5, 30).Draw(t, "minutes")) * time.Minute)
			kind, body, err := checklist.Say(n, anyAction(t), adelaide)
			if err != nil {
				continue
			}
			text, err := json.Marshal(body)
			require.NoError(t, err)
			e := journal.Event{Ordinal: int64(len(events) + 1), Night: "2026-12-05", At: at, Kind: kind, Body: text}
			events = append(events, e)
			before := n
			n = n.Next(e)
			require.Equal(t, checklist.Fold(events), n)
			require.Equal(t, checklist.Fold(events[:len(events)-1]), before)
			checkNight(t, n, at)
		}
	})
}

func checkNight(t *rapid.T, n checklist.Night, now time.Time) {
	for i, run := range n.Runs {
		require.False(t, run.Open && i < len(n.Runs)-1, "only the last run can be open")
		require.Equal(t, run.Open, run.End.IsZero())
		require.GreaterOrEqual(t, run.Lasted(now), time.Duration(0))
		if i > 0 {
			require.False(t, run.Start.Before(n.Runs[i-1].End), "runs do not overlap")
		}
		last := run.Start
		for _, s := range run.Subs {
			require.False(t, s.Start.Before(last), "subs follow each other within the run")
			require.False(t, s.End.Before(s.Start))
			last = s.End
		}
		if !run.Open {
			require.False(t, run.End.Before(last), "subs end with the run")
			require.LessOrEqual(t, run.Exposing(), run.Lasted(now))
		}
	}
	_, open := n.OpenRun()
	require.Equal(t, open, n.Anchor != nil, "a run is open exactly while an angle is tracked from")
	require.True(t, n.DerotatorOn || n.Anchor == nil)
	require.True(t, n.Parked == nil || !n.DerotatorOn)
	require.True(t, n.DerotatorOn || n.Subs == nil, "no subs without the derotator")
	require.Empty(t, n.PassedOver)
	if n.Anchor != nil {
		require.False(t, n.Latest.Before(n.Anchor.At))
	}
	if len(n.Readings) > 0 {
		require.Equal(t, n.Readings[len(n.Readings)-1].At, n.Anchor.At)
	}
}

// Whatever a body holds, the fold passes it over or takes it, without a panic.
func TestAnyBodyIsTakenOrPassedOver(t *testing.T) {
	kinds := []string{checklist.KindNightOpened, checklist.KindTargetChosen, checklist.KindDerotatorOn, checklist.KindDerotatorOff,
		checklist.KindRewound, checklist.KindRead, checklist.KindSubsStarted, checklist.KindSubsStopped, checklist.KindAxisMeasured,
		checklist.KindStepDone, checklist.KindStepSkipped, checklist.KindStepFailed,
		checklist.KindNoted, checklist.KindClockJumped, checklist.KindUndone, "unknown"}
	bodies := []string{``, `null`, `{}`, `[]`, `"x"`, `{"ordinal":1}`, `{"ordinal":-3}`, `{"step":"park","loop":-1}`, `{"step":7}`, `{"angle_deg":"x"}`, `{"angle_deg":1e300}`, `{`}
	rapid.Check(t, func(t *rapid.T) {
		var events []journal.Event
		n := checklist.Night{}
		for i := range rapid.IntRange(1, 30).Draw(t, "length") {
			events = append(events, journal.Event{Ordinal: int64(i + 1), At: dusk, Night: "2026-12-05",
				Kind: rapid.SampledFrom(kinds).Draw(t, "kind"),
				Body: json.RawMessage(rapid.SampledFrom(bodies).Draw(t, "body"))})
			n = n.Next(events[i])
		}
		require.Equal(t, checklist.Fold(events), n)
		checklist.Steps().State(n)
	})
}
