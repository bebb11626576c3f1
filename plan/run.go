package plan

import (
	"time"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// FilterCount is a number of subs through one filter.
type FilterCount struct {
	Filter string
	Count  int
}

// Run is one stretch of tracking, from one rewind to the next.
type Run struct {
	Span                           // from tracking at the start angle to the end of the last sub with its overhead
	StartAngle, EndAngle sky.Angle // mechanical; EndAngle for the axis as known
	Limit                Limit     // as seen from the start; none when the window closes first
	Reversals            []time.Time
	CameraAngle          sky.Angle // position angle of the chip's up, [0°, 360°)
	Subs                 []Sub
	Counts               []FilterCount
	Exposed              time.Duration // the shutter open
}

// Rewind is the turning back between two runs.
type Rewind struct {
	Span
	FromAngle, ToAngle sky.Angle
}

// Runs is a target's night: runs, the rewinds between them, and what they sum to.
type Runs struct {
	Windows []Window
	Runs    []Run
	Rewinds []Rewind
	After   Sequence // where the subs stand at the end
}

// Exposed returns the time with the shutter open over all runs.
func (r Runs) Exposed() (total time.Duration) {
	for _, run := range r.Runs {
		total += run.Exposed
	}
	return total
}

// Counts returns the subs by filter over all runs, in the kit's order.
func (r Runs) Counts() []FilterCount {
	var all []Sub
	for _, run := range r.Runs {
		all = append(all, run.Subs...)
	}
	return countByFilter(r.After.subs.Filters, all)
}

// Usable returns how long the windows last together.
func (r Runs) Usable() (total time.Duration) {
	for _, w := range r.Windows {
		total += w.Length()
	}
	return total
}

// countByFilter returns how many subs there are of each filter that has any, in the order of the filters.
func countByFilter(filters []kit.Filter, subs []Sub) []FilterCount {
	var counts []FilterCount
	for _, filter := range filters {
		count := FilterCount{Filter: filter.Name}
		for _, sub := range subs {
			if sub.Filter.Name == filter.Name {
				count.Count++
			}
		}
		if count.Count > 0 {
			counts = append(counts, count)
		}
	}
	return counts
}

// Runs plans the night from an instant on: in each window that is left the longest run from its start,
// then a rewind, then the longest run from there, which gives the fewest rewinds (greedy covering of an
// interval). It stops when the sequence is done.
//
// at is where the derotator stands at the beginning, nil when nobody knows: the way to the first start
// angle then takes no time in the plan.
func (c *Course) Runs(from time.Time, at *sky.Angle, sequence Sequence) Runs {
	planned := Runs{Windows: c.Windows(), After: sequence}
	for _, window := range planned.Windows {
		if window.From.Before(from) {
			window.From = from
		}
		if window.From.Before(window.To) {
			at = c.fill(window, at, from, &planned)
		}
	}
	return planned
}

// fill adds the runs of one window and returns where the derotator stands after it. The way to its first
// start may be gone before the window opens, while nothing else is to be done.
func (c *Course) fill(window Window, at *sky.Angle, free time.Time, planned *Runs) *sky.Angle {
	if n := len(planned.Runs); n > 0 {
		free = planned.Runs[n-1].To
	}
	for now := window.From; !planned.After.Done(); {
		next, ok := c.NextRun(at, free, Span{now, window.To}, planned.After)
		if !ok {
			break
		}
		if next.Rewind.Length() > 0 {
			planned.Rewinds = append(planned.Rewinds, next.Rewind)
		}
		planned.Runs = append(planned.Runs, next.Run)
		planned.After, now, free, at = next.After, next.Run.To, next.Run.To, &next.Run.EndAngle
	}
	return at
}

// NextRun is a run that can be made, the rewind before it, and the sequence after it.
type NextRun struct {
	Run    Run
	Rewind Rewind // of no length if where the stage stands is not known, or it need not move
	After  Sequence
}

// NextRun returns the longest run within a span that at least one sub fits, from its beginning on or, if
// none fits there because the field turns too fast or too near a limit, from the first later instant from
// which one does. free is when the stage can begin to turn from the angle at, nil when nobody knows where it
// stands.
func (c *Course) NextRun(at *sky.Angle, free time.Time, within Span, sequence Sequence) (next NextRun, ok bool) {
	if sequence.Done() {
		return NextRun{}, false
	}
	for _, now := range c.starts(within) {
		start, stretch, ok := c.rewindTo(at, free, now, within.To)
		if !ok {
			continue
		}
		run, after := c.run(start, stretch, within.To, sequence)
		if len(run.Subs) == 0 {
			continue
		}
		next = NextRun{Run: run, After: after}
		if at != nil {
			next.Rewind = Rewind{Span{start.Add(-c.RewindTime(*at, run.StartAngle)), start}, *at, run.StartAngle}
		}
		return next, true
	}
	return NextRun{}, false
}

// RewindTime returns how long the stage needs from one angle to another.
func (c *Course) RewindTime(from, to sky.Angle) time.Duration {
	return time.Duration((to - from).Abs().Radians() / float64(c.Kit.Derotator.RewindSpeed) * float64(time.Second))
}

// rewindTo returns when a run can begin, not before earliest, if the stage can begin to turn from the angle
// at when it is free; and how long it lasts before until. ok is false when the rule allows no run there. The
// best angle depends on when it is reached, and that on the angle: two rounds settle it to well within a
// second, since the field turns a hundred times slower than the stage.
func (c *Course) rewindTo(at *sky.Angle, free, earliest, until time.Time) (start time.Time, stretch Stretch, ok bool) {
	start = earliest
	stretch, ok = c.stretch(start, until)
	if at == nil || !ok {
		return start, stretch, ok
	}
	for range 2 {
		start = free.Add(c.RewindTime(*at, stretch.Start))
		if start.Before(earliest) {
			start = earliest
		}
		if !start.Before(until) {
			return until, Stretch{Start: stretch.Start, Until: until}, true
		}
		if stretch, ok = c.stretch(start, until); !ok {
			return start, stretch, false
		}
	}
	return start, stretch, true
}

// run lays the subs of one run.
func (c *Course) run(start time.Time, stretch Stretch, until time.Time, sequence Sequence) (Run, Sequence) {
	k := c.Kit
	run := Run{Span: Span{start, start}, StartAngle: stretch.Start}
	run.Limit = c.Limit(Anchor{start, stretch.Start}, until)
	subs, after := sequence.Run(start.Add(k.Subs.Settle), c.LastSubBy(run.Limit, until))
	run.Subs, run.Counts = subs, countByFilter(k.Subs.Filters, subs)
	for _, sub := range subs {
		run.Exposed += sub.Filter.Exposure
		run.To = sub.Over
	}
	run.EndAngle = c.Angle(Anchor{start, stretch.Start}, run.To)
	run.Reversals = c.Reversals(run.Span)
	run.CameraAngle = c.CameraAngle(run.StartAngle, start)
	return run, after
}

// LastSubBy returns the instant by which the last sub of a run must be over: the early bound of the
// limit less the kit's margin, or the end of the window if that comes first.
func (c *Course) LastSubBy(limit Limit, until time.Time) time.Time {
	if !limit.Early.OK {
		return until
	}
	if by := limit.Early.At.Add(-c.Kit.Derotator.Margin); by.Before(until) {
		return by
	}
	return until
}
