package tally

import (
	"time"

	"duskhand/checklist"
	"duskhand/checklist/subs/arrival"
	"duskhand/plan"
	"duskhand/plan/kit"
)

// came is the subs that have arrived, by the runs of the night.
type came [][]plan.Sub

func arrivals(k kit.Kit, log checklist.Night, current string) came {
	if len(log.Arrived) == 0 {
		return nil
	}
	ledger := arrival.Keep(arrival.Kept(log), arrival.Situation{Kit: k, Night: log, Current: current, Now: log.Latest})
	byRun := make(came, len(log.Runs))
	for i := range byRun {
		byRun[i], _ = ledger.InRun(i)
	}
	return byRun
}

// within returns those of a run whose exposure began in a stretch; one that goes on has no end.
func (c came) within(run int, stretch checklist.Subs) []plan.Sub {
	if c == nil {
		return nil
	}
	const slack = 10 * time.Second // what is said at a key comes after the shutter, or a little before
	var within []plan.Sub
	for _, sub := range c[run] {
		start := sub.Exposure.From
		if start.Before(stretch.Start.Add(-slack)) || !stretch.End.IsZero() && !start.Before(stretch.End) {
			continue
		}
		within = append(within, sub)
	}
	return within
}
