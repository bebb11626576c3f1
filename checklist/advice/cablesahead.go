package advice

import (
	"time"

	"duskhand/checklist"
	"duskhand/checklist/tally"
	"duskhand/plan"
	"duskhand/plan/cables"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// CablesAhead is what the run that goes on and the next hand-over do to the mount's cables.
type CablesAhead struct {
	Passes    sky.Event    // since or from when the cables are out of reach, before the run's end; not OK if they are not
	Doubt     bool         // it is not known which way round it has gone or goes in the run, and the reach is short enough to ask
	NextDoubt bool         // the same of the next hand-over
	Next      *cables.Turn // the goto of the next hand-over, followed to the end of that target's first run; nil if none comes
	Target    string       // of that
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
	c.Doubt, c.Passes = inDoubt(reach, going), going.Passes
	next, comes := m.HandOver()
	if !comes {
		next, comes = m.Following()
	}
	if comes && len(next.Runs.Runs) > 0 {
		first := next.Runs.Runs[0]
		turn := m.Log.NextWay(m.Kit, m.courseTo, cables.Leg{Course: m.CourseOf(next.Target), Span: first.Span})
		c.Next, c.Target, c.NextDoubt = &turn, next.Target.Name, inDoubt(reach, turn)
	}
	return c, true
}

// Winding is how far the mount's cables are wound now; ok is false where neither kit nor night says how they hang, or
// the telescope was sent nowhere tonight.
func (m Moment) Winding() (w checklist.Wound, ok bool) {
	reach := m.Kit.Mount.Cables
	hangs := reach.From != nil || reach.To != nil || !m.Log.Cables.Straight.IsZero()
	if !hangs || len(m.Log.Cables.Gotos) == 0 {
		return checklist.Wound{}, false
	}
	return m.Log.WoundAt(m.Kit, m.courseTo, m.Now), true
}

// inDoubt tells that it is not known which way round the mount goes, and that a turn more either way is out of reach.
func inDoubt(reach kit.Cables, t cables.Turn) bool {
	return !t.Sure && !(reach.Holds(t.Left-sky.Turn) && reach.Holds(t.Left+sky.Turn))
}

// courseTo is the course of a star or target that the telescope was sent to.
func (m Moment) courseTo(name string, star sky.Star) *plan.Course {
	return m.CourseOf(tally.Chosen(m.Kit, m.Log, &checklist.Target{Name: name, Star: star}))
}

// CablesTrouble is what may become of the mount's cables.
type CablesTrouble int

// The troubles, the worst first.
const (
	CablesFine          CablesTrouble = iota
	CablesPast                        // they are past their end
	CablesEndInRun                    // they come to it before the run does
	CablesDoubtful                    // it is not known which way round the mount has gone
	CablesNextDoubtful                // nor which way it will go at the hand-over
	CablesEndAtHandOver               // by the shortest way to the next target, or either way
)

// Trouble returns what is worth telling at an instant.
func (c CablesAhead) Trouble(now time.Time) CablesTrouble {
	switch {
	case c.Passes.OK && !c.Doubt && !now.Before(c.Passes.At):
		return CablesPast
	case c.Passes.OK && !c.Doubt:
		return CablesEndInRun
	case c.Doubt:
		return CablesDoubtful
	case c.NextDoubt:
		return CablesNextDoubtful
	case c.Next != nil && c.Next.Sure && c.Next.Passes.OK:
		return CablesEndAtHandOver
	}
	return CablesFine
}
