package advice_test

import (
	"fmt"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/plan"
	"duskhand/sky"
)

// promised is the exposure that was promised at an instant.
type promised struct {
	at   time.Time
	left time.Duration
	runs int // that it was to come from
}

// rules holds an advice against what must hold at every instant, and notes what is promised.
func (n *model) rules(m advice.Moment, a advice.Advice) bool {
	t := n.t.(assert.TestingT)
	ok := true
	holds := func(right bool, format string, args ...any) {
		ok = ok && assert.Truef(t, right, "%s: %s, %s: "+format, append([]any{m.Now, a.Do, a.Why}, args...)...)
	}
	holds(a.Do != advice.Wait || a.Offer == nil, "waiting offers nothing")
	if a.Offer != nil {
		warned := n.steps.Warnings(n.log, m.Completed(a.Offer))
		holds(len(warned) == 0, "offers %s, which the checklist speaks against: %v", kindOf(a.Offer), warned)
	}
	holds(a.Do != advice.Stow || m.SubsLeft() == 0, "nothing is left, and %v are promised", m.SubsLeft())
	holds(a.From == nil || a.Offer != nil || a.From.After(m.Now.Add(-time.Minute)), "waits for %v, which is past", a.From)
	holds(a.From == nil || a.By == nil || !a.By.Before(*a.From), "from %v by %v", a.From, a.By)
	if _, on := a.Offer.(checklist.TurnOn); on {
		holds(!m.Now.Before(m.Next().Begins.Add(-m.Kit.Mount.Frame)), "before its time")
	}
	if _, on := a.Offer.(checklist.StartSubs); on {
		holds(!m.Now.Before(m.Window.From), "in twilight, or while the target can't be used")
		holds(len(m.Call.Subs) > 0, "no sub fits")
	}
	if a.Do == advice.Rewind && a.Why == advice.Limit && n.log.Subs != nil {
		next := m.Ahead().Exposed()
		holds(next > m.Kit.Subs.WorthARewind, "a rewind for %v of exposure", next)
	}
	if a.Angle != nil {
		d := n.kit.Derotator
		holds(*a.Angle >= d.Min && *a.Angle <= d.Max, "the angle %v", *a.Angle)
		if rewound, is := a.Offer.(checklist.Rewound); is {
			holds((rewound.To-*a.Angle).Abs() < 0.05*sky.Degree, "says %v and offers %v", *a.Angle, rewound.To)
		}
	}
	n.promise = append(n.promise, promised{m.Now, m.SubsLeft(), 1 + len(m.Ahead().Runs)})
	return ok
}

// keeps tells whether what was promised at any instant is what was then had, within one sub a run.
func (n *model) keeps(t assert.TestingT) {
	longest := n.kit.Subs.Filters[0].Exposure
	for _, p := range n.promise {
		had := exposedSince(n.taken, p.at)
		slack := time.Duration(p.runs) * longest
		if !assert.GreaterOrEqual(t, had+slack, p.left, "promised at %s of %d runs; had %v", p.at, p.runs, had) {
			return
		}
	}
}

func exposedSince(subs []plan.Sub, at time.Time) (total time.Duration) {
	for _, sub := range subs {
		total += sub.Exposure.Overlap(plan.Span{From: at, To: at.Add(48 * time.Hour)})
	}
	return total
}

func kindOf(a checklist.Action) string { return fmt.Sprintf("%T %+v", a, a) }
