package share

import (
	"slices"
	"time"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// plan plans an order exactly and adds it up.
func (d *division) plan(s *Share, p placed, courseOf func(kit.Target) *plan.Course) {
	courses := make([]*plan.Course, len(d.wishes))
	after := make([]plan.Sequence, len(d.wishes))
	for i, w := range d.wishes {
		courses[i], after[i] = courseOf(w.Target), w.Subs
	}
	at, begin := d.rules.At, d.table.times[p.begins[0]]
	for k, i := range p.order {
		until := d.handOver(p, k)
		st := d.stretch(courses[i], at, plan.Span{From: begin, To: until}, after[i], len(s.Stretches) == 0)
		if len(st.Runs.Runs) == 0 {
			continue // no room beside the others, or a run of the scan too short for the exact plan
		}
		after[i] = st.Runs.After
		at, begin = &st.Runs.Runs[len(st.Runs.Runs)-1].EndAngle, st.To
		s.Stretches = append(s.Stretches, st)
	}
	for _, w := range d.wishes {
		if !slices.ContainsFunc(s.Stretches, func(st Stretch) bool { return st.Target.Name == w.Target.Name }) {
			s.LeftOut = append(s.LeftOut, LeftOut{w.Target, NoRoom})
		}
	}
	for i := range len(s.Stretches) - 1 {
		s.Stretches[i].handOver(s.Stretches[i+1].From)
	}
	d.addUp(s)
}

// handOver is by when the k-th stretch of an order is over. The last may go on to the end of the dark, for a stretch ends
// with its last sub anyway. Where there is time to spare the others are not cut short for a sub or two that the scan
// did not see: who comes next begins when they are done.
func (d *division) handOver(p placed, k int) time.Time {
	last := d.table.times[len(d.table.times)-1]
	if k+1 == len(p.begins) {
		return last
	}
	until := d.table.times[p.begins[k+1]]
	if until.Add(overrun).Before(last) && d.spare {
		return until.Add(overrun)
	}
	return until
}

// overrun is how much longer than by the scan a stretch may take for all that is wanted of it.
const overrun = 6 * grid

// stretch plans one target from a hand-over to the next. The derotator begins to turn to its first start as
// the break begins: it stands at the angle at which the last sub before left it.
func (d *division) stretch(c *plan.Course, at *sky.Angle, within plan.Span, sequence plan.Sequence, isFirst bool) Stretch {
	st := Stretch{Span: within, Ready: within.From, Target: c.Target, Course: c, Subs: sequence}
	free := d.rules.From
	if pause := d.rules.pauseBefore(c.Target.Name, isFirst); pause > 0 {
		free, st.Ready = within.From, within.From.Add(pause)
	}
	turn := c.InTurns([]plan.Span{{From: st.Ready, To: within.To}})
	st.Begins = plan.Start{At: free, Stage: at}
	st.Runs = turn.Schedule(st.Begins, sequence)
	for _, rewind := range st.Runs.Rewinds {
		if rewind.To.After(st.Runs.Runs[0].From) || rewind.To.After(st.Ready) {
			st.Rewinds++
		}
	}
	if n := len(st.Runs.Runs); n > 0 {
		st.Ends = whyEnds(c.Windows(), st.Runs, within.To)
		st.To, st.Exposed = st.Runs.Runs[n-1].To, st.Runs.Exposed()
	}
	return st
}

// handOver ends the turn where the next one's break begins, which its last sub moved up.
func (s *Stretch) handOver(to time.Time) {
	s.Runs = s.Course.InTurns([]plan.Span{{From: s.Ready, To: to}}).Held(s.Runs)
}

// nearEnd is how near a stretch's end comes to its window's for that to be why it ends: a step of the grid.
const nearEnd = grid + time.Minute

// whyEnds says why a stretch ends where it does.
func whyEnds(windows []plan.Window, runs plan.Schedule, until time.Time) Ending {
	last := runs.Runs[len(runs.Runs)-1].To
	if runs.After.Done() {
		return Ending{Why: Complete}
	}
	for _, w := range windows {
		if !last.After(w.From) || last.After(w.To) || w.To.Sub(until) > nearEnd {
			continue
		}
		switch {
		case w.Obstruction != "":
			return Ending{Why: Obstructed, At: w.To, Obstruction: w.Obstruction}
		case w.ClosesBefore == plan.ByDarkness:
			return Ending{Why: NightOver}
		}
		return Ending{Why: Closes, At: w.To, Bound: w.ClosesBefore}
	}
	return Ending{Why: HandedOver}
}

// addUp fills in sums and shares.
func (d *division) addUp(s *Share) {
	exposed, weights, total := map[string]time.Duration{}, map[string]float64{}, 0.0
	for _, w := range d.wishes {
		weights[w.Target.Name] = w.Weight
		total += w.Weight
	}
	for i := range s.Stretches {
		st := &s.Stretches[i]
		exposed[st.Target.Name] += st.Exposed
		s.Exposed += st.Exposed
		s.Rewinds += st.Rewinds
		s.Breaks += st.Ready.Sub(st.From)
		for _, run := range st.Runs.Runs {
			s.Subs += run.Working()
		}
	}
	if n := len(s.Stretches); n > 0 {
		s.Lost = s.Stretches[n-1].To.Sub(s.Stretches[0].From) - s.Subs
	}
	for i := range s.Stretches {
		st := &s.Stretches[i]
		st.Wanted = weights[st.Target.Name] / total
		st.Got = float64(exposed[st.Target.Name]) / float64(s.Exposed)
	}
}
