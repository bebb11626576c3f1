package tally

import (
	"slices"
	"time"

	"duskhand/checklist"
	"duskhand/plan"
)

// Apart leaves out of what is taken of the wanted subs those that were exposed while it was not dark enough for their
// target: the person may insist, and they are counted apart, in Early by run. dark returns the spans of a run's target.
func (s *Subs) Apart(dark func(target *checklist.Target) []plan.Span) {
	s.Early = make([]int, len(s.Runs))
	for i, subs := range s.Runs {
		if len(subs) == 0 {
			continue
		}
		spans, name := dark(s.log.Runs[i].Target), s.targets[i]
		for _, sub := range subs {
			if !InTheDark(spans, sub) {
				s.Early[i]++
				s.Sequences[name] = s.Sequence(name).TakeBack(sub.Filter.Name)
			}
		}
	}
}

// InTheDark tells whether a sub was, or will be, exposed wholly within spans, to the second.
func InTheDark(spans []plan.Span, sub plan.Sub) bool {
	return slices.ContainsFunc(spans, func(d plan.Span) bool {
		return !sub.Exposure.From.Before(d.From.Add(-time.Second)) && !sub.Exposure.To.After(d.To.Add(time.Second))
	})
}

// Insisted is the sequence of a stretch that begins before it is dark: its subs until then are not taken of what is
// wanted.
func Insisted(sequence plan.Sequence, begins time.Time, dark []plan.Span) plan.Sequence {
	after := sequence
	if len(dark) == 0 || InTheDark(dark, plan.Sub{Exposure: plan.Span{From: begins, To: begins}}) {
		return sequence
	}
	for at := begins; at.Before(dark[0].From); {
		sub, next, ok := after.Next(at)
		if !ok {
			break
		}
		if !InTheDark(dark, sub) {
			sequence = sequence.TakeBack(sub.Filter.Name)
		}
		after, at = next, sub.Over
	}
	return sequence
}
