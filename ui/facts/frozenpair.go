package facts

import (
	"slices"
	"time"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/sky"
)

// Change is another star for the second of a pair whose first has been said or sighted.
type Change struct {
	Was, Now string // the stars' names
	Missed   bool   // Was was said not to have been found; else it has left
	Leaving  plan.Leaving
}

// choosePairs lists the pairs of the instant. A first star that was said or sighted is settled: the second
// was chosen for it and stays, until that too is centred, leaves or is not found.
func (s *Stars) choosePairs(t *Tonight, aim sky.Direction) {
	said := t.Log.Alignment()
	var missed []string
	for _, m := range said.Missed {
		missed = append(missed, m.Star)
	}
	s.Sky = s.Sky.Without(missed...)
	if said.First == "" {
		s.Pairs = s.Sky.Pairs(aim, listed)
		return
	}
	second := said.Second
	if !said.Done {
		second, s.Change = t.secondStar(said, s.At)
	}
	s.Pairs = s.Sky.PairsWith(said.First, aim, listed)
	if own, ok := s.Sky.PairOf(said.First, second, aim); ok {
		s.Pairs = slices.DeleteFunc(s.Pairs, func(p plan.Pair) bool {
			return p.Second.Star.ID == own.Second.Star.ID
		})
		s.Pairs = append([]plan.Pair{own}, s.Pairs...)
		s.check = t.checkStar(said, second)
	}
}

// checkStar is the third star as it was best when the first of a pair was said or sighted; "" if none was.
func (t *Tonight) checkStar(said checklist.Alignment, second string) string {
	then := t.Night.Stars(t.Axis, said.Since).Without(said.MissedBy(said.Since)...)
	aim, _ := t.Course.Aim(said.Since)
	pair, ok := then.PairOf(said.First, second, aim)
	if !ok {
		return ""
	}
	check, ok := then.CheckStar(pair)
	if !ok {
		return ""
	}
	return check.Star.Star.Name()
}

// secondStar follows the second star from the instant at which the first was said or sighted: as often as
// it leaves or is not found, the one that is best for the first at that instant takes its place, so that the
// same events give the same star whoever asks, and when. It is "" if none will do.
func (t *Tonight) secondStar(said checklist.Alignment, now time.Time) (second string, change *Change) {
	second = said.Second
	if second == "" {
		second = t.bestSecond(said, said.Since, "")
	}
	for since := said.Since; second != ""; {
		ends, why := t.endOfSecond(said, second, since)
		if !ends.OK || ends.At.After(now) {
			return second, change
		}
		was := second
		second, since = t.bestSecond(said, ends.At, was), ends.At
		why.Was, why.Now = was, second
		change = &why
		if !since.Before(now) {
			return second, change
		}
	}
	return second, change
}

// endOfSecond returns when a second star that is good from an instant on no longer is, and why.
func (t *Tonight) endOfSecond(said checklist.Alignment, second string, since time.Time) (sky.Event, Change) {
	leaving := t.Night.Stars(t.Axis, since).LeavingOf(second)
	ends, why := leaving.Event, Change{Leaving: leaving}
	for _, m := range said.Missed {
		if m.Star == second && !m.At.Before(since) && (!ends.OK || m.At.Before(ends.At)) {
			ends, why = sky.Event{At: m.At, OK: true}, Change{Missed: true}
		}
	}
	return ends, why
}

// bestSecond returns the star that is best for the first at an instant, but for one and for those that had
// not been found by then; "" if there is none.
func (t *Tonight) bestSecond(said checklist.Alignment, at time.Time, but string) string {
	not := append([]string{but}, said.MissedBy(at)...)
	aim, _ := t.Course.Aim(at)
	pairs := t.Night.Stars(t.Axis, at).Without(not...).PairsWith(said.First, aim, 1)
	if len(pairs) == 0 {
		return ""
	}
	return pairs[0].Second.Star.Name()
}
