package advice

import (
	"math"
	"time"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/sky"
)

// usePause: no subs are taken before the target can be used, and a rewind on the way there buys a longer run than the
// stage has from where it will stand.
func (d decider) usePause() (Advice, bool) {
	if d.Log.Subs != nil || d.Anchor == nil || !d.RewindNow().OK || !d.Now.Before(d.Window.From) || d.Now.Before(d.pauseFrom()) {
		return Advice{}, false
	}
	gains := d.pauseGains()
	run, open := d.Log.OpenRun()
	if gains < d.Kit.Subs.WorthARewind || open && !run.Start.Before(d.pauseFrom()) { // once is enough
		return Advice{}, false
	}
	to := d.leading(d.RewindNow())
	a := Advice{Do: UsePause, Why: Limit, Angle: &to, Side: d.sideOf(to), By: at(d.Window.From), Gains: gains, Target: d.Target.Name}
	a.Step, a.Offer = d.inLoop(checklist.Rewound{To: to})
	return a, true
}

// leading is the angle to rewind to for the stage, which tracks from then on, to stand where a run starts when that
// begins; the end of the travel where that lies beyond it.
func (d decider) leading(run Offer) sky.Angle {
	return d.leadingFrom(run, d.Now.Add(run.Takes))
}

// leadingFrom is leading for a turn that is over at an instant.
func (d decider) leadingFrom(run Offer, turned time.Time) sky.Angle {
	if !turned.Before(run.Begins) {
		return run.To
	}
	tracks := d.Course.Angle(plan.Anchor{At: turned, Angle: run.To}, run.Begins) - run.To
	ahead := sky.Angle(math.Round((run.To-tracks).Degrees()*10)/10) * sky.Degree // as scales are read
	return max(d.Kit.Derotator.Min, min(ahead, d.Kit.Derotator.Max))
}

// servesLater tells that the plan begins the next run later than it could, and all that is wanted comes all the same.
func (d decider) servesLater() bool { return d.next().OK && d.next().Later && d.Ahead().After.Done() }

// pauseGains is by how much a run after a rewind is longer than one from where the stage will stand when the window
// opens.
func (d decider) pauseGains() time.Duration {
	if !d.RewindNow().OK || d.servesLater() {
		return 0
	}
	gains := d.RewindNow().Lasts - max(0, d.Call.By.Sub(d.Window.From))
	if gains >= d.Kit.Subs.WorthARewind && d.turnLoses() {
		return 0
	}
	return gains
}

// turnLoses tells that the night from a rewind at once on gives less, by more than a sub, than it does with the run that
// the stage has from where it stands: short as that is, the next one has a rewind of its own.
func (d decider) turnLoses() bool {
	sub, _, _ := d.Taken.Next(d.Now)
	return d.Anchor != nil && d.turned().Exposed()+sub.Exposure.Length() < d.SubsLeft()-d.laterExposed(d.Now)
}

// pauseFrom is when the rewind before a window must begin for the loop to be over when it opens.
func (d decider) pauseFrom() time.Time {
	return d.RewindNow().Begins.Add(-d.RewindNow().Takes - d.Kit.Subs.Loop)
}
