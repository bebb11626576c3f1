package advice_test

import (
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/plan/share"
	"duskhand/plan/worth"
	"duskhand/sky"
)

// dividedKit is a kit at 52° north whose two targets share the night, with a random stage and random subs.
func dividedKit(t *testing.T, seed uint64) (kit.Kit, plan.Date) {
	random := rand.New(rand.NewPCG(seed, 16))
	k := kit.Example()
	k.Example = false
	k.Site.Place = sky.Site{Latitude: 52 * sky.Degree, Longitude: 5 * sky.Degree}
	k.Horizon = kit.Horizon{}
	k.Axis = kit.Axis{Uncertainty: sky.Angle(random.IntN(4)) * sky.Degree}
	k.Derotator.StopsAnywhere = random.IntN(2) == 0
	k.Derotator.Max = sky.Angle(10+random.IntN(50)) * sky.Degree
	k.Derotator.Min = -k.Derotator.Max
	k.Subs.Order = kit.ByWorth
	k.Subs.Filters = []kit.Filter{{Name: "L", Kind: kit.Broad, Exposure: time.Minute, Count: 20 + random.IntN(120)},
		{Name: "Ha", Kind: kit.LineFilter, CentreNM: 656.28, Exposure: 5 * time.Minute, Count: 4 + random.IntN(20)}}
	k.Targets = nil
	for _, name := range []string{"M 42", []string{"NGC 2237", "M 81", "M 31", "M 51"}[random.IntN(4)]} {
		target, err := k.FindTarget(name)
		require.NoError(t, err)
		target.Share = 1
		k.Targets = append(k.Targets, target)
	}
	return k, plan.Date{Year: 2026, Month: time.December, Day: 1 + random.IntN(28)}
}

// A divided night is divided once: what the screens say of it before anything has happened, run by run, is what the
// plan says.
func TestADividedNightIsOnePlan(t *testing.T) {
	for seed := range uint64(20) {
		k, date := dividedKit(t, seed)
		night := plan.NewNight(k, date)
		var wishes []share.Wish
		for _, target := range k.Targets {
			wishes = append(wishes, share.Wish{Target: target, Weight: 1, Subs: worth.Sequence(night, target)})
		}
		divided, err := share.Divide(night, k.Axis, nil, wishes, share.UsualRules())
		require.NoError(t, err)
		tonight := advice.For(k, date, checklist.Night{}, night.Dark[0].From.Add(-time.Hour), nil)
		require.Equal(t, len(divided.Stretches), max(1, len(tonight.Shared())))
		first := divided.Stretches[0]
		assert.Equal(t, first.Target.Name, tonight.Target.Name)
		assert.Equal(t, first.Runs.Runs, tonight.Ahead().Runs, "seed %d: runs to come", seed)
		assert.Equal(t, first.Runs.Runs, tonight.Dusk().Runs, "seed %d: runs as planned at dusk", seed)
		assert.Equal(t, first.Runs.Rewinds, tonight.Ahead().Rewinds, "seed %d", seed)
		for _, w := range first.Runs.Windows {
			assert.False(t, w.To.After(first.To) && len(divided.Stretches) > 1, "seed %d: a window ends with the turn", seed)
		}
		assert.Equal(t, first.Runs.Gaps, tonight.Dusk().Gaps, "seed %d", seed)
	}
}
