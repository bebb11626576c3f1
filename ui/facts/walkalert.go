package facts

import "duskhand/checklist/advice"

// LightsWalk is the alert of lights that move one way while guiding is said to be on.
const LightsWalk AlertKind = "guide star"

func (r Run) walks() Alert {
	a := Alert{Kind: LightsWalk}
	if _, ok := r.Walking(); ok && r.Log.Subs != nil {
		a.Level = advice.Calling
	}
	return a
}
