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
}

// Windows returns the stretches of the night in which it is dark and the target stands above floor and
// horizon profile, outside the keyhole, and turns no faster than mount and derotator can follow. In
// order; none when the target never rises, or when there is no darkness.
func (c *Course) Windows() []Window {
	if len(c.Dark) == 0 {
		return nil
	}
	var windows []Window
	for _, dark := range c.Dark {
		windows = append(windows, c.windowsWithin(dark)...)
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
			}
			if span.To.Before(w.To) {
				w.To, w.ClosesBefore, w.Obstruction = span.To, ByTurn, ""
			}
			cut = append(cut, w)
		}
	}
	return cut
}

func (c *Course) windowsWithin(dark Span) []Window {
	bound := func(t time.Time) Bound {
		if t.Equal(c.Span.From) || t.Equal(c.Span.To) {
			return ByNight
		}
		return ByDarkness
	}
	failing := map[Bound]bool{}
	var changes []change
	for _, condition := range c.conditions() {
		curve := sky.Sample(condition.room, dark.From, dark.To, 2*trackStep)
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
	if by == ByHorizon {
		w.Obstruction = c.Kit.Horizon.ObstructionAt(c.Place(at).Azimuth)
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

// conditions lists what the target must satisfy but for darkness. The floor counts airless altitudes; the
// horizon profile was measured by eye, so that refraction helps the target over it.
func (c *Course) conditions() []condition {
	k, pole, axis := c.Kit, c.frame.Pole(), c.nominal.Axis()
	air := sky.Air{PressureHPa: k.Site.PressureHPa, TemperatureC: k.Site.TemperatureC}
	return []condition{
		{ByFloor, func(t time.Time) sky.Angle { return c.Place(t).Altitude - k.Mount.Floor }},
		{ByHorizon, func(t time.Time) sky.Angle {
			place := c.Place(t)
			return place.Altitude + air.Refraction(place.Altitude) - k.Horizon.At(place.Azimuth)
		}},
		{ByKeyhole, func(t time.Time) sky.Angle { return k.Mount.Ceiling - c.AboutAxis(t) }},
		{ByAzimuthRate, func(t time.Time) sky.Angle {
			return roomIn(k.Mount.LargestAzimuthRate)(sky.AzimuthRate(pole, c.track.At(t), axis))
		}},
		{ByDerotatorRate, func(t time.Time) sky.Angle {
			return roomIn(k.Derotator.LargestRate)(sky.FieldRate(pole, c.track.At(t), axis))
		}},
	}
}

// roomIn returns what is left below the largest rate, as the angle of one second; at the axis, where
// the rate has no bound, it is as negative as the rate is large.
func roomIn(largest sky.Rate) func(rate sky.Rate, ok bool) sky.Angle {
	return func(rate sky.Rate, ok bool) sky.Angle {
		if !ok {
			return -largest.Times(time.Second)
		}
		return (largest - sky.Rate(sky.Angle(rate).Abs())).Times(time.Second)
	}
}
