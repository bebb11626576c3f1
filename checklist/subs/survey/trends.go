package survey

import (
	"time"

	"duskhand/checklist/subs"
	"duskhand/checklist/subs/arrival"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Point is one light of a night among others.
type Point struct {
	Path          string
	Start         time.Time
	Exposure      time.Duration
	Filter        string // as the kit has it, or else as the header has it
	Run           int    // −1 outside runs
	HFD           sky.Angle
	Stars         int
	BackgroundADU float64
	NoiseADU      float64 // of one pixel of the sky, one σ
	Elongation    float64 // ≥ 1; 0 when nobody knows
}

// Trend returns the lights of a ledger that were measured, in the order of their exposures, copies left out.
// Diameters are by the kit's scale and the frames' binning; 0 where no star was sharp enough to tell.
func Trend(l arrival.Ledger, k kit.Kit) []Point {
	var points []Point
	for _, e := range l.Entries {
		if e.Measured == nil || !e.Counts() {
			continue
		}
		p := Point{Path: e.Path, Start: e.Start, Exposure: e.Exposure, Filter: e.Header.Filter, Run: e.Run,
			HFD: Diameter(e.Measured.HFD, e.Header, k), Stars: e.Measured.Count,
			BackgroundADU: e.Measured.Background, NoiseADU: e.Measured.Noise, Elongation: e.Measured.Elongation}
		if e.Filter >= 0 {
			p.Filter = k.Subs.Filters[e.Filter].Name
		}
		points = append(points, p)
	}
	return points
}

// Diameter returns the angle that a length on the frame covers, by the kit's scale and the frame's binning.
func Diameter(pixels float64, h subs.Header, k kit.Kit) sky.Angle {
	return sky.Angle(pixels*float64(max(1, h.BinX))) * perPixel(k)
}

// alike tells that two lights are as bright for the same sky: one filter, and one exposure within a tenth.
func (p Point) alike(q Point) bool {
	return p.Filter == q.Filter && (p.Exposure-q.Exposure).Abs() <= q.Exposure/10
}
