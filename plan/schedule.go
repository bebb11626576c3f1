package plan

import (
	"time"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// Start is the state of the night that a schedule begins from.
type Start struct {
	At       time.Time
	Stage    *sky.Angle // where the derotator stands, nil if nobody knows: the way to the first start then takes no time
	Tracking *Anchor    // where it tracks from at that instant, nil while it does not: Stage then does not count
	Between  bool       // a run has just ended: the first turn is a rewind, with its loop and its price
}

// Schedule is what could be done with a night for one target: the best there is.
type Schedule struct {
	Dark    []Span // what is left of the dark
	Windows []Window
	Runs    []Run
	Rewinds []Rewind
	Waits   []Idle   // in windows that have a run yet to come
	Gaps    []Idle   // all else of the dark in which nothing is exposed
	After   Sequence // where the subs stand at the end

	afters []Sequence // after each run
	by     *programme // that found the runs, and what they were laid from; nil once it is done
	legs   []leg
}

// Rewind is the turning back between two runs and what must be done before it; before the first run the turning
// alone. What of the loop comes after it is the beginning of the next run: the stage tracks then, and no sub is taken yet.
type Rewind struct {
	Span
	Turns              time.Duration // the turning itself
	FromAngle, ToAngle sky.Angle
}

// coarse is how far apart the instants are on which a schedule is first looked for.
const coarse = 2 * time.Minute

// Schedule returns the best schedule from a state of the night on: the most exposure, then the fewest rewinds, then
// the earliest end. Each run is safe for every axis that the mount's may be. A rewind costs its turning and the kit's
// loop, and is planned only if it gains more exposure than the kit says that one is worth.
//
// It values the time in which subs can be taken at the sequence's mean duty, and lays the subs exactly in the runs
// found: of a sequence that knows what its subs are worth in the order in which they are worth most. A run ends with
// its last sub, before the early bound of its limit less the margin.
// Error: of the exposure, 0.1 % of the best there is, but for the subs' own length at each run's end.
func (c *Course) Schedule(from Start, sequence Sequence) Schedule {
	s := Schedule{Windows: c.Windows(), After: sequence}
	for _, dark := range c.Dark {
		if dark.From = later(dark.From, from.At); dark.From.Before(dark.To) {
			s.Dark = append(s.Dark, dark)
		}
	}
	if !sequence.Done() {
		c.fill(&s, from)
		c.order(&s, from, sequence)
		s.by, s.legs = nil, nil
	}
	c.account(&s)
	return s
}

// fill plans runs and rewinds. The programme knows of no goal: where that comes before the night ends, a schedule with
// fewer rewinds is taken that reaches it too, or lacks no more of it than they are worth, and of those that reach it
// one that does so earlier.
func (c *Course) fill(s *Schedule, from Start) {
	p, start, ok := c.programme(s.Windows, from, s.After)
	if !ok {
		return
	}
	wanted := s.After
	p.plan(s, start, from)
	if !s.After.Done() {
		return
	}
	for price := p.price * 4; len(s.Rewinds) > 0; price *= 8 {
		fewer := Schedule{Windows: s.Windows, Dark: s.Dark, After: wanted}
		p.price = price
		if p.plan(&fewer, start, from); fewer.insteadOf(s, c.Kit.Subs.WorthARewind) {
			*s = fewer
		}
		if price > c.Span.To.Sub(c.Span.From).Seconds() {
			break
		}
	}
	if s.After.Done() {
		c.sooner(s, from, wanted)
	}
}

// insteadOf tells whether a schedule does for one that reaches the goal: with no more rewinds, each of those that it
// saves being worth so much exposure.
func (s Schedule) insteadOf(other *Schedule, worth time.Duration) bool {
	saves, lacks := len(other.Runs)-len(s.Runs), other.Exposed()-s.Exposed()
	return len(s.Runs) > 0 && len(s.Rewinds) <= len(other.Rewinds) &&
		(s.After.Done() || lacks <= time.Duration(saves)*worth)
}

// sooner moves the end of a schedule that reaches its goal forward, while no more rewinds are needed for that.
func (c *Course) sooner(s *Schedule, from Start, wanted Sequence) {
	const tries = 4
	earliest, end := later(from.At, s.Windows[0].From).Add(wanted.Working()), s.end()
	for range tries {
		half := earliest.Add(end.Sub(earliest) / 2)
		if !half.Before(end) {
			return
		}
		other := c.planBy(half, s, from, wanted)
		if other.After.Done() && len(other.Rewinds) <= len(s.Rewinds) {
			*s, end = other, other.end()
		} else {
			earliest = half
		}
	}
}

// planBy returns the best schedule that is over by an instant, in the dark and the windows of another.
func (c *Course) planBy(end time.Time, like *Schedule, from Start, wanted Sequence) Schedule {
	s := Schedule{Windows: like.Windows, Dark: like.Dark, After: wanted}
	if p, start, ok := c.programme(CutWindows(s.Windows, []Span{{c.Span.From, end}}), from, wanted); ok {
		p.plan(&s, start, from)
	}
	return s
}

// end returns when the last run is over.
func (s Schedule) end() time.Time { return s.Runs[len(s.Runs)-1].To }

// programme makes the programme for a start; ok is false if no window is left.
func (c *Course) programme(windows []Window, from Start, sequence Sequence) (p *programme, start whence, ok bool) {
	var passes []time.Time
	if c.Rule.Keep == kit.AlwaysKeep && !c.Kit.Derotator.StopsAnywhere {
		for _, w := range windows {
			if w.From = later(w.From, from.At); w.From.Before(w.To) {
				passes = append(passes, c.passesOfEnds(w.Span)...)
			}
		}
	}
	for i, w := range windows {
		if at := w.From.Add(-c.Kit.Subs.AfterTurn()); (i == 0 || !windows[i-1].tracksOn(w)) && at.After(from.At) {
			passes = append(passes, at) // what of the loop comes after a turn may be over as the window opens
		}
	}
	g, ok := c.gridOf(windows, from.At, coarse, passes)
	if !ok {
		return nil, whence{}, false
	}
	p = newProgramme(g)
	p.price = c.Kit.Subs.WorthARewind.Seconds()/sequence.Duty() + tie
	start.between = from.Between
	if from.Stage != nil {
		start.known, start.angle = true, float64(*from.Stage)
	}
	if from.Tracking != nil {
		start.first = p.going(*from.Tracking)
		start.known, start.angle = true, start.first.angle
	}
	return p, start, true
}

// going returns the leg of a derotator that tracks from an anchor, begun now.
func (p *programme) going(anchor Anchor) *leg {
	within := p.windows[0]
	l := &leg{angle: float64(anchor.Angle), tracking: true}
	chi, offsets := p.sky(p.seconds(anchor.At))
	p.reachOf(p.seconds(anchor.At), 0, 0, chi, &offsets, within, &l.reach)
	l.reach.settled = within.from <= 0
	return l
}

// plan finds the runs and lays them.
func (p *programme) plan(s *Schedule, start whence, from Start) {
	p.solve()
	legs := p.legs(start)
	if len(legs) > 0 {
		legs = p.refined(start, legs)
	}
	p.lay(s, from, legs)
}

// lay lays the runs and their subs.
func (p *programme) lay(s *Schedule, from Start, legs []leg) {
	s.by, s.legs = p, legs
	l := layer{programme: p, schedule: s, free: from.At, stage: from.Stage, from: from, acted: from.Between}
	before := s.After
	l.lay(legs)
	s.worthwhile(p.course.Kit.Subs.WorthARewind, from.Between, before)
}

// Exposed returns the time with the shutter open over all runs.
func (s Schedule) Exposed() (total time.Duration) {
	for _, run := range s.Runs {
		total += run.Exposed
	}
	return total
}

// Counts returns the subs by filter over all runs, in the kit's order.
func (s Schedule) Counts() []FilterCount {
	var all []Sub
	for _, run := range s.Runs {
		all = append(all, run.Subs...)
	}
	return countByFilter(s.After.subs.Filters, all)
}

// Usable returns how long the windows last together.
func (s Schedule) Usable() (total time.Duration) {
	for _, w := range s.Windows {
		total += w.Length()
	}
	return total
}
