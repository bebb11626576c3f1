// Package facts says what the screens show: plain values, derived from kit, plan, the night so far and
// the instant. Screens turn them into text; nothing here does. What is to be done package advice decides.
package facts

import (
	"sync"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/checklist/frames/stage"
	"duskhand/plan"
	"duskhand/plan/choose"
	"duskhand/plan/kit"
)

// Tonight is what stands until something new is said or some minutes pass: what advice goes by, and what the
// pictures of the night need.
type Tonight struct {
	*advice.Tonight
	sky   *skyOfNight
	steps checklist.List // of the night; empty for the program's own
	stage stage.Finding  // of the run that goes on
	moon  func() choose.Moon

	offered *offered
}

// Run is what the screens show of one instant.
type Run struct {
	advice.Moment
	Tonight *Tonight
}

// For derives the facts of the night. The earlier Tonight, if any, lends what has not changed.
func For(k kit.Kit, date plan.Date, log checklist.Night, now time.Time, earlier *Tonight) *Tonight {
	if earlier == nil {
		t := advice.For(k, date, log, now, nil)
		first := &Tonight{Tonight: t, sky: newSkyOfNight(t.Night), offered: &offered{}}
		first.stage, first.moon = first.followStage(), first.newMoonOnTarget()
		return first
	}
	t := &Tonight{Tonight: advice.For(k, date, log, now, earlier.Tonight), sky: earlier.sky, steps: earlier.steps, moon: earlier.moon, offered: &offered{}}
	if t.Night != earlier.Night {
		t.sky = newSkyOfNight(t.Night)
	}
	if t.Course != earlier.Course { // it has the night, the target and its turns in it
		t.moon = t.newMoonOnTarget()
	}
	t.stage = t.followStage()
	return t
}

// MoonOnTarget returns what the Moon does to the target while it can be used.
func (t *Tonight) MoonOnTarget() choose.Moon { return t.moon() }

// newMoonOnTarget returns what the Moon does to the target while it can be used, computed when first asked for.
func (t *Tonight) newMoonOnTarget() func() choose.Moon {
	night, axis, spread, target, windows := t.Night, t.Axis, t.Spread, t.Target, t.Windows
	return sync.OnceValue(func() choose.Moon {
		moon, _ := choose.NewNight(night, axis, spread).MoonOn(target, windows)
		return moon
	})
}

// Using returns the same night with a checklist of its own.
func (t *Tonight) Using(steps checklist.List) *Tonight {
	own := *t
	own.steps = steps
	return &own
}

// Advice is what is to be done at the instant.
func (r Run) Advice() advice.Advice {
	if len(r.Tonight.steps.All()) == 0 {
		return advice.Decide(r.Moment, checklist.Steps().For(r.Kit))
	}
	return advice.Decide(r.Moment, r.Tonight.steps.For(r.Kit))
}

// At derives the facts of an instant.
func (t *Tonight) At(now time.Time) Run { return Run{t.Tonight.At(now), t} }

// WorthTelling is the least loss of exposure that the night's answer speaks of: a sub or two.
const WorthTelling = 5 * time.Minute

func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}
