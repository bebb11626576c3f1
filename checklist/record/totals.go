package record

import (
	"slices"
	"strconv"
	"sync"
	"time"

	"duskhand/checklist/tally"
	"duskhand/plan"
	"duskhand/plan/kit"
)

// Total is what all nights have given of one target through one filter in the dark, and what is still wanted.
type Total struct {
	Target, Filter string
	Exposure       time.Duration
	Count, Nights  int
	Wanted         int // by the kit; 0 if it does not have the target
}

// Exposed returns the time with the shutter open.
func (t Total) Exposed() time.Duration { return time.Duration(t.Count) * t.Exposure }

// Left returns how many subs of the goal are left; 0 if there are enough, or no goal.
func (t Total) Left() int { return max(0, t.Wanted-t.Count) }

// totals gathers the counts of nights by target and filter.
type totals struct {
	order  []string // of targets that the kit does not have, as they came
	counts map[[2]string]*Total
}

func (s *totals) add(l log) {
	seen, dark := map[[2]string]bool{}, l.darkness()
	for _, run := range l.runs {
		for _, sub := range run.subs {
			s.one(run.target.Name, sub, tally.InTheDark(dark(run.target), sub), seen)
		}
	}
}

// darkness returns the dark of the night for a target; it is looked for once, and only if something was exposed.
func (l log) darkness() func(kit.Target) []plan.Span {
	night := sync.OnceValue(func() *plan.Night { return plan.NewNight(l.kit, l.date) })
	known := map[string][]plan.Span{}
	return func(target kit.Target) []plan.Span {
		spans, looked := known[target.Name]
		if !looked {
			spans = night().DarkFor(target)
			known[target.Name] = spans
		}
		return spans
	}
}

func (s *totals) one(target string, sub plan.Sub, counts bool, seen map[[2]string]bool) {
	key := [2]string{target, sub.Filter.Name}
	if s.counts == nil {
		s.counts = map[[2]string]*Total{}
	}
	if s.counts[key] == nil {
		s.counts[key] = &Total{}
		s.order = addNew(s.order, target)
	}
	if counts {
		s.counts[key].Count++
	}
	if !seen[key] {
		s.counts[key].Nights++
		seen[key] = true
	}
}

// list returns the kit's targets in its order, then the others as they came; filters in the kit's order.
func (s *totals) list(k kit.Kit) (all []Total) {
	var names []string
	for _, t := range k.Targets {
		names = append(names, t.Name)
	}
	own := len(names)
	for _, name := range s.order {
		names = addNew(names, name)
	}
	for i, name := range names {
		for _, filter := range k.SubsNamed(name).Filters {
			total := Total{Target: name, Filter: filter.Name, Exposure: filter.Exposure}
			if i < own {
				total.Wanted = filter.Count
			}
			if got := s.counts[[2]string{name, filter.Name}]; got != nil {
				total.Count, total.Nights = got.Count, got.Nights
			}
			if total.Count > 0 || total.Wanted > 0 {
				all = append(all, total)
			}
		}
	}
	return all
}

// groupName returns A to Z, then numbers.
func groupName(i int) string {
	if i < 26 {
		return string(rune('A' + i))
	}
	return strconv.Itoa(i + 1)
}

// targets returns the names in the totals, in their order.
func targets(all []Total) (names []string) {
	for _, t := range all {
		if !slices.Contains(names, t.Target) {
			names = append(names, t.Target)
		}
	}
	return names
}
