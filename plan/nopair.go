package plan

import (
	"fmt"
	"strings"
	"time"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// NoPair is why there is no pair at an instant, and what would help.
type NoPair struct {
	Why   string    // one sentence
	When  sky.Event // the first instant, of the next three hours, from which there is a pair
	Wait  string    // what happens by then, one sentence; "" if waiting does not help
	Helps []string  // other settings that would give a pair now, a sentence each
}

// Text is the whole in words.
func (n NoPair) Text() string {
	parts := []string{n.Why}
	if n.Wait != "" {
		parts = append(parts, n.Wait)
	}
	return strings.Join(append(parts, n.Helps...), " ")
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
	n.Why = s.lacking()
	if later, found := s.firstLaterPair(); found {
		n.When = sky.Event{At: later.At, OK: true}
		n.Wait = s.waiting(later)
	}
	n.Helps = s.helps()
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

// lacking says what there is instead of a pair.
func (s *StarSky) lacking() string {
	settings := s.Kit.Stars
	switch len(s.Fit) {
	case 0:
		return fmt.Sprintf("No star to magnitude %.1f is fit now%s.", settings.FaintestMag, s.mostly())
	case 1:
		return fmt.Sprintf("Only %s is fit now%s.", s.Fit[0].Star.Name(), s.mostly())
	}
	return fmt.Sprintf("%d stars are fit now, none of them %s to %s from another.", len(s.Fit), whole(settings.Nearest), whole(settings.Farthest))
}

// mostly names what keeps out most of the stars that are up.
func (s *StarSky) mostly() string {
	if s.sunUp {
		return ": the Sun is up"
	}
	counts := map[Unfit]int{}
	up, most := 0, Down
	for _, r := range s.Unfit {
		if r.Unfit == Down {
			continue
		}
		up++
		if counts[r.Unfit]++; counts[r.Unfit] > counts[most] {
			most = r.Unfit
		}
	}
	if up == 0 {
		return ""
	}
	words := map[Unfit]string{TooLow: "too low", TooHigh: "too near the mount's axis", Obstructed: "behind the skyline",
		TooFaint: "too faint for the twilight", NearMoon: "too near the Moon", Confusable: "too like a neighbour", NearSun: "too near the Sun", NotKnown: "not among stars.known"}
	if up == 1 {
		return fmt.Sprintf("; the one other that is up is %s", words[most])
	}
	return fmt.Sprintf("; of the others that are up %d of %d are %s", counts[most], up, words[most])
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

// waiting says what each star of the later pair does until then that is not fit now.
func (s *StarSky) waiting(later *StarSky) string {
	a, b, _ := later.anyPair()
	var events []string
	for _, c := range []*Candidate{a, b} {
		for _, r := range s.Unfit {
			if r.Star.ID == c.Star.ID {
				events = append(events, r.ceases())
			}
		}
	}
	pair := a.Star.Name() + " and " + b.Star.Name() + " will do"
	if len(events) == 0 {
		return fmt.Sprintf("In %s %s.", minutes(later.At.Sub(s.At)), pair)
	}
	return fmt.Sprintf("In %s %s: then %s.", minutes(later.At.Sub(s.At)), strings.Join(events, ", and "), pair)
}

// ceases says in words what will have happened when a star has become fit.
func (r Rejected) ceases() string {
	name := r.Star.Name()
	switch r.Unfit {
	case NearSun:
		return "the Sun is down or far from " + name
	case Down, TooLow:
		return fmt.Sprintf("%s is %s up", name, whole(r.limits.lowest))
	case TooHigh:
		return fmt.Sprintf("%s is down to %s", name, whole(r.limits.highest))
	case Obstructed:
		return name + " clears " + the(r.Obstruction)
	case TooFaint:
		return name + " comes out of the dusk"
	}
	return name + " is clear of the Moon"
}
