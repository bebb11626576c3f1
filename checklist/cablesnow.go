package checklist

import (
	"time"

	"duskhand/plan"
	"duskhand/plan/cables"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Wound is how far the mount's cables are wound. Azimuth is about the mount's own axis, unwrapped, and Off is
// its distance from where they hang straight, clockwise +. Said tells whether anybody said tonight that they
// hang straight; without that they are taken to have done so when the night began. Sure is as cables.Turn has
// it.
type Wound struct {
	Azimuth, Off sky.Angle
	Said, Sure   bool
}

// WoundAt returns how far the cables are wound at an instant, by what the telescope was said to be sent to.
// courseOf gives the course of a star through the night.
func (n Night) WoundAt(k kit.Kit, courseOf func(name string, star sky.Star) *plan.Course, at time.Time) Wound {
	reach := k.Mount.Cables
	w := Wound{Azimuth: reach.Straight, Said: !n.Cables.Straight.IsZero(), Sure: true}
	if last := n.WindUntil(k, courseOf, at); last.Course != nil {
		w.Azimuth, w.Sure = last.Left, last.Sure
	}
	w.Off = w.Azimuth - reach.Straight
	return w
}

// WindUntil returns what the telescope's last goto and its tracking until an instant do to the cables; the zero Turn,
// which is not sure, when it was sent nowhere.
func (n Night) WindUntil(k kit.Kit, courseOf func(name string, star sky.Star) *plan.Course, until time.Time) (last cables.Turn) {
	if turns := cables.Wind(k.Mount.Cables, k.Mount.Cables.Straight, n.wentLegs(courseOf, until)); len(turns) > 0 {
		last = turns[len(turns)-1]
	}
	return last
}

// NextWay returns what going to another target at an instant and following it until another would do to the
// cables.
func (n Night) NextWay(k kit.Kit, courseOf func(name string, star sky.Star) *plan.Course, to cables.Leg) cables.Turn {
	turns := cables.Wind(k.Mount.Cables, k.Mount.Cables.Straight, append(n.wentLegs(courseOf, to.From), to))
	return turns[len(turns)-1]
}

// wentLegs returns where the telescope was and what it followed, until an instant.
func (n Night) wentLegs(courseOf func(name string, star sky.Star) *plan.Course, until time.Time) (legs []cables.Leg) {
	for i, went := range n.Cables.Gotos {
		if went.At.After(until) {
			break
		}
		end := until
		if i+1 < len(n.Cables.Gotos) && n.Cables.Gotos[i+1].At.Before(until) {
			end = n.Cables.Gotos[i+1].At
		}
		legs = append(legs, cables.Leg{Course: courseOf(went.Name, went.Star), Span: plan.Span{From: went.At, To: end}})
	}
	return legs
}
