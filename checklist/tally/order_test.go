package tally_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/tally"
	"duskhand/plan"
	"duskhand/plan/kit"
)

// The order that was told when subs were begun holds for that stretch, whatever is planned later.
func TestAStretchIsCountedInTheOrderThatItWasBegunWith(t *testing.T) {
	order := []plan.FilterCount{{Filter: "R", Count: 7}, {Filter: "L", Count: 8}}
	s := (&night{t: t}).
		say(0, checklist.TurnOn{Angle: deg(-16)}).
		say(1, checklist.StartSubs{Order: order}).say(11, checklist.StopSubs{}). // 600 s: 9 subs
		say(12, checklist.StartSubs{})
	counted := tally.Count(kit.Kit{Subs: subs()}, s.log, "NGC 2070")
	assert.Equal(t, map[string]int{"R": 7, "L": 2}, count(counted.Runs[0]))
	assert.Empty(t, counted.Sequence("NGC 2070").Order(), "it is laid anew for the next")
	progress, _ := counted.Progress("NGC 2070", *s.log.Subs, dusk.Add(19*time.Minute)) // 420 s: 6 subs
	assert.Equal(t, map[string]int{"L": 3, "R": 3}, count(progress.Done), "and without one they take turns")
}

// What has arrived is off the order; a sub that was lost is still on it.
func TestFramesThatArriveAreOffTheOrder(t *testing.T) {
	order := []plan.FilterCount{{Filter: "R", Count: 3}, {Filter: "L", Count: 8}}
	s := (&night{t: t}).say(0, checklist.TurnOn{Angle: deg(-16)}).say(1, checklist.StartSubs{Order: order})
	s.arrived(dusk.Add(time.Minute), "R", 60).arrived(dusk.Add(3*time.Minute), "R", 60)
	counted := tally.Count(kit.Kit{Subs: subs()}, s.log, "NGC 2070")
	stretch, going := counted.Going()
	require.True(t, going)
	sequence, known := counted.Begin("NGC 2070", stretch)
	require.True(t, known)
	assert.Equal(t, []plan.FilterCount{{Filter: "R", Count: 1}, {Filter: "L", Count: 8}}, sequence.Order())
}
