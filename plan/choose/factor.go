package choose

import (
	"fmt"
	"math"
	"strings"
	"time"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/words"
)

// Factor is one thing that makes the time that a target is up worth less, or more: Share is what it leaves,
// Words why.
type Factor struct {
	Of    Reason
	Share float64
	Words string
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

// turningFactor also says that a target is not up; whole are the windows of the whole night.
func (n *Night) turningFactor(c Choice, whole []plan.Window) Factor {
	f := Factor{Of: ByTurning, Share: 1}
	if c.Up == 0 {
		f.Words = n.notUp(c, whole)
		return f
	}
	f.Share = float64(c.Working) / float64(c.Up)
	var up []string
	for _, w := range c.Windows {
		up = append(up, fmt.Sprintf("%s to %s", words.MinuteFrom(w.From, n.Plan.Kit.Site.Zone), words.Minute(w.To, n.Plan.Kit.Site.Zone)))
	}
	f.Words = fmt.Sprintf("up %s in the dark, %s, ", words.Lasting(c.Up), strings.Join(up, " and "))
	lost := words.Percent(1-f.Share, 0)
	switch {
	case c.Working == 0:
		f.Words += "but no sub fits"
	case c.OneRun:
		f.Words += "in one run"
	case c.Rewinds == 0:
		f.Words += fmt.Sprintf("no rewind, waiting costs %s", lost)
	case c.Rewinds == 1:
		f.Words += fmt.Sprintf("1 rewind costs %s", lost)
	default:
		f.Words += fmt.Sprintf("%d rewinds cost %s", c.Rewinds, lost)
	}
	if c.Keyhole >= time.Minute {
		f.Words += fmt.Sprintf(", the keyhole takes %s", words.Lasting(c.Keyhole))
	}
	return f
}

// notUp says why there is no window, or none any more.
func (n *Night) notUp(c Choice, whole []plan.Window) string {
	switch {
	case len(n.skyFor(c.Target).scan.Dark) == 0:
		return fmt.Sprintf("the Sun never sinks %s below the horizon", words.Degrees(-n.Plan.Kit.DarkSunFor(c.Target), 0))
	case len(whole) > 0:
		return "no more tonight: " + n.over(whole[len(whole)-1])
	case c.Keyhole > 0:
		return "in the keyhole all the time that it is up in the dark"
	}
	return fmt.Sprintf("never above %s and clear of the horizon in the dark", words.Degrees(n.Plan.Kit.Mount.Floor, 0))
}

// over says what ended the last window.
func (n *Night) over(last plan.Window) string {
	at := words.Minute(last.To, n.Plan.Kit.Site.Zone)
	switch last.ClosesBefore {
	case plan.ByFloor:
		return fmt.Sprintf("below %s since %s", words.Degrees(n.Plan.Kit.Mount.Floor, 0), at)
	case plan.ByHorizon:
		if last.Obstruction != "" {
			return fmt.Sprintf("behind the horizon (%s) since %s", last.Obstruction, at)
		}
		return "behind the horizon since " + at
	case plan.ByDarkness:
		return "twilight since " + at
	case plan.ByKeyhole:
		return "into the keyhole at " + at
	case plan.ByAzimuthRate:
		return "too fast for the mount at " + at
	case plan.ByDerotatorRate:
		return "too fast for the derotator at " + at
	}
	return "over at " + at
}

func heightFactor(k kit.Kit, c Choice, s sight) Factor {
	f := Factor{Of: ByHeight, Share: 1}
	if s.samples > 0 {
		f.Share = s.height
		f.Words = fmt.Sprintf("highest %s at %s, worth %s of the zenith", words.Degrees(c.Highest, 0), words.Minute(c.HighestAt, k.Site.Zone), words.Percent(f.Share, 0))
	}
	return f
}

func moonFactor(k kit.Kit, c Choice, s sight) Factor {
	f := Factor{Of: ByMoon, Share: 1}
	if s.samples == 0 {
		return f
	}
	f.Share = s.moon
	f.Words = c.Moon.Words(func(t time.Time) string { return words.Minute(t, k.Site.Zone) })
	if c.Moon.Up == 0 {
		return f
	}
	if lost := 1 - f.Share; lost >= 0.005 {
		f.Words += ", " + MoonCosts(c.Through, lost)
	}
	return f
}

func framingFactor(s Size, w Weights) Factor {
	f := Factor{Of: ByFraming, Share: 1, Words: s.Missing}
	field := fmt.Sprintf("a field of %s × %s", words.Degrees(s.Width, 1), words.Degrees(s.Height, 1))
	if max(s.Width, s.Height) < 2*sky.Degree {
		field = fmt.Sprintf("a field of %s × %s", words.Arcminutes(s.Width, 0), words.Arcminutes(s.Height, 0))
	}
	switch s.Fit {
	case Tiny:
		f.Share, f.Words = w.Tiny, fmt.Sprintf("%s is tiny in %s", words.Size(s.Object.Major), field)
	case Small:
		f.Share, f.Words = w.Small, fmt.Sprintf("%s is small in %s", words.Size(s.Object.Major), field)
	case Fits:
		f.Words = fmt.Sprintf("%s fits %s", words.Size(s.Object.Major), field)
	case Larger:
		f.Share = math.Max(s.Shown, 1/float64(s.Panels()))
		f.Words = fmt.Sprintf("%s is larger than %s: one shows %s, all needs a mosaic of %d × %d", words.Size(s.Object.Major), field, words.Percent(s.Shown, 0), s.Columns, s.Rows)
	}
	return f
}
