package share

import (
	"slices"

	"duskhand/plan"
)

// Idle returns the parts of the dark in which nothing is done on any target, in order and with why: by the plan of the
// target whose turn it is, after the last turn by the last one's. With the runs, rewinds and breaks of all stretches
// they add up to the dark; empty where the night is full or not divided.
func (s Share) Idle(dark []plan.Span) (idle []plan.Idle) {
	if len(s.Stretches) == 0 {
		return nil
	}
	busy := s.busy()
	for i, st := range s.Stretches {
		owns := plan.Span{From: st.From, To: st.To}
		if i == 0 {
			owns.From = dark[0].From
		}
		if i+1 == len(s.Stretches) {
			owns.To = dark[len(dark)-1].To
		} else {
			owns.To = s.Stretches[i+1].From
		}
		for _, gap := range append(slices.Clone(st.Runs.Waits), st.Runs.Gaps...) {
			for _, part := range gap.Span.Without(busy) {
				if part = part.Common(owns); part.Length() > 0 {
					idle = append(idle, plan.Idle{Span: part, Why: gap.Why, Bound: gap.Bound})
				}
			}
		}
	}
	slices.SortFunc(idle, func(a, b plan.Idle) int { return a.From.Compare(b.From) })
	return idle
}

// busy returns the runs, rewinds and breaks of all stretches, in order.
func (s Share) busy() (spans []plan.Span) {
	for _, st := range s.Stretches {
		spans = append(spans, plan.Span{From: st.From, To: st.Ready})
		for _, run := range st.Runs.Runs {
			spans = append(spans, run.Span)
		}
		for _, rewind := range st.Runs.Rewinds {
			spans = append(spans, rewind.Span)
		}
	}
	slices.SortFunc(spans, func(a, b plan.Span) int { return a.From.Compare(b.From) })
	return spans
}
