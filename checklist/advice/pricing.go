package advice

import (
	"time"

	"duskhand/plan"
)

// Pricing is a plan for which it can be asked what it costs that the axis is not known better. Two are the same while
// the answer is.
type Pricing struct {
	course *plan.Course
	begins int64 // s: when something of what is ahead is first to be done
	runs   int
	going  bool
}

// priceStep is how coarsely the beginning of a plan that goes on without the person counts: nothing is priced anew for
// each minute that is let pass.
const priceStep = 10 * time.Minute

// Pricing returns what the price of not knowing the axis is asked for: the plan of what is ahead.
func (t *Tonight) Pricing() Pricing {
	return Pricing{t.Course, t.Ahead().Begins().Truncate(priceStep).Unix(), len(t.Log.Runs), t.Log.Subs != nil}
}

// OfSameAxis tells whether two plans go by the same target and axis: a price of one then says something of the other.
func (p Pricing) OfSameAxis(other Pricing) bool { return p.course == other.course }

// Price returns what it costs the plan of what is ahead that the axis is not known better. It takes several schedules:
// for the background, where it may be asked while the night goes on.
func (t *Tonight) Price() plan.Price {
	from, sequence := t.startAhead()
	return t.Course.Price(from, sequence)
}
