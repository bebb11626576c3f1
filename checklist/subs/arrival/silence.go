package arrival

import (
	"fmt"
	"time"
)

// silence tells that no frame has come for more than twice the cadence though subs are being taken.
func (l Ledger) silence() []Notice {
	s := l.situation
	if s.Night.Subs == nil || s.Unwatched {
		return nil
	}
	since, any := s.Night.Subs.Start, false
	var last time.Duration
	for _, e := range l.Entries {
		if e.Seen.After(since) {
			since, any, last = e.Seen, true, e.Exposure
		}
	}
	due := since.Add(2 * max(s.cadence(), last+s.Kit.Subs.Overhead))
	if !s.Now.After(due) {
		return nil
	}
	return []Notice{{Kind: Silent, At: due, Odd: Odd{Silence: s.Now.Sub(since), None: !any}, Key: fmt.Sprintf("%s|%d", Silent, since.Unix())}}
}

// cadence returns how far apart the subs that are being taken are at most: of the filter that was named, or
// else of the longest.
func (s Situation) cadence() time.Duration {
	_, target := s.runAt(s.Now)
	wanted := s.Kit.SubsNamed(target)
	var exposure time.Duration
	if i := FilterOf(wanted, s.Night.Subs.Filter); i >= 0 {
		exposure = wanted.Filters[i].Exposure
	} else {
		for _, f := range wanted.Wanted() {
			exposure = max(exposure, f.Exposure)
		}
	}
	if wanted.DitherEvery > 0 {
		exposure += wanted.DitherSettle
	}
	return exposure + wanted.Overhead
}
