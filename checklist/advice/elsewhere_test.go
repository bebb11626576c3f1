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

// Whoever has all subs of the first target is told of the kit's other one, as long as it gives what a rewind is worth.
func TestTheRestOfTheNightIsForAnotherTargetWhenOneIsComplete(t *testing.T) {
	taken := func(change func(*kit.Kit)) *model {
		n := example(t, func(k *kit.Kit) {
			k.Subs.Filters = []kit.Filter{{Name: "L", Exposure: time.Minute, Count: 20}}
			if change != nil {
				change(k)
			}
		})
		n.say(utc(11, 8), checklist.TurnOn{Angle: degrees(-16)})
		n.say(utc(11, 9), checklist.StartSubs{})
		return n
	}
	n := taken(nil)
	over := n.at(utc(11, 10)).Call.At.Add(time.Second)
	a := n.advice(over)
	require.Equal(t, advice.StopSubs, a.Do)
	assert.Equal(t, advice.GoalReached, a.Why)
	n.say(over, a.Offer)
	other, ok := n.at(over).Elsewhere()
	require.True(t, ok)
	assert.Equal(t, n.kit.Targets[1].Name, other.Target.Name)
	assert.Equal(t, 20*time.Minute, other.Exposed, "its own subs are still wanted")
	assert.True(t, other.Until.After(over))
	n.say(over.Add(time.Second), checklist.GuidingOn{})
	assert.Equal(t, checklist.GuidingOff{}, n.advice(over.Add(time.Second)).Offer, "no go-to while it guides")
	n.say(over.Add(time.Second), checklist.GuidingOff{})
	next := n.advice(over.Add(time.Second))
	assert.Equal(t, advice.HandOver, next.Do)
	assert.Equal(t, advice.GoalReached, next.Why)
	assert.Equal(t, n.kit.Targets[1].Name, next.Target)
	said, ok := next.Offer.(checklist.ChooseTarget)
	require.True(t, ok, "the one key goes on to it: %T", next.Offer)
	n.say(over.Add(2*time.Second), said)
	assert.NotEqual(t, advice.Stow, n.advice(over.Add(3*time.Second)).Do)

	one := taken(func(k *kit.Kit) { k.Targets = k.Targets[:1] })
	_, ok = one.at(over).Elsewhere()
	assert.False(t, ok, "the kit has no other target")
	dear := taken(func(k *kit.Kit) { k.Subs.WorthARewind = 21 * time.Minute })
	_, ok = dear.at(over).Elsewhere()
	assert.False(t, ok, "it gives less than a rewind is worth")
}
