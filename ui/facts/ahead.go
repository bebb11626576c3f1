package facts

import (
	"slices"
	"time"

	"duskhand/plan"
	"duskhand/plan/worth"
)

// ShortestIdle is the shortest wait or gap that is spoken of: shorter ones are what a run leaves at its end.
const ShortestIdle = 2 * time.Minute

// Idle returns the parts of the dark ahead in which nothing of the target is exposed and that are worth telling, in
// order. The turns of other targets are none: their runs stand there.
func (t *Tonight) Idle() (idle []plan.Idle) {
	for _, i := range append(slices.Clone(t.Ahead().Waits), t.Ahead().Gaps...) {
		handedOver := i.Why == plan.WindowClosed && i.Bound == plan.ByTurn
		if i.Length() >= ShortestIdle && !handedOver {
			idle = append(idle, i)
		}
	}
	slices.SortFunc(idle, func(a, b plan.Idle) int { return a.From.Compare(b.From) })
	return idle
}

// Order returns in which order the target's subs of the run that goes on and of those ahead are taken, with the
// reasons; none where the kit's filters take turns.
func (r Run) Order() []worth.Part {
	s := r.Ahead()
	if len(r.Call.Subs) > 0 && r.Anchor != nil {
		s.Runs = append([]plan.Run{{Subs: r.Call.Subs}}, s.Runs...)
	}
	return worth.Parts(r.Night, r.Course, s)
}

// Curve is the way of a target over the night.
type Curve struct {
	Target  string
	Present bool // it is the target in hand
	Heights []Height
}

// Curves returns the ways of the targets of a divided night, in the order of their turns, or of the one in hand.
func (t *Tonight) Curves() (curves []Curve) {
	named := map[string]bool{}
	for _, s := range t.Shared() {
		if !named[s.Target.Name] && s.Target.Name != t.Target.Name {
			curves = append(curves, Curve{s.Target.Name, false, t.altitudesOf(s.Course)})
		}
		named[s.Target.Name] = true
	}
	return append(curves, Curve{t.Target.Name, true, t.Altitudes()})
}
