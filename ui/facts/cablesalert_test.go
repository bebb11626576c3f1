package facts_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/ui/facts"
)

// The run follows its target by so much; the cables are given reach for half of that.
func TestCablesThatEndWithinTheRun(t *testing.T) {
	of := func(reach *sky.Angle, from *sky.Angle) facts.Run {
		n := &night{t: t, kit: kit.Example()}
		n.kit.Mount.Cables.Straight = 180 * sky.Degree
		n.kit.Mount.Cables.To, n.kit.Mount.Cables.From = reach, from
		target := n.kit.Targets[0]
		n.at(dusk.Add(-time.Hour), checklist.ChooseTarget{Target: checklist.Target{Name: target.Name, Star: target.Star}})
		n.at(dusk, checklist.TurnOn{Angle: degrees(-16)})
		n.at(dusk.Add(time.Minute), checklist.StartSubs{})
		return n.at(dusk.Add(2 * time.Minute))
	}
	assert.Equal(t, advice.Quiet, alert(t, of(nil, nil), nil, facts.CablesEnd).Level, "without a bound nothing is said of an end")
	far, back := 1000*sky.Degree, -1000*sky.Degree
	r := of(&far, &back)
	require.Equal(t, advice.Quiet, alert(t, r, nil, facts.CablesEnd).Level)
	now := r.Log.WoundAt(r.Kit, func(string, sky.Star) *plan.Course { return r.Course }, r.Now)
	end := r.Log.WoundAt(r.Kit, func(string, sky.Star) *plan.Course { return r.Course }, r.Call.By)
	require.Greater(t, (end.Azimuth - now.Azimuth).Abs().Degrees(), 2.0)
	half := (now.Azimuth + end.Azimuth) / 2
	short := of(&half, &back)
	if end.Azimuth < now.Azimuth {
		short = of(&far, &half)
	}
	a := alert(t, short, nil, facts.CablesEnd)
	assert.Equal(t, advice.Warning, a.Level)
	assert.Contains(t, a.Words, "the mount's cables come to their end at")

	past := alert(t, short.Tonight.At(short.Call.At), nil, facts.CablesEnd)
	assert.Equal(t, advice.Calling, past.Level, "what was warned of has come")
	assert.Contains(t, past.Words, "the mount's cables are past their end since")
}
