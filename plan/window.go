package plan

import (
	"sort"
	"time"

	"duskhand/sky"
)

// Bound is why a window opens or closes.
type Bound int

// What can bound a window.
const (
	ByDarkness      Bound = iota // the Sun too high
	ByFloor                      // the target under the lowest altitude worth using
	ByHorizon                    // behind the horizon profile
	ByKeyhole                    // too near the mount's axis
	ByAzimuthRate                // the mount can't turn that fast
	ByDerotatorRate              // the derotator can't turn that fast
	ByNight                      // the noon that ends the night
	ByTurn                       // another target's turn
)

// Text says the bound in words, as what stands in the way.
func (b Bound) Text() string {
	return [...]string{"twilight", "altitude floor", "horizon profile", "keyhole", "azimuth rate of the mount",
		"rate of the derotator", "noon", "hand-over"}[b]
}

// Window is a stretch in which the target can be used, and what stands before and behind it.
type Window struct {
	Span
	OpensAfter, ClosesBefore Bound
	Obstruction              string // what the horizon profile names there, if that closes it
	Nominal                  Span   // the window of the axis as known, which holds this one
	Ceiling                  Bounds // when the target comes to the keyhole, if that closes it
}

// Bounds are an instant for the axis as known, the earliest over all that it may be, and the latest.
type Bounds struct{ Early, At, Late sky.Event }

// Windows returns the stretches of the night in which it is dark and the target stands above floor and
// horizon profile, and, for every axis that the mount's may be, outside the keyhole and turning no faster than
// mount and derotator can follow. In order; none when the target never rises, or when there is no darkness.
func (c *Course) Windows() []Window {
	windows := c.windowsFor(c.axes)
	if c.axes.known {
		for i, w := range windows {
			windows[i].Nominal = w.Span
		}
		return windows
	}
	nominal := c.NominalWindows()
	for i, w := range windows {
		for _, n := range nominal {
			if n.Overlap(w.Span) > 0 {
				windows[i].Nominal = n.Span
			}
		}
	}
	return windows
}

// NominalWindows is Windows for the axis as known alone.
func (c *Course) NominalWindows() []Window { return c.windowsFor(c.axes.alone()) }

func (c *Course) windowsFor(axes region) (windows []Window) {
	for _, dark := range c.Dark {
		windows = append(windows, c.windowsWithin(dark, axes)...)
	}
	if c.turns != nil {
		return CutWindows(windows, c.turns)
	}
	return windows
}

// InTurns returns the same course of a target that has its turn only in these spans: its windows are cut to
// them.
func (c *Course) InTurns(turns []Span) *Course {
	cut := *c
	cut.turns = append([]Span{}, turns...)
	return &cut
}

// CutWindows returns the windows within spans, cut to them. What is cut is bounded ByTurn.
func CutWindows(windows []Window, spans []Span) (cut []Window) {
	for _, span := range spans {
		for _, w := range windows {
			if w.Span.Overlap(span) <= 0 {
				continue
			}
			if span.From.After(w.From) {
				w.From, w.OpensAfter = span.From, ByTurn
				w.Nominal.From = later(w.Nominal.From, span.From)
			}
			if span.To.Before(w.To) {
				w.To, w.ClosesBefore, w.Obstruction, w.Ceiling = span.To, ByTurn, "", Bounds{}
				w.Nominal.To = earlier(w.Nominal.To, span.To)
			}
			cut = append(cut, w)
		}
	}
	return cut
}

func (c *Course) windowsWithin(dark Span, axes region) []Window {
	bound := func(t time.Time) Bound {
		if t.Equal(c.Span.From) || t.Equal(c.Span.To) {
			return ByNight
		}
		return ByDarkness
	}
	failing := map[Bound]bool{}
	var changes []change
	for _, condition := range c.conditions(axes) {
		curve := sky.SampleAt(condition.room, c.instants(condition.kind, dark))
		failing[condition.kind] = curve.Start() < 0
		for _, crossing := range curve.Crossings(0) {
			changes = append(changes, change{crossing.At, crossing.Rising, condition.kind})
		}
	}
	sort.SliceStable(changes, func(i, j int) bool { return changes[i].at.Before(changes[j].at) })
	var windows []Window
	open, opened := countTrue(failing) == 0, Window{Span: Span{From: dark.From}, OpensAfter: bound(dark.From)}
	for _, ch := range changes {
		failing[ch.kind] = !ch.holds
		usable := countTrue(failing) == 0
		switch {
		case usable && !open:
			opened = Window{Span: Span{From: ch.at}, OpensAfter: ch.kind}
		case !usable && open:
			windows = append(windows, c.closed(opened, ch.at, ch.kind))
		}
		open = usable
	}
	if open {
		windows = append(windows, c.closed(opened, dark.To, bound(dark.To)))
	}
	return windows
}

func (c *Course) closed(w Window, at time.Time, by Bound) Window {
	w.To, w.ClosesBefore = at, by
	switch by {
	case ByHorizon:
		w.Obstruction = c.Kit.Horizon.ObstructionAt(c.Place(at).Azimuth)
	case ByKeyhole:
		w.Ceiling = c.ceiling(at)
	}
	return w
}

func countTrue(m map[Bound]bool) (n int) {
	for _, v := range m {
		if v {
			n++
		}
	}
	return n
}
