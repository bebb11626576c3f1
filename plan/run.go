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
	// Span is from tracking at the start angle, or a window's opening, to the last sub's end with its overhead. After a
	// rewind the first sub comes when the loop is over.
	Span
	StartAngle, EndAngle sky.Angle // mechanical; EndAngle for the axis as known
	Limit                Limit     // as seen from the start; none when the window closes first
	Reversals            []time.Time
	CameraAngle          sky.Angle // position angle of the chip's up, [0°, 360°)
	Subs                 []Sub
	Counts               []FilterCount
	Exposed              time.Duration // the shutter open

	anchor Anchor // that it tracks from
	room   Span   // in which its subs have room
}

// Working is how long subs are taken in it, their overheads included, without what comes before the first.
func (r Run) Working() time.Duration {
	if len(r.Subs) == 0 {
		return 0
	}
	return r.To.Sub(r.Subs[0].Exposure.From)
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
			turns := c.RewindTime(*at, run.StartAngle)
			next.Rewind = Rewind{Span{start.Add(-turns), start}, turns, *at, run.StartAngle}
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
	anchor := Anchor{start, stretch.Start}
	limit := c.Limit(anchor, until)
	return c.runIn(anchor, Span{start, c.LastSubBy(limit, until)}, limit, c.Kit.Subs.Settle, sequence)
}

// runIn lays the subs of the part of a run that lies in a span, settling first.
func (c *Course) runIn(anchor Anchor, within Span, limit Limit, settle time.Duration, sequence Sequence) (Run, Sequence) {
	run := Run{Span: Span{within.From, within.From}, StartAngle: anchor.Angle, Limit: limit, anchor: anchor, room: Span{within.From.Add(settle), within.To}}
	if within.From.After(anchor.At) {
		run.StartAngle = c.held(c.Angle(anchor, within.From))
	}
	run.CameraAngle = c.CameraAngle(run.StartAngle, within.From)
	return c.filled(run, sequence)
}

// filled lays the subs of a run into its room.
func (c *Course) filled(run Run, sequence Sequence) (Run, Sequence) {
	subs, after := sequence.Run(run.room.From, run.room.To)
	run.Exposed, run.To = 0, run.From
	run.Subs, run.Counts = subs, countByFilter(c.Kit.Subs.Filters, subs)
	for _, sub := range subs {
		run.Exposed += sub.Filter.Exposure
		run.To = sub.Over
	}
	run.EndAngle = c.Angle(run.anchor, run.To)
	run.Reversals = c.Reversals(run.Span)
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
