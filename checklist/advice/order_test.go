package advice_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/plan"
	"duskhand/plan/kit"
)

// The filter that the advice names, the order that the event of the start bears and that of the plan are one.
func TestTheOrderOfTheStartIsThatOfThePlan(t *testing.T) {
	k := kit.Example()
	k.Subs.Order, k.Subs.WorthAChange = kit.ByWorth, 2*time.Minute
	k.Subs.Filters = []kit.Filter{
		{Name: "L", Exposure: time.Minute, Count: 120, Kind: kit.Broad, CentreNM: 550, BandwidthNM: 300},
		{Name: "Ha", Exposure: 5 * time.Minute, Count: 30, Kind: kit.LineFilter, CentreNM: 656.28, BandwidthNM: 3},
	}
	date := plan.Date{Year: 2026, Month: time.December, Day: 16} // the Moon sets about midnight
	dusk := plan.NewNight(k, date).Dark[0].From
	log := checklist.Night{}
	now := dusk.Add(time.Minute)
	moment := advice.For(k, date, log, now, nil).At(now)
	said, ok := moment.Completed(checklist.StartSubs{}).(checklist.StartSubs)
	require.True(t, ok)
	require.NotEmpty(t, said.Order)
	assert.Equal(t, plan.FilterCount{Filter: "Ha", Count: 30}, said.Order[0])
	assert.Equal(t, moment.Taken.Order(), said.Order)
	assert.Equal(t, moment.Ahead().Order(), said.Order)
	sub, _, _ := moment.Taken.Next(now)
	assert.Equal(t, "Ha", sub.Filter.Name)
	named := moment.Completed(checklist.StartSubs{Filter: "L"})
	assert.Equal(t, checklist.StartSubs{Filter: "L"}, named, "who names a filter has it")

	k.Subs.Order = kit.AsWritten
	moment = advice.For(k, date, log, now, nil).At(now)
	assert.Equal(t, checklist.StartSubs{}, moment.Completed(checklist.StartSubs{}))
}
