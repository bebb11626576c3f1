package kit

import (
	"cmp"
	"slices"

	"duskhand/sky"
)

// HorizonPoint is one measured point of the skyline. Name is the obstruction that stands there, or "".
type HorizonPoint struct {
	Azimuth, Altitude sky.Angle
	Name              string
}

// Horizon is the skyline of the site. The zero Horizon is a flat one at altitude 0°.
type Horizon struct {
	points []HorizonPoint // by azimuth, [0°, 360°), no two alike
}

// NewHorizon returns the skyline through points, which may come in any order. Of two points at one
// azimuth the higher counts.
func NewHorizon(points []HorizonPoint) Horizon {
	sorted := slices.Clone(points)
	for i := range sorted {
		sorted[i].Azimuth = sorted[i].Azimuth.Wrapped()
	}
	slices.SortStableFunc(sorted, func(a, b HorizonPoint) int {
		return cmp.Or(cmp.Compare(a.Azimuth, b.Azimuth), cmp.Compare(b.Altitude, a.Altitude))
	})
	return Horizon{slices.CompactFunc(sorted, func(a, b HorizonPoint) bool { return a.Azimuth == b.Azimuth })}
}

// Points returns the skyline's points by azimuth, as a copy.
func (h Horizon) Points() []HorizonPoint { return slices.Clone(h.points) }

// At returns the altitude of the skyline at azimuth: linear between the points on either side, around
// north as elsewhere; 0° when there are no points.
func (h Horizon) At(azimuth sky.Angle) sky.Angle {
	if len(h.points) == 0 {
		return 0
	}
	before, after, share := h.around(azimuth)
	return before.Altitude + sky.Angle(share)*(after.Altitude-before.Altitude)
}

// ObstructionAt returns the name of what stands at azimuth, which is that of the nearer point of the
// two on either side; "" when that point has none.
func (h Horizon) ObstructionAt(azimuth sky.Angle) string {
	if len(h.points) == 0 {
		return ""
	}
	before, after, share := h.around(azimuth)
	if share < 0.5 {
		return before.Name
	}
	return after.Name
}

// around returns the points on either side of azimuth and how far it lies from the first to the second,
// [0, 1). There must be at least one point.
func (h Horizon) around(azimuth sky.Angle) (before, after *HorizonPoint, share float64) {
	azimuth = azimuth.Wrapped()
	next := 0
	for next < len(h.points) && h.points[next].Azimuth <= azimuth {
		next++
	}
	after = &h.points[next%len(h.points)]
	before = &h.points[(next+len(h.points)-1)%len(h.points)]
	span := (after.Azimuth - before.Azimuth).Wrapped()
	if span == 0 { // a single point is the whole skyline
		return before, after, 0
	}
	return before, after, float64((azimuth - before.Azimuth).Wrapped() / span)
}
