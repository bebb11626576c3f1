package advice

import (
	"time"

	"duskhand/checklist"
)

// worthARewind is the exposure that a rewind must gain to be asked for (common practice: it takes some minutes, and
// somebody must get up for it).
const worthARewind = 10 * time.Minute

// usePause: no subs are taken before the target can be used, and a rewind on the way there buys a longer run than the
// stage has from where it will stand.
func (d decider) usePause() (Advice, bool) {
	if d.Log.Subs != nil || d.Anchor == nil || !d.Offer.OK || !d.Now.Before(d.Window.From) || d.Now.Before(d.pauseFrom()) {
		return Advice{}, false
	}
	gains := d.pauseGains()
	if gains < worthARewind {
		return Advice{}, false
	}
	to := d.Offer.To
	return Advice{Do: UsePause, Why: Limit, Angle: &to, Side: d.sideOf(to), By: at(d.Window.From), Gains: gains, Target: d.Target.Name,
		Offer: checklist.Rewound{To: to}}, true
}

// pauseGains is by how much a run after a rewind is longer than one from where the stage will stand when the window
// opens.
func (d decider) pauseGains() time.Duration {
	if !d.Offer.OK {
		return 0
	}
	return d.Offer.Lasts - max(0, d.Call.By.Sub(d.Window.From))
}

// pauseFrom is when the rewind before a window must begin for the loop to be over when it opens.
func (d decider) pauseFrom() time.Time { return d.Offer.Begins.Add(-d.Offer.Takes - loop) }
