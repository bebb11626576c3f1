package solve

import (
	"cmp"
	"math"
	"slices"

	"duskhand/plan/framing"
	"duskhand/sky"
)

// patches returns the middles of circles of a radius that cover a larger one, the nearest to its centre first.
// The first is the centre itself.
//
// Source: circles whose middles are the corners of equal triangles of side r√3 cover the plane. On the tangent
// plane distances from the middle are too long by 2 % at 15°, so that the cover there is denser, not thinner.
func patches(centre sky.J2000, within, radius sky.Angle) []sky.J2000 {
	if within <= radius {
		return []sky.J2000{centre}
	}
	side := float64(radius) * math.Sqrt(3) * 0.98
	rows := int(float64(within)/side) + 2
	type middle struct{ x, y float64 }
	var middles []middle
	for i := -rows; i <= rows; i++ {
		for j := -2 * rows; j <= 2*rows; j++ {
			m := middle{side * (float64(j) + float64(i)/2), side * float64(i) * math.Sqrt(3) / 2}
			if math.Hypot(m.x, m.y) <= float64(within)+side/2 {
				middles = append(middles, m)
			}
		}
	}
	slices.SortStableFunc(middles, func(a, b middle) int {
		return cmp.Compare(math.Hypot(a.x, a.y), math.Hypot(b.x, b.y))
	})
	plane := framing.NewTangentPlane(centre)
	places := make([]sky.J2000, len(middles))
	for i, m := range middles {
		places[i] = plane.Sky(framing.PlanePoint{East: sky.Angle(m.x), North: sky.Angle(m.y)})
	}
	return places
}
