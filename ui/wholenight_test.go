package ui_test

import (
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/kit"
)

// A whole night with one key: the checklist from the pier to the first sub, then each call as it comes,
// until the window closes and everything is stowed. The operator of this test is slow: twenty seconds for
// every answer. What was taken is what the plan at dusk promised, less those seconds.
func TestAWholeNightWithOneKey(t *testing.T) {
	s := at(t, local(20, 0), nil)
	s.press("1")
	offers := regexp.MustCompile(`space ([a-z]+ ?[a-z]*)`)
	rewinds := 0
	for s.now.Before(local(4, 20)) {
		s.pass(20 * time.Second)
		offer := offers.FindStringSubmatch(s.text())
		if offer == nil {
			continue // waiting offers nothing
		}
		if offer[1] == "rewound to" {
			rewinds++
			s.pass(time.Minute + kit.Example().Subs.Loop) // the stage turns, and what else belongs to the loop
		}
		s.press("space")
	}
	s.sees("the last window of NGC 2070 is over: twilight")
	assert.GreaterOrEqual(t, rewinds, 3)

	taken := map[string]int{}
	for _, count := range regexp.MustCompile(`([LRGB]) (\d+)/\d+`).FindAllStringSubmatch(s.text(), -1) {
		n, err := strconv.Atoi(count[2])
		require.NoError(t, err)
		taken[count[1]] = n
	}
	k := kit.Example()
	night := plan.NewNight(k, plan.DateOf(k.Site.Place, s.now))
	planned := night.Course(k.Targets[0], k.Axis).Schedule(plan.Start{At: night.Span.From}, plan.NewSequence(k.Subs))
	var got, want time.Duration
	for i, filter := range k.Subs.Filters {
		got += time.Duration(taken[filter.Name]) * filter.Exposure
		want += time.Duration(planned.After.Taken()[i]) * filter.Exposure
	}
	assert.GreaterOrEqual(t, got.Minutes(), want.Minutes()*0.94, "%v taken, %v planned", got, want)
	longest := 2 * time.Minute // of a sub: the plan may lay one less at each run's end
	assert.LessOrEqual(t, got, want+time.Duration(rewinds+1)*longest)

	// Stow, by the checklist.
	s.press("b")
	for range 30 {
		if strings.Contains(s.text(), "0 of ") {
			break
		}
		s.pass(20 * time.Second).press("space")
	}
	s.sees("0 of ", "steps of this stage left")
}
