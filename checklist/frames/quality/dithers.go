package quality

import (
	"math"
	"slices"

	"duskhand/checklist"
	"duskhand/plan/kit"
)

// DitherSize returns by how many pixels a dither of the run moves the picture, the median, and of how many it is: of
// the moves from light to light the largest, one for each dither that the kit asks for. 0 where nobody can tell.
func DitherSize(n checklist.Night, k kit.Kit) (pixels float64, of int) {
	if k.Subs.DitherEvery < 1 || len(n.Runs) == 0 {
		return 0, 0
	}
	var moves []float64
	var before *checklist.TurningBody
	for _, a := range n.Arrived {
		began, dated := a.Began()
		if t := a.Turning; dated && !began.Before(n.Runs[len(n.Runs)-1].Start) && t != nil && t.MovedXPx != nil && t.MovedYPx != nil {
			if before != nil {
				moves = append(moves, math.Hypot(*t.MovedXPx-*before.MovedXPx, *t.MovedYPx-*before.MovedYPx))
			}
			before = t
		}
	}
	slices.Sort(moves)
	dithers := moves[len(moves)-len(moves)/k.Subs.DitherEvery:]
	if len(dithers) == 0 {
		return 0, 0
	}
	return dithers[len(dithers)/2], len(dithers)
}

// dithers tells that they are too small to be of use.
func dithers(n checklist.Night, k kit.Kit) (Finding, bool) {
	pixels, of := DitherSize(n, k)
	return Finding{Kind: SmallDithers, Lights: of, Pixels: pixels}, of >= leastDithers && pixels < smallDither
}
