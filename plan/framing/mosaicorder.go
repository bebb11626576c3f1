package framing

import (
	"math"
	"time"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Visit is one panel's turn within a run.
type Visit struct {
	plan.Span
	Panel   Panel
	Reading sky.Angle // of the derotator when it begins
}

// MosaicRun is one run of the derotator that all panels share: all at one camera angle, that of the grid.
type MosaicRun struct {
	plan.Span
	StartReading sky.Angle // for the first panel of the run
	CameraAngle  sky.Angle // of the grid, of date, [0°, 360°)
	Visits       []Visit
	Rewind       time.Duration // before it; 0 before the first
}

// MosaicNight is how a night goes through a mosaic.
type MosaicNight struct {
	Runs   []MosaicRun
	Gained time.Duration // time on panels
	Wasted time.Duration // in rewinds, moves between panels, and settling after either
}

// MosaicPlan is what a mosaic's night is planned from.
type MosaicPlan struct {
	Night    *plan.Night
	Axis     kit.Axis
	Mosaic   Mosaic
	Move     time.Duration // from one panel to its neighbour until the first sub can start
	Shortest time.Duration // the least time on a panel worth a visit
	From     time.Time     // nothing is planned before it
}

// Plan returns the order through the night that wastes least on rewinds.
//
// Every run serves all panels in turn, for equal times, at one camera angle, so that the panels fit each other
// and no rewind is made for a panel's sake: there are as few as for one object with the travel that the
// panels' different field angles leave. A run goes through the panels in the order of the last one backwards,
// so that the panel before a rewind is the one after it, and no move is added to the rewind.
// A run begins at the camera angle from which the first panel to reach a limit lasts longest.
//
// Windows are those that all panels share. The stage is taken to stop anywhere; one that does not gets no runs.
func (p MosaicPlan) Plan() MosaicNight {
	order := p.Mosaic.Serpentine()
	if len(order) == 0 || !p.Night.Kit.Derotator.StopsAnywhere {
		return MosaicNight{}
	}
	w := walk{plan: p, order: order}
	for _, panel := range order {
		w.courses = append(w.courses, p.Night.Course(kit.Target{Star: sky.Star{Place: panel.Centre}}, p.Axis))
		w.turns = append(w.turns, (panel.CameraAngle - p.Mosaic.CameraAngle).Signed())
	}
	for _, window := range w.windows() {
		w.through(window)
	}
	return w.night
}

type walk struct {
	plan    MosaicPlan
	order   []Panel
	courses []*plan.Course // of each panel
	turns   []sky.Angle    // of each panel's camera angle from the grid's
	night   MosaicNight
	at      *sky.Angle // where the stage stands
}

// windows returns what the windows of all panels share.
func (w *walk) windows() []plan.Span {
	var shared []plan.Span
	for _, first := range w.courses[0].Windows() {
		shared = append(shared, first.Span)
	}
	for _, c := range w.courses[1:] {
		var both []plan.Span
		for _, s := range shared {
			for _, other := range c.Windows() {
				if s.Overlap(other.Span) > 0 {
					both = append(both, plan.Span{From: later(s.From, other.From), To: earlier(s.To, other.To)})
				}
			}
		}
		shared = both
	}
	var left []plan.Span
	for _, s := range shared {
		if s.From = later(s.From, w.plan.From); s.From.Before(s.To) {
			left = append(left, s)
		}
	}
	return left
}

func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

func earlier(a, b time.Time) time.Time {
	if a.Before(b) {
		return a
	}
	return b
}

// through fills one window with runs. A start from which no visit is worth while is put off.
func (w *walk) through(window plan.Span) {
	k := w.plan.Night.Kit
	for now := window.From; now.Before(window.To); {
		start, angle, end := w.start(now, window.To)
		if w.visitFor(start.Add(k.Subs.Settle), end) < max(w.plan.Shortest, time.Second) {
			now = now.Add(waitStep)
			continue
		}
		run := MosaicRun{Span: plan.Span{From: start, To: end}, CameraAngle: angle.Wrapped()}
		w.visit(&run, angle)
		if w.at != nil {
			run.Rewind = w.courses[0].RewindTime(*w.at, run.StartReading)
		}
		last := run.Visits[len(run.Visits)-1]
		reading := w.reading(len(w.order)-1, angle, last.Span.To)
		w.at = &reading
		w.night.add(run)
		now = end
		reverse(w.order, w.courses, w.turns)
	}
}

// visitFor returns the time on each panel of a run.
func (w *walk) visitFor(from, to time.Time) time.Duration {
	panels := time.Duration(len(w.order))
	return (to.Sub(from) - (panels-1)*w.plan.Move) / panels
}

func (w *walk) visit(run *MosaicRun, angle sky.Angle) {
	first := run.From.Add(w.plan.Night.Kit.Subs.Settle)
	each := w.visitFor(first, run.To)
	for i, panel := range w.order {
		from := first.Add(time.Duration(i) * (each + w.plan.Move))
		run.Visits = append(run.Visits, Visit{plan.Span{From: from, To: from.Add(each)}, panel, w.reading(i, angle, from)})
	}
	run.StartReading = w.reading(0, angle, run.From)
}

func (n *MosaicNight) add(run MosaicRun) {
	n.Runs = append(n.Runs, run)
	gained := time.Duration(0)
	for _, v := range run.Visits {
		gained += v.Length()
	}
	n.Gained += gained
	n.Wasted += run.Rewind + run.Length() - gained
}

// start returns when the next run can begin, the camera angle of the grid that it has (of date, unwrapped),
// and by when it must be over.
func (w *walk) start(earliest, until time.Time) (start time.Time, angle sky.Angle, end time.Time) {
	start = earliest
	angle, end = w.longest(start, until)
	if w.at == nil {
		return start, angle, end
	}
	for range 2 { // as for one object: the angle depends on when it is reached
		start = earlier(until, earliest.Add(w.courses[0].RewindTime(*w.at, w.reading(0, angle, start))))
		angle, end = w.longest(start, until)
	}
	return start, angle, end
}

// longest returns the grid's camera angle from which all panels stay within the travel longest. The angles
// that last for a given time are one interval, so that the best of a grid and then of two finer
// ones is the best to a two-thousandth of the travel.
func (w *walk) longest(from, until time.Time) (best sky.Angle, end time.Time) {
	d := w.plan.Night.Kit.Derotator
	c, end := w.courses[0], from
	centre := (d.Min + d.Max) / 2
	angleOf := func(reading sky.Angle) sky.Angle {
		return c.FieldAngle(from) + c.Kit.Camera.AngleAtZero - sky.Angle(d.Sense)*reading - w.turns[0]
	}
	best = angleOf(centre)
	for step, around := d.Travel()/20, d.Travel()/2; step > d.Travel()/5000; step, around = step/10, step {
		middle := centre
		for reading := max(d.Min, middle-around); reading <= min(d.Max, middle+around)+step/100; reading += step {
			if lasts := w.lasts(angleOf(reading), from, until); lasts.After(end) {
				best, end, centre = angleOf(reading), lasts, reading
			}
		}
	}
	return best, end
}

// lasts returns until when every panel could be taken at an angle, less the kit's margin before the first
// limit; from itself when one of them can't at all.
func (w *walk) lasts(angle sky.Angle, from, until time.Time) time.Time {
	d := w.plan.Night.Kit.Derotator
	end := until
	for i, c := range w.courses {
		reading := w.reading(i, angle, from)
		if reading < d.Min || reading > d.Max {
			return from
		}
		end = earlier(end, c.LastSubBy(c.Limit(plan.Anchor{At: from, Angle: reading}, until), until))
	}
	return later(from, end)
}

// reading returns where the derotator stands for a panel at an instant when the grid is at an angle: as near
// to the middle of its travel as a full turn allows.
func (w *walk) reading(panel int, angle sky.Angle, t time.Time) sky.Angle {
	c := w.courses[panel]
	d := c.Kit.Derotator
	reading := sky.Angle(d.Sense) * (c.FieldAngle(t) + c.Kit.Camera.AngleAtZero - angle - w.turns[panel])
	middle := (d.Min + d.Max) / 2
	return reading - sky.Turn*sky.Angle(math.Round(float64((reading-middle)/sky.Turn)))
}

func reverse(order []Panel, courses []*plan.Course, turns []sky.Angle) {
	for i, j := 0, len(order)-1; i < j; i, j = i+1, j-1 {
		order[i], order[j] = order[j], order[i]
		courses[i], courses[j] = courses[j], courses[i]
		turns[i], turns[j] = turns[j], turns[i]
	}
}
