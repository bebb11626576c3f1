package plan

import (
	"slices"
	"time"
)

// Why is why nothing is exposed in a part of the dark.
type Why int

// The reasons.
const (
	WindowClosed Why = iota // the target can't be used, by the Bound beside
	TooFast                 // the field turns too fast for a run that a sub fits, from any start
	TiltUnknown             // the axis as known would allow it, and not every axis that the mount's may be
	NotWorthIt              // a rewind would gain less than one is worth
	BetterStart             // a run that starts later gives more
	GoalReached             // all the wanted subs are taken
	NothingLeft             // too short for a run, with settling, a sub and the margin
)

// Words gives the reason in the words of the JSON, joined by hyphens; bound is that of a closed window.
func (w Why) Words(bound Bound) string {
	if w == WindowClosed {
		return [...]string{"twilight", "altitude-floor", "horizon-profile", "ceiling", "too-fast", "too-fast", "darkness-over", "hand-over"}[bound]
	}
	return [...]string{"", "too-fast", "tilt-unknown", "not-worth-a-rewind", "better-start", "goal-reached", "nothing-left"}[w]
}

// Idle is a part of the dark in which nothing is exposed.
type Idle struct {
	Span
	Why   Why
	Bound Bound // of WindowClosed, or what the uncertain axis closes a window by
}

// OnlyUncertain tells that the uncertainty of the axis is the only cause.
func (i Idle) OnlyUncertain() bool { return i.Why == TiltUnknown }

// account says of all the dark that is neither run nor rewind why: with these it adds up to the dark.
func (c *Course) account(s *Schedule) {
	nominal := c.nominalWindows(s.Windows)
	for _, dark := range s.Dark {
		for _, free := range dark.Without(s.busy()) {
			c.explain(s, free, nominal)
		}
	}
}

// Held returns a schedule that was found for longer turns of the target: its windows, and why nothing is exposed in the
// rest of the dark, are those of the course's own turns, in which all its runs lie.
func (c *Course) Held(s Schedule) Schedule {
	s.Windows, s.Waits, s.Gaps = c.Windows(), nil, nil
	c.account(&s)
	return s
}

// nominalWindows returns the windows of the axis as known, once each.
func (c *Course) nominalWindows(windows []Window) []Window {
	if c.axes.known {
		return windows
	}
	return c.NominalWindows()
}

// busy returns runs and rewinds, in order.
func (s *Schedule) busy() (spans []Span) {
	for _, run := range s.Runs {
		spans = append(spans, run.Span)
	}
	for _, rewind := range s.Rewinds {
		spans = append(spans, rewind.Span)
	}
	slices.SortFunc(spans, func(a, b Span) int { return a.From.Compare(b.From) })
	return spans
}

// explain takes up a free part of the dark, cut where windows open and close.
func (c *Course) explain(s *Schedule, free Span, nominal []Window) {
	var edges []time.Time
	for _, w := range append(slices.Clone(s.Windows), nominal...) {
		edges = append(edges, w.From, w.To)
	}
	slices.SortFunc(edges, time.Time.Compare)
	at := free.From
	for _, edge := range append(edges, free.To) {
		if edge = earlier(edge, free.To); !at.Before(edge) {
			continue
		}
		s.idle(c.reason(s, Span{at, edge}, nominal))
		at = edge
	}
}

// idle takes up a part: a wait if its window has a run yet to come.
func (s *Schedule) idle(i Idle) {
	list := &s.Gaps
	if i.Why == BetterStart {
		list = &s.Waits
	}
	if n := len(*list); n > 0 && (*list)[n-1].To.Equal(i.From) && (*list)[n-1].Why == i.Why && (*list)[n-1].Bound == i.Bound {
		(*list)[n-1].To = i.To
		return
	}
	*list = append(*list, i)
}

// reason says why nothing is exposed in a part that no window opens or closes in.
func (c *Course) reason(s *Schedule, part Span, nominal []Window) Idle {
	window, open := holding(s.Windows, part)
	if !open {
		if _, open := holding(nominal, part); open && !s.After.Done() {
			return Idle{part, TiltUnknown, closedBy(s.Windows, part, c.closedAlways())}
		}
		return Idle{part, WindowClosed, closedBy(nominal, part, c.closedAlways())}
	}
	comes := slices.ContainsFunc(s.Runs, func(r Run) bool { return !r.From.Before(part.To) && r.From.Before(window.To) })
	ended := slices.ContainsFunc(s.Runs, func(r Run) bool { return !r.To.After(part.From) })
	switch {
	case s.After.Done() && !comes:
		return Idle{part, GoalReached, 0}
	case part.Length() < c.leastRun() && !comes:
		return Idle{part, NothingLeft, 0}
	case c.canRun(c.axes, part, window.To):
		if comes {
			return Idle{part, BetterStart, 0}
		}
		if ended {
			return Idle{part, NotWorthIt, 0}
		}
		return Idle{part, NothingLeft, 0}
	case !c.axes.known && c.canRun(c.axes.alone(), part, window.To):
		return Idle{part, TiltUnknown, ByDerotatorRate}
	case comes && part.Length() < c.leastRun():
		return Idle{part, BetterStart, 0}
	}
	return Idle{part, TooFast, 0}
}

// canRun tells whether a run that a sub fits may start somewhere in a part of a window, for all axes of a region.
func (c *Course) canRun(axes region, part Span, until time.Time) bool {
	one := c.within(axes)
	const looks = 5
	for k := range looks {
		at := part.From.Add(part.Length() * time.Duration(k) / looks)
		if until.Sub(at) < c.leastRun()-c.Kit.Derotator.Margin {
			break
		}
		stretch, ok := one.stretch(at, until)
		if !ok {
			continue
		}
		least := c.leastRun()
		if !stretch.Spent {
			least -= c.Kit.Derotator.Margin
		}
		if stretch.Until.Sub(at) >= least {
			return true
		}
	}
	return false
}

// within returns the same course for other axes around the one as known.
func (c *Course) within(axes region) *Course {
	if axes.known == c.axes.known && axes.radius == c.axes.radius {
		return c
	}
	other := *c
	other.axes, other.limits = axes, &limitsKept{}
	other.rim = other.newRim()
	return &other
}

// holding returns the window that a part lies in.
func holding(windows []Window, part Span) (window Window, ok bool) {
	middle := part.From.Add(part.Length() / 2)
	for _, w := range windows {
		if w.Contains(middle) {
			return w, true
		}
	}
	return Window{}, false
}

// closedBy returns what keeps the windows around a part closed in it.
func closedBy(windows []Window, part Span, always Bound) Bound {
	for i := len(windows) - 1; i >= 0; i-- {
		if !windows[i].To.After(part.From) {
			if b := windows[i].ClosesBefore; b != ByDarkness && b != ByNight {
				return b
			}
		}
	}
	for _, w := range windows {
		if !w.From.Before(part.To) {
			return w.OpensAfter
		}
	}
	return always
}

// closedAlways returns what keeps a target out of use all the dark: the first condition that fails in its middle.
func (c *Course) closedAlways() Bound {
	if len(c.Dark) == 0 {
		return ByDarkness
	}
	middle := c.Dark[0].From.Add(c.Dark[0].Length() / 2)
	for _, condition := range c.conditions(c.axes) {
		if condition.room(middle) < 0 {
			return condition.kind
		}
	}
	return ByFloor
}
