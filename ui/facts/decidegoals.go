package facts

import (
	"time"

	"duskhand/checklist/journal"
	"duskhand/checklist/record"
	"duskhand/plan"
	"duskhand/plan/choose"
	"duskhand/plan/kit"
)

// GoalsOf returns what the kit's targets have come to by an instant and what is left of what the kit wants, by
// the events of all nights in their order. Nights without a date of the sky's, and later ones, are passed over.
func GoalsOf(k kit.Kit, events []journal.Event, until plan.Date, now time.Time) map[string]choose.Goal {
	var nights []record.Events
	place := map[plan.Date]int{}
	for _, e := range events {
		date, err := plan.ParseDate(e.Night)
		if err != nil || date.String() > until.String() {
			continue
		}
		i, known := place[date]
		if !known {
			i = len(nights)
			place[date], nights = i, append(nights, record.Events{Date: date})
		}
		nights[i].Events = append(nights[i].Events, e)
	}
	if len(nights) == 0 {
		return nil
	}
	goals := map[string]choose.Goal{}
	none := func(plan.Date) bool { return false }
	for _, total := range record.Of(k, nights, none, now).Totals {
		if total.Wanted == 0 {
			continue
		}
		goal := goals[total.Target]
		goal.Taken += total.Exposed()
		goal.Left += time.Duration(total.Left()) * total.Exposure
		goals[total.Target] = goal
	}
	return goals
}
