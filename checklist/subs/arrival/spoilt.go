package arrival

import (
	"time"

	"duskhand/plan"
)

// Spoiling is a time in which no exposure is of use.
type Spoiling struct {
	Span plan.Span // To is zero if it goes on
	Why  Why
}

// Why is what spoils an exposure.
type Why string

// The reasons.
const (
	Rewinding Why = "rewinding"  // the derotator is being turned back
	PastLimit Why = "past limit" // the derotator stands at the end of its travel
)

// leastSpoilt is by how much an exposure must lie in such a time to be called spoilt; leastUnsure when its start
// comes from the file's time, which is later by the download. Both are choices of ours.
const (
	leastSpoilt = 2 * time.Second
	leastUnsure = 20 * time.Second
)

// spoilt raises a notice for the first frame of each such time.
func (l Ledger) spoilt() (notices []Notice) {
	for _, s := range l.situation.Spoiling {
		span := s.Span
		if span.To.IsZero() {
			span.To = l.situation.Now
		}
		for _, e := range l.Entries {
			least := leastUnsure
			if e.Sure {
				least = leastSpoilt
			}
			if !e.Counts() || span.Overlap(plan.Span{From: e.Start, To: e.End()}) <= least {
				continue
			}
			notices = append(notices, notice(Spoilt, e, string(s.Why)+"|"+e.Path, Odd{Spoils: s.Why}))
			break
		}
	}
	return notices
}
