package checklist

import (
	"slices"

	"duskhand/plan/kit"
)

// stepSeen is the step of seeing the derotator turn.
const stepSeen = "derotator-seen"

// For returns the checklist for a kit: a derotator that tracks again by itself after a rewind is seen to turn once, and
// again after it was off, but not in each run.
func (l List) For(k kit.Kit) List {
	i := slices.IndexFunc(l.steps, func(s Step) bool { return s.ID == stepSeen })
	if !k.Derotator.Resumes || i < 0 {
		return l
	}
	steps := slices.Clone(l.steps)
	steps[i].Loop = false
	return List{steps}
}
