package turning

import (
	"cmp"
	"math"
	"slices"

	"duskhand/checklist/subs"
)

// matched is a star of each light, by its index.
type matched struct{ a, b int }

// nearest pairs each star of a with the star of b nearest to where the transform puts it, if there is one
// within a distance; a star of b goes to the nearest that wants it.
func nearest(a, b []subs.Star, t Transform, within float64) []matched {
	byX := make([]int, len(b))
	for i := range byX {
		byX[i] = i
	}
	slices.SortFunc(byX, func(i, j int) int { return cmp.Compare(b[i].X, b[j].X) })
	type taker struct {
		a        int
		distance float64
	}
	takers := make([]taker, len(b))
	for i := range takers {
		takers[i].distance = math.Inf(1)
	}
	for i, s := range a {
		x, y := t.Apply(s.X, s.Y)
		first, _ := slices.BinarySearchFunc(byX, x-within, func(k int, x float64) int { return cmp.Compare(b[k].X, x) })
		best, distance := -1, within
		for _, k := range byX[first:] {
			if b[k].X > x+within {
				break
			}
			if d := math.Hypot(b[k].X-x, b[k].Y-y); d <= distance {
				best, distance = k, d
			}
		}
		if best >= 0 && distance < takers[best].distance {
			takers[best] = taker{i, distance}
		}
	}
	var pairs []matched
	for k, taker := range takers {
		if !math.IsInf(taker.distance, 1) {
			pairs = append(pairs, matched{taker.a, k})
		}
	}
	return pairs
}
