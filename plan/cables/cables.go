// Package cables counts how far the mount has wound its cables: azimuths about its own axis, unwrapped, along
// the shortest way at each goto and along the tracking. It forbids nothing.
package cables

import (
	"time"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Leg is the telescope going to the target of a course at the span's beginning, and following it to its end.
type Leg struct {
	Course *plan.Course
	plan.Span
}

// Turn is what a leg does to the cables. Azimuths are unwrapped, clockwise +, and the cables hang straight at
// the kit's: Before the goto, Arrived after it, Left at the leg's end. Sure is false when it can't be told,
// here or in a leg before, on which side of the mount's axis the target passes, or which way round is the
// shorter one of a goto: whole turns may be wrong.
type Turn struct {
	Leg
	Before, Arrived, Left sky.Angle
	Sure                  bool
	Passes                sky.Event // when the cables first are further than they reach; not OK if they never are
	LongWay               bool      // going the other way round at the goto keeps them within reach all along
}

// Clockwise tells which way the goto turns.
func (t Turn) Clockwise() bool { return t.Arrived >= t.Before }

// OtherWay returns where the telescope arrives when it goes the other way round.
func (t Turn) OtherWay() sky.Angle {
	if t.Clockwise() {
		return t.Arrived - sky.Turn
	}
	return t.Arrived + sky.Turn
}

// Shortest returns the unwrapped azimuth at which a telescope arrives that goes from one to an azimuth by the
// shortest way; at half a turn exactly, clockwise.
func Shortest(from, to sky.Angle) sky.Angle { return from + (to - from).Signed() }

// even is how near half a turn a goto's two ways are as good as even: a mount's own zero and lean decide.
// Our choice.
const even = 3 * sky.Degree

// Wind returns what the legs do to the cables, in order, of a telescope that stands at an unwrapped azimuth
// before the first.
func Wind(reach kit.Cables, from sky.Angle, legs []Leg) []Turn {
	sure := true
	var turns []Turn
	for _, leg := range legs {
		follow := leg.Course.AzimuthTurn(leg.Span)
		t := Turn{Leg: leg, Before: from, Arrived: Shortest(from, leg.Course.AzimuthAboutAxis(leg.From))}
		t.Left = t.Arrived + follow.By
		sure = sure && follow.Sure && (t.Arrived-t.Before).Abs() < 180*sky.Degree-even
		t.Sure = sure
		t.Passes = t.passes(reach, follow)
		if t.Passes.OK {
			other := t.OtherWay()
			t.LongWay = reach.Holds(other+follow.Least) && reach.Holds(other+follow.Most)
		}
		turns, from = append(turns, t), t.Left
	}
	return turns
}

// passes returns when the cables first are out of reach: at the goto, or along the tracking to a second.
func (t Turn) passes(reach kit.Cables, follow plan.AzimuthTurn) sky.Event {
	if !reach.Holds(t.Arrived) {
		return sky.Event{At: t.From, OK: true}
	}
	if reach.Holds(t.Arrived+follow.Least) && reach.Holds(t.Arrived+follow.Most) {
		return sky.Event{}
	}
	held, past := t.From, t.To
	for past.Sub(held) > time.Second {
		middle := held.Add(past.Sub(held) / 2)
		part := t.Course.AzimuthTurn(plan.Span{From: t.From, To: middle})
		if reach.Holds(t.Arrived+part.Least) && reach.Holds(t.Arrived+part.Most) {
			held = middle
		} else {
			past = middle
		}
	}
	return sky.Event{At: past, OK: true}
}
