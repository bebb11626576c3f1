package worth

import (
	"time"

	"duskhand/plan"
	"duskhand/sky"
)

// Why is why a part of a schedule's subs comes where it does.
type Why int

// The reasons. Unsaid is that what is left is laid where it costs least.
const (
	Unsaid       Why = iota
	UntilMoonset     // it is taken while the Moon is up, what follows once it is down
	UntilMoonrise
	WhileHigh // the target culminates in it
)

// Part is a stretch of subs through one filter, with its reason and the instant that the reason is about.
type Part struct {
	plan.Part
	Why Why
	At  time.Time
}

// Parts returns the order of a schedule's subs with its reasons; none where the kit's filters take turns.
func Parts(night *plan.Night, course *plan.Course, s plan.Schedule) (parts []Part) {
	if len(s.Order()) == 0 {
		return nil
	}
	for _, p := range s.Parts() {
		parts = append(parts, Part{Part: p})
	}
	for i := range parts {
		if i+1 < len(parts) {
			parts[i].byMoon(night, parts[i+1])
		}
		if highest, within := culmination(course, parts[i].Span); len(parts) > 1 && parts[i].Why == Unsaid && within {
			parts[i].Why, parts[i].At = WhileHigh, highest
		}
	}
	return parts
}

// byMoon gives a part its reason if the Moon sets or rises between its middle and that of the next.
func (p *Part) byMoon(night *plan.Night, next Part) {
	between := plan.Span{From: middle(p.Span), To: middle(next.Span)}
	for _, turn := range []struct {
		event sky.Event
		why   Why
	}{{night.Moonset, UntilMoonset}, {night.Moonrise, UntilMoonrise}} {
		if turn.event.OK && between.Contains(turn.event.At) {
			p.Why, p.At = turn.why, turn.event.At
		}
	}
}

func middle(s plan.Span) time.Time { return s.From.Add(s.Length() / 2) }

// culmination returns when the target stands highest in a span, to some minutes; ok is false if that is at an end.
func culmination(course *plan.Course, within plan.Span) (at time.Time, ok bool) {
	top := -90 * sky.Degree
	for t := within.From; !t.After(within.To); t = t.Add(step) {
		if altitude := course.Place(t).Altitude; altitude > top {
			at, top = t, altitude
		}
	}
	return at, at.After(within.From) && at.Add(step).Before(within.To)
}
