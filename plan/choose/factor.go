package choose

import (
	"math"

	"duskhand/plan"
)

// Factor is one thing that makes the time that a target is up worth less, or more: Share is what it leaves.
// Told says that there is something to say of it, by what the choice has.
type Factor struct {
	Of    Reason
	Share float64
	Told  bool
}

// Reason is what a factor is about.
type Reason int

// The reasons, in the order of a choice's factors.
const (
	ByTurning Reason = iota // rewinds, settling, margins before limits, ends of runs that no sub fits
	ByHeight                // air: extinction, and the sky's own light towards the horizon
	ByMoon                  // moonlight
	ByFraming               // too small, or too large for one field
	ByGoal                  // what earlier nights have left to do
	ByFilter                // filters that are not made for the target's light
)

// String names the reason in a word.
func (r Reason) String() string {
	return [...]string{"turning", "height", "Moon", "framing", "goal", "filters"}[r]
}

// Weights are the choices of ours in a ranking. A zero value stands for its default.
type Weights struct {
	Moonlight float64 // by how much the Moon's light is counted, default 1; below 0 the Moon is ignored
	Tiny      float64 // what a tiny object counts for, default 0.4
	Small     float64 // a small one, default 0.8
	Begun     float64 // a target begun on an earlier night and not complete, default 1.25
}

func (w Weights) filled() Weights {
	for _, d := range []struct {
		of        *float64
		otherwise float64
	}{{&w.Moonlight, 1}, {&w.Tiny, 0.4}, {&w.Small, 0.8}, {&w.Begun, 1.25}} {
		if *d.of == 0 {
			*d.of = d.otherwise
		}
	}
	w.Moonlight = math.Max(0, w.Moonlight)
	return w
}

// NotUp is why a target can't be used, or can't be used any more.
type NotUp string

// The reasons.
const (
	IsUp       NotUp = ""
	NeverDark  NotUp = "never dark"  // enough for its filters
	NoMore     NotUp = "no more"     // its last window has closed
	InKeyhole  NotUp = "keyhole"     // all the time that it is up in the dark
	NeverAbove NotUp = "never above" // the floor and clear of the horizon in the dark
)

// notUp says why there is no window, or none any more; whole are the windows of the whole night.
func (n *Night) notUp(c *Choice, whole []plan.Window) {
	switch {
	case c.Up > 0:
	case len(n.skyFor(c.Target).scan.Dark) == 0:
		c.NotUp = NeverDark
	case len(whole) > 0:
		c.NotUp, c.Over = NoMore, whole[len(whole)-1]
	case c.Keyhole > 0:
		c.NotUp = InKeyhole
	default:
		c.NotUp = NeverAbove
	}
}

func turningFactor(c Choice) Factor {
	f := Factor{Of: ByTurning, Share: 1, Told: true}
	if c.Up > 0 {
		f.Share = float64(c.Working) / float64(c.Up)
	}
	return f
}

func heightFactor(s sight) Factor {
	if s.samples == 0 {
		return Factor{Of: ByHeight, Share: 1}
	}
	return Factor{ByHeight, s.height, true}
}

func moonFactor(s sight) Factor {
	if s.samples == 0 {
		return Factor{Of: ByMoon, Share: 1}
	}
	return Factor{ByMoon, s.moon, true}
}

func framingFactor(s Size, w Weights) Factor {
	f := Factor{Of: ByFraming, Share: 1, Told: true}
	switch s.Fit {
	case Tiny:
		f.Share = w.Tiny
	case Small:
		f.Share = w.Small
	case Larger:
		f.Share = math.Max(s.Shown, 1/float64(s.Panels()))
	}
	return f
}
