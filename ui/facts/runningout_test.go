package facts_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/plan/kit"
	"duskhand/sky/words"
	"duskhand/ui/facts"
	"duskhand/ui/say"
)

func kindsOf(all []facts.RunningOut) (kinds []facts.AlertKind) {
	for _, out := range all {
		kinds = append(kinds, out.Kind)
	}
	return kinds
}

func TestWhatRunsOutWithinTheNextRun(t *testing.T) {
	n := exposing(t)
	r := n.at(dusk.Add(10 * time.Minute))
	assert.Empty(t, kindsOf(r.RunningOut(nil)), "the example's battery lasts")

	room := uint64(20 * 53e6) // a frame of 6248 × 4176 pixels takes 52.2 MB
	out := r.RunningOut(&room)
	require.Equal(t, []facts.AlertKind{facts.DiskFills}, kindsOf(out))
	n20 := 0
	for _, sub := range r.Call.Subs {
		if sub.Exposure.To.After(r.Now) && sub.Exposure.From.Before(out[0].At) {
			n20++
		}
	}
	assert.Equal(t, 20, n20, "the sub after twenty finds no room")
	assert.Equal(t, advice.Warning, alert(t, r, &room, facts.DiskFills).Level)
	plenty := uint64(1e12)
	assert.Empty(t, r.RunningOut(&plenty))
	assert.Equal(t, advice.Quiet, alert(t, r, &plenty, facts.DiskFills).Level)
}

func TestABatteryThatEndsInTheNextRun(t *testing.T) {
	n := exposing(t)
	n.kit.Power.BatteryWh *= 0.3
	n.tonight = nil
	r := n.at(dusk.Add(10 * time.Minute))
	out := r.RunningOut(nil)
	require.Equal(t, []facts.AlertKind{facts.BatteryEnds}, kindsOf(out))
	assert.Contains(t, say.RunningOut(r, out[0])[0], words.Minute(out[0].At, n.kit.Site.Zone))
	a := alert(t, r, nil, facts.BatteryEnds)
	assert.Equal(t, advice.Warning, a.Level)
	assert.Equal(t, []facts.AlertKind{facts.BatteryEnds}, []facts.AlertKind{say.Besides(say.Alerts(r, r.Advice(), r.SubsAt(nil, false)))[0].Kind})
}

// The tube cools by 5 K in an hour, which the focus does not bear to the end of the next run.
func TestFocusThatGoes(t *testing.T) {
	n := exposing(t)
	n.at(dusk.Add(2*time.Minute), checklist.StopSubs{})
	warm := 18.0
	n.at(dusk.Add(3*time.Minute), checklist.FocusNow{TempC: &warm})
	n.at(dusk.Add(4*time.Minute), checklist.StartSubs{})
	r := n.at(dusk.Add(33*time.Minute), checklist.ReadTemperature{TempC: 15.5})
	out := r.RunningOut(nil)
	require.Equal(t, []facts.AlertKind{facts.FocusGoes}, kindsOf(out))
	assert.Contains(t, say.RunningOut(r, out[0])[0], "as it cools")
	r = n.at(dusk.Add(63*time.Minute), checklist.ReadTemperature{TempC: 10})
	assert.Contains(t, alert(t, r, nil, facts.FocusGoes).Words, "is used up")
}

func TestTheKeyholeComes(t *testing.T) {
	n := &night{t: t, kit: kit.Example()}
	n.kit.Targets = n.kit.Targets[1:]
	n.at(dusk.Add(30*time.Minute), checklist.TurnOn{Angle: degrees(-5)})
	n.at(dusk.Add(31*time.Minute), checklist.StartSubs{})
	r := n.at(dusk.Add(32 * time.Minute))
	early := r.Window.Ceiling.Early
	require.True(t, early.OK)
	require.Equal(t, []facts.AlertKind{facts.KeyholeNear}, kindsOf(r.RunningOut(nil)))
	assert.Equal(t, advice.Quiet, alert(t, r, nil, facts.KeyholeNear).Level, "the run's own call counts to it")
	near := n.tonight.At(early.At.Add(-9 * time.Minute))
	assert.Equal(t, advice.Warning, alert(t, near, nil, facts.KeyholeNear).Level)
	assert.Contains(t, alert(t, near, nil, facts.KeyholeNear).Words, "in 9 min")
}
