package facts

import (
	"fmt"

	"duskhand/checklist/advice"
	"duskhand/sky/words"
)

// LightsWalk is the alert of lights that move one way while guiding is said to be on.
const LightsWalk AlertKind = "guide star"

func (r Run) walks() Alert {
	a := Alert{Kind: LightsWalk, Words: "when lights walk one way although guiding is on"}
	w, ok := r.Walking()
	if !ok || r.Log.Subs == nil {
		return a
	}
	a.Level = advice.Calling
	a.Words = fmt.Sprintf("the lights walk one way, by %s in %s, and guiding is said to be on: is its star lost?", words.Arcseconds(w.By, 0), words.Lasting(w.For))
	a.Brief = "the lights walk: guide star lost?"
	return a
}
