package tally

import (
	"time"

	"duskhand/checklist"
	"duskhand/checklist/subs/arrival"
	"duskhand/plan"
	"duskhand/plan/kit"
)

// came is the subs of one run that have arrived and are not counted yet, in order.
type came []plan.Sub

// arrivedRun is what has come of one run. Next is when the sub after the last light, whatever its filter, may
// start.
type arrivedRun struct {
	subs came
	next time.Time
}

// arrivals returns the subs that have arrived, by the runs of the night; nil when nothing has.
func arrivals(k kit.Kit, log checklist.Night, current string) []arrivedRun {
	if len(log.Arrived) == 0 {
		return nil
	}
	ledger := arrival.Keep(arrival.Kept(log), arrival.Situation{Kit: k, Night: log, Current: current, Now: log.Latest})
	byRun := make([]arrivedRun, len(log.Runs))
	for i := range byRun {
		byRun[i].subs, _ = ledger.InRun(i)
	}
	for _, e := range ledger.Entries {
		if e.Run >= 0 && e.Counts() && (e.Filter < 0 || ledger.Sub(e)) {
			byRun[e.Run].next = e.End().Add(k.Subs.Overhead)
		}
	}
	return byRun
}

// slack is how much later than the shutter somebody may say that subs began.
const slack = time.Minute

// before takes out the subs that began before an instant.
func (c *came) before(t time.Time) came {
	n := 0
	for n < len(*c) && (*c)[n].Exposure.From.Before(t) {
		n++
	}
	taken := (*c)[:n]
	*c = (*c)[n:]
	return taken
}
