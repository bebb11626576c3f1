package advice

import (
	"duskhand/checklist"
	"duskhand/checklist/tally"
	"duskhand/plan"
	"duskhand/plan/cables"
	"duskhand/sky"
)

// CablesAhead is what the run that goes on and the next hand-over do to the mount's cables.
type CablesAhead struct {
	Passes sky.Event    // when the cables first are out of reach before the run's end; not OK if they are not
	Sure   bool         // whether the way round so far is sure
	Next   *cables.Turn // the goto of the next hand-over, followed to the end of that target's first run; nil if none comes
	Target string       // of that
}

// CablesAhead returns it; ok is false where the kit sets the cables no bound, or the telescope was sent nowhere tonight.
func (m Moment) CablesAhead() (c CablesAhead, ok bool) {
	reach := m.Kit.Mount.Cables
	if reach.From == nil && reach.To == nil || len(m.Log.Cables.Gotos) == 0 {
		return CablesAhead{}, false
	}
	until := m.Now
	if m.Anchor != nil {
		until = later(until, m.Call.By)
	}
	going := m.Log.WindUntil(m.Kit, m.courseTo, until)
	c.Sure = going.Sure
	if going.Passes.OK && going.Passes.At.After(m.Now) {
		c.Passes = going.Passes
	}
	if next, comes := m.Following(); comes && len(next.Runs.Runs) > 0 {
		first := next.Runs.Runs[0]
		turn := m.Log.NextWay(m.Kit, m.courseTo, cables.Leg{Course: m.CourseOf(next.Target), Span: first.Span})
		c.Next, c.Target = &turn, next.Target.Name
	}
	return c, true
}

// courseTo is the course of a star or target that the telescope was sent to.
func (m Moment) courseTo(name string, star sky.Star) *plan.Course {
	return m.CourseOf(tally.Chosen(m.Kit, m.Log, &checklist.Target{Name: name, Star: star}))
}
