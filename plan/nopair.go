package plan

import (
	"time"

	"duskhand/plan/kit"
)

// NoPair is why there is no pair at an instant, and what would help.
type NoPair struct {
	None  bool         // there is none
	Fit   []*Candidate // the stars that are fit, none far enough from another
	SunUp bool
	Up    int   // how many stars more are up that are not fit,
	Most  int   // how many of these for the commonest reason,
	By    Unfit // and that

	Later  *LaterPair // what waiting gives; nil where it gives none within three hours
	Easier []Easier   // other settings that would give a pair now
}

// LaterPair is the first pair that waiting gives.
type LaterPair struct {
	At            time.Time
	First, Second *Candidate
	Until         []Rejected // those of the two that are not fit yet
}

// How far and how finely waiting is looked into.
const (
	waitAtMost = 3 * time.Hour
	waitStep   = 5 * time.Minute
)

// WhyNoPair returns why there is no pair, and what would help; ok is false when there is one.
func (s *StarSky) WhyNoPair() (n NoPair, ok bool) {
	if _, _, found := s.anyPair(); found {
		return NoPair{}, false
	}
	n = NoPair{None: true, Fit: s.Fit, SunUp: s.sunUp}
	n.Up, n.Most, n.By = s.mostly()
	if later, found := s.firstLaterPair(); found {
		n.Later = s.waiting(later)
	}
	n.Easier = s.helps()
	return n, true
}

// anyPair returns the brightest two fit stars that stand far enough apart.
func (s *StarSky) anyPair() (first, second *Candidate, found bool) {
	for j, b := range s.Fit {
		for _, a := range s.Fit[:j] {
			if apart := a.Direction.Separation(b.Direction); apart >= s.Kit.Stars.Nearest && apart <= s.Kit.Stars.Farthest {
				return a, b, true
			}
		}
	}
	return nil, nil, false
}

// mostly counts the stars that are up and not fit, and says what keeps out most of them.
func (s *StarSky) mostly() (up, most int, by Unfit) {
	counts := map[Unfit]int{}
	by = Down
	for _, r := range s.Unfit {
		if r.Unfit == Down {
			continue
		}
		up++
		if counts[r.Unfit]++; counts[r.Unfit] > counts[by] {
			by = r.Unfit
		}
	}
	return up, counts[by], by
}

// again returns the same stars for another kit or instant.
func (s *StarSky) again(k kit.Kit, at time.Time) *StarSky {
	return starSkyOf(k, s.frame, s.leaning, at, s.list)
}

// firstLaterPair tries the coming hours.
func (s *StarSky) firstLaterPair() (*StarSky, bool) {
	for wait := waitStep; wait <= waitAtMost; wait += waitStep {
		later := s.again(s.Kit, s.At.Add(wait))
		if _, _, found := later.anyPair(); found {
			return later, true
		}
	}
	return nil, false
}

// waiting returns a later pair, with the stars of it that are not fit now.
func (s *StarSky) waiting(later *StarSky) *LaterPair {
	a, b, _ := later.anyPair()
	pair := &LaterPair{At: later.At, First: a, Second: b}
	for _, c := range []*Candidate{a, b} {
		for _, r := range s.Unfit {
			if r.Star.ID == c.Star.ID {
				pair.Until = append(pair.Until, r)
			}
		}
	}
	return pair
}
