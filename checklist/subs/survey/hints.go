package survey

import (
	"math"
	"slices"
	"time"

	"duskhand/checklist/scatter"
	"duskhand/sky"
)

// Hint is something that the trends of a night suggest. It asks, it does not call.
type Hint struct {
	Kind HintKind
	At   time.Time // start of the light that shows it

	Grown    float64   // of FocusDrifts: by what share of their best size the stars are larger
	HFD      sky.Angle // and what they measure
	Focused  bool      // since focusing, and not since the first of these lights
	Stars    int       // of StarsMissing
	Usual    float64   // that the run's lights have in the middle
	Brighter float64   // of SkyBrightens: times as bright as at its darkest
}

// HintKind is what a hint is about.
type HintKind string

// The kinds of hints.
const (
	FocusDrifts  HintKind = "focus"
	StarsMissing HintKind = "stars"
	SkyBrightens HintKind = "sky"
)

// Hints returns what the latest lights suggest, at most one of each kind. focused is when the telescopes were
// focused last, zero if never. Points are in order, as Trend returns them.
func Hints(points []Point, focused time.Time) []Hint {
	var hints []Hint
	for _, find := range []func() (Hint, bool){
		func() (Hint, bool) { return Refocus(points, focused) },
		func() (Hint, bool) { return Clouded(points) },
		func() (Hint, bool) { return Brightened(points) },
	} {
		if hint, ok := find(); ok {
			hints = append(hints, hint)
		}
	}
	return hints
}

// The bounds of Refocus; choices of ours. Stars a quarter larger lose a third of the light in the middle, and
// ordinary seeing changes them by less from light to light than five of its own scatter.
const (
	mostGrowth    = 0.25
	growthSigmas  = 5.0
	lightsEachEnd = 3
	leastScatter  = 0.02 // that is granted to the seeing before lights have shown any
	fewestToJudge = 2 * lightsEachEnd
	scaleOfMedian = 1.4826 // a normal σ over the median of the absolute deviations
)

// Refocus tells that the stars have grown since focusing: the middle of the last three lights over the middle of
// the three best, each held against the best of its own filter, by more than a quarter and by more than five
// times what lights differ by from one to the next. The air may be at fault as well as the focus.
func Refocus(points []Point, focused time.Time) (Hint, bool) {
	var sizes []Point
	for _, p := range points {
		if p.HFD > 0 && !p.Start.Before(focused) {
			sizes = append(sizes, p)
		}
	}
	growths := growthsOf(sizes)
	if len(growths) < fewestToJudge {
		return Hint{}, false
	}
	last := growths[len(growths)-lightsEachEnd:]
	grown := scatter.Median(values(last)) - 1
	if grown <= mostGrowth || grown <= growthSigmas*scatterOf(growths) {
		return Hint{}, false
	}
	latest := last[len(last)-1]
	return Hint{Kind: FocusDrifts, At: latest.point.Start, Grown: grown, HFD: latest.point.HFD, Focused: !focused.IsZero()}, true
}

// growth is how large a light's stars are against the best of its filter.
type growth struct {
	point Point
	ratio float64
}

// growthsOf returns the lights of filters that have enough of them, in order.
func growthsOf(points []Point) []growth {
	byFilter := map[string][]float64{}
	for _, p := range points {
		byFilter[p.Filter] = append(byFilter[p.Filter], float64(p.HFD))
	}
	var growths []growth
	for _, p := range points {
		sizes := byFilter[p.Filter]
		if len(sizes) < lightsEachEnd {
			continue
		}
		sorted := slices.Sorted(slices.Values(sizes))
		growths = append(growths, growth{p, float64(p.HFD) / sorted[lightsEachEnd/2]}) // the middle of the three best
	}
	return growths
}

func values(growths []growth) []float64 {
	ratios := make([]float64, len(growths))
	for i, g := range growths {
		ratios[i] = g.ratio
	}
	return ratios
}

// scatterOf returns by how much lights differ from one to the next without a trend, one σ.
func scatterOf(growths []growth) float64 {
	var steps []float64
	for i := 1; i < len(growths); i++ {
		steps = append(steps, math.Abs(growths[i].ratio-growths[i-1].ratio))
	}
	return max(leastScatter, scaleOfMedian*scatter.Median(steps)/math.Sqrt2)
}
