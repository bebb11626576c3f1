package share_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/plan/share"
	"duskhand/sky"
)

// Two targets of forty subs of two minutes in a night of nine hours: who has time to spare does not sit by idle from
// dusk on until the first stands higher. The whole takes twice eighty minutes of exposure, their overheads, a
// hand-over of twelve minutes and what the grid of five is worth at either end.
func TestWithTimeToSpareTheNightBeginsAtDusk(t *testing.T) {
	k := kit.Example()
	k.Site = kit.Site{Place: sky.Site{Latitude: 52 * sky.Degree, Longitude: 13 * sky.Degree}, Zone: time.UTC}
	k.Subs.Filters = []kit.Filter{{Name: "L", Exposure: 2 * time.Minute, Count: 40}}
	k.Targets = []kit.Target{
		{Name: "M 81", Star: sky.Star{Place: sky.J2000{RA: 148.9 * sky.Degree, Dec: 69.07 * sky.Degree}}},
		{Name: "M 31", Star: sky.Star{Place: sky.J2000{RA: 10.7 * sky.Degree, Dec: 41.27 * sky.Degree}}},
	}
	night := plan.NewNight(k, plan.Date{Year: 2026, Month: time.October, Day: 12})
	s, err := share.Divide(night, k.Axis, nil, share.Equally(k, k.Targets), share.UsualRules())
	require.NoError(t, err)
	require.Len(t, s.Stretches, 2)
	assert.Empty(t, s.LeftOut)
	dusk := night.Dark[0].From
	assert.Less(t, s.Stretches[0].Runs.Runs[0].From.Sub(dusk), 10*time.Minute)
	assert.Less(t, s.Stretches[1].To.Sub(dusk), 3*time.Hour+20*time.Minute)
	for _, stretch := range s.Stretches {
		assert.True(t, stretch.Runs.After.Done(), "%s has all that is wanted", stretch.Target.Name)
		assert.Equal(t, share.Complete, stretch.Ends.Why)
	}
	assert.Equal(t, s.Stretches[0].To, s.Stretches[1].From, "nothing is left between them")
}
