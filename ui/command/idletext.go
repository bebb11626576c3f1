package command

import (
	"bytes"
	"fmt"
	"slices"
	"time"

	"duskhand/plan"
	"duskhand/sky/words"
	"duskhand/ui/facts"
	"duskhand/ui/say"
)

// writeIdle writes the parts of the dark in which nothing is exposed, with why; what closes the windows stands in
// their own lines.
func writeIdle(out *bytes.Buffer, t plannedTarget, local words.Wall) {
	idle := append(slices.Clone(t.runs.Waits), t.runs.Gaps...)
	slices.SortFunc(idle, func(a, b plan.Idle) int { return a.From.Compare(b.From) })
	for _, i := range idle {
		if i.Length() < facts.ShortestIdle || i.Why == plan.WindowClosed {
			continue
		}
		label := "  Gap"
		if i.Why == plan.BetterStart {
			label = "  Wait"
		}
		from, to := say.EdgesOf(i.Span, idle, t.course.Dark, local)
		line(out, label, "%s to %s, %s: %s", from, to, words.Lasting(i.Length()), say.WhyIdle(i))
	}
}

// writePrice writes what a better knowledge of the axis would gain, if it is worth speaking of.
func writePrice(out *bytes.Buffer, t plannedTarget) {
	p := t.price
	if p.Exact < facts.WorthTelling {
		return
	}
	text := fmt.Sprintf("known exactly it would gain %s; two sights of stars %s, a reading of a level %s", words.Lasting(p.Exact), gainText(p.Sights), gainText(p.Reading))
	if p.Standing > 0 {
		text += ", lights while the stage stands still for ten minutes before dark " + gainText(p.Standing)
	}
	line(out, "  Tilt", "%s", text)
}

func gainText(d time.Duration) string {
	if d < time.Minute {
		return "nothing"
	}
	return words.Lasting(d)
}
