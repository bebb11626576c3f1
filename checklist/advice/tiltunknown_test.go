package advice_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// NGC 1365 passes the keyhole: before it, and from 14:05 to 14:19, only some of the axes that the mount's may be keep it
// closed. Who waits for nothing else then is told that it is for not knowing the tilt, and until the instant that the
// plan has; while every axis keeps it closed it is the keyhole.
func TestAWaitForNotKnowingTheTiltSaysSo(t *testing.T) {
	n := example(t, func(k *kit.Kit) { k.Targets, k.Axis.Uncertainty = k.Targets[1:], 3*sky.Degree })
	n.say(utc(11, 9), checklist.TurnOn{Angle: degrees(-5)})
	n.say(utc(11, 10), checklist.StartSubs{})
	n.say(utc(12, 10), checklist.StopSubs{})
	for _, c := range []struct {
		at  time.Time
		why advice.Why
	}{{utc(12, 26), advice.Ceiling}, {utc(12, 50), advice.Ceiling}, {utc(14, 7), advice.TiltUnknown}} {
		m := n.at(c.at)
		a := advice.Decide(m, n.steps)
		require.Equal(t, advice.Wait, a.Do, "%s", c.at)
		assert.Equal(t, c.why, a.Why, "%s", c.at)
		require.NotNil(t, a.From)
		rewind, ok := m.Ahead().RewindBefore(0)
		require.True(t, ok)
		assert.WithinDuration(t, rewind.From, *a.From, n.kit.Subs.Loop, "at %s: the pause is used for the window, the plan begins its run two minutes later", c.at)
		assert.Nil(t, a.Offer)
	}
}

// The price of the wait is said by the plan, and a better knowledge of the axis takes it away.
func TestKnowingTheTiltEndsTheWaitForIt(t *testing.T) {
	n := example(t, func(k *kit.Kit) { k.Targets, k.Axis.Uncertainty = k.Targets[1:], 3*sky.Degree })
	m := n.at(utc(11, 0))
	price := m.Price()
	assert.Greater(t, price.Exact, 10*time.Minute)
	assert.GreaterOrEqual(t, price.Sights, price.Reading)
	known := example(t, func(k *kit.Kit) { k.Targets, k.Axis.Uncertainty = k.Targets[1:], 0 }).at(utc(11, 0)).Ahead()
	assert.InDelta(t, price.Exact.Seconds(), (known.Exposed() - m.Ahead().Exposed()).Seconds(), 1)
	for _, gap := range known.Gaps {
		assert.False(t, gap.OnlyUncertain())
	}
}
