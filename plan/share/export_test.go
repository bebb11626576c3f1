package share

import (
	"duskhand/plan"
	"duskhand/plan/kit"
)

// Equally wishes the same for all targets, from their first subs on.
func Equally(k kit.Kit, targets []kit.Target) []Wish {
	var wishes []Wish
	for _, t := range targets {
		wishes = append(wishes, Wish{t, 1, plan.NewSequence(k.SubsFor(t))})
	}
	return wishes
}
