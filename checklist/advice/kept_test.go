package advice_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/plan/kit"
)

// What is kept from one derivation to the next is what would be planned anew: through a whole night, by ends and
// anywhere, whatever is said meanwhile.
func TestWhatIsKeptIsWhatWouldBePlannedAnew(t *testing.T) {
	for name, anywhere := range map[string]bool{"stops at its ends": false, "stops anywhere": true} {
		t.Run(name, func(t *testing.T) {
			n := example(t, func(k *kit.Kit) { k.Derotator.StopsAnywhere = anywhere })
			for now := utc(8, 0); now.Before(utc(19, 30)); now = now.Add(31 * time.Minute) {
				m := n.at(now)
				anew := advice.For(n.kit, n.date, n.log, now, nil)
				require.Equal(t, anew.Ahead().Runs, n.tonight.Ahead().Runs, "at %s", now)
				require.Equal(t, anew.Ahead().Gaps, n.tonight.Ahead().Gaps, "at %s", now)
				require.Equal(t, anew.Ahead().Dark, n.tonight.Ahead().Dark, "at %s", now)
				require.Equal(t, anew.At(now).SubsLeft(), m.SubsLeft(), "at %s", now)
				for range 5 {
					if a := advice.Decide(n.at(now), n.steps); a.Offer != nil {
						now = now.Add(20 * time.Second)
						n.say(now, a.Offer)
					}
				}
			}
			assert.NotEmpty(t, n.log.Runs)
		})
	}
}

// What only needs the limit of the run that goes on, its call and the advice to wait for it, plans nothing.
func TestNothingIsPlannedToCountDownARun(t *testing.T) {
	n := example(t, nil)
	require.True(t, n.kit.Derotator.StopsAnywhere)
	n.say(utc(11, 8), checklist.TurnOn{Angle: degrees(-16)})
	n.say(utc(11, 9), checklist.StartSubs{})
	alone := advice.For(n.kit, n.date, n.log, utc(11, 30), nil)
	call, ok := alone.Call(utc(11, 30))
	require.True(t, ok)
	a := advice.Decide(alone.At(utc(11, 30)), n.steps)
	assert.Equal(t, advice.Wait, a.Do)
	assert.Equal(t, call.At, *a.By)
	assert.Zero(t, alone.Planned())
	alone.Ahead()
	assert.Equal(t, 1, alone.Planned())
}
