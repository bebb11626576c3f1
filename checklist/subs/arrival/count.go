package arrival

import (
	"cmp"
	"slices"
	"time"

	"duskhand/checklist/subs"
	"duskhand/plan"
	"duskhand/plan/kit"
)

// Count is how many subs of one target, filter and exposure have arrived.
type Count struct {
	Target   string // "" if nobody knows
	Filter   string // as the kit has it, or else as the header has it; "" if that is silent
	Exposure time.Duration
	Subs     int
	Outside  int // of them, those that lie in no run of the night
}

// Counts returns what has arrived, by target, filter and exposure, in that order.
func (l Ledger) Counts() []Count {
	type key struct {
		target, filter string
		exposure       time.Duration
	}
	byKey := map[key]Count{}
	for _, e := range l.Entries {
		if !e.Counts() {
			continue
		}
		k := key{e.Target, l.filterName(e), e.Exposure}
		c := byKey[k]
		c.Target, c.Filter, c.Exposure = k.target, k.filter, k.exposure
		c.Subs++
		if e.Run < 0 {
			c.Outside++
		}
		byKey[k] = c
	}
	counts := make([]Count, 0, len(byKey))
	for _, c := range byKey {
		counts = append(counts, c)
	}
	slices.SortFunc(counts, func(a, b Count) int {
		return cmp.Or(cmp.Compare(a.Target, b.Target), cmp.Compare(a.Filter, b.Filter), cmp.Compare(a.Exposure, b.Exposure))
	})
	return counts
}

func (l Ledger) filterName(e Entry) string {
	if e.Filter >= 0 {
		return l.situation.Kit.Subs.Filters[e.Filter].Name
	}
	return e.Header.Filter
}

// Kinds returns how many frames of each kind have arrived, copies left out.
func (l Ledger) Kinds() map[subs.Kind]int {
	kinds := map[subs.Kind]int{}
	for _, e := range l.Entries {
		if e.Copy == "" {
			kinds[e.Header.Kind]++
		}
	}
	return kinds
}

// leastShare is how much of the kit's exposure a light must have to count as one of its subs: test frames and
// those for the focus are far shorter. Our choice.
const leastShare = 0.5

func (l Ledger) tooShort(e Entry) bool {
	return e.Filter >= 0 && float64(e.Exposure) < leastShare*float64(l.wanted(e).Exposure)
}

// wanted is what the kit wants of an entry's target through its filter, which the kit has.
func (l Ledger) wanted(e Entry) kit.Filter {
	return l.situation.Kit.SubsNamed(e.Target).Filters[e.Filter]
}

// Sub tells whether a frame is one of the subs that the kit wants: a light through one of its filters, exposed
// for at least half as long as the kit says.
func (l Ledger) Sub(e Entry) bool { return e.Counts() && e.Filter >= 0 && !l.tooShort(e) }

// InRun returns the subs that have arrived of a run of the night, by its index, in order, and how many more
// there are through filters that the kit does not have. Each sub's Exposure is as it was, its Filter as the kit
// has it; it is over when the next may start by the kit's overhead, dithers left out.
func (l Ledger) InRun(run int) (arrived []plan.Sub, unknown int) {
	wanted := l.situation.Kit.Subs
	for _, e := range l.Entries {
		switch {
		case e.Run != run || !e.Counts() || l.tooShort(e):
		case e.Filter < 0:
			unknown++
		default:
			arrived = append(arrived, plan.Sub{Filter: l.wanted(e),
				Exposure: plan.Span{From: e.Start, To: e.End()}, Over: e.End().Add(wanted.Overhead)})
		}
	}
	return arrived, unknown
}
