package survey

import (
	"cmp"
	"slices"

	"duskhand/checklist/scatter"
)

// The bounds of Clouded and Brightened; choices of ours.
const (
	fewestStars    = 0.5 // of the middle count of the run's
	fewestBefore   = 3   // lights to hold a light against
	brighterBy     = 1.4 // of the noise of the sky: its square, 2, is that of its light
	brighterLights = 2   // in a row
)

// Clouded tells that the last light has less than half the stars that the run's others of its filter and
// exposure have in the middle: cloud, most often.
func Clouded(points []Point) (Hint, bool) {
	if len(points) == 0 {
		return Hint{}, false
	}
	last := points[len(points)-1]
	var counts []float64
	for _, p := range points[:len(points)-1] {
		if p.Run == last.Run && p.alike(last) {
			counts = append(counts, float64(p.Stars))
		}
	}
	usual := scatter.Median(counts)
	if len(counts) < fewestBefore || float64(last.Stars) >= fewestStars*usual {
		return Hint{}, false
	}
	return Hint{Kind: StarsMissing, At: last.Start, Stars: last.Stars, Usual: usual}, true
}

// Brightened tells that the sky has become twice as bright as it was at its darkest in lights of the filter and
// exposure, and stays so for two of them. It goes by the sky's noise, which owes nothing to the camera's offset;
// the level must have risen too.
func Brightened(points []Point) (Hint, bool) {
	if len(points) == 0 {
		return Hint{}, false
	}
	last := points[len(points)-1]
	var alike []Point
	for _, p := range points {
		if p.alike(last) && p.NoiseADU > 0 {
			alike = append(alike, p)
		}
	}
	if len(alike) < fewestBefore+brighterLights {
		return Hint{}, false
	}
	darkest := slices.Clone(alike)
	slices.SortFunc(darkest, func(a, b Point) int { return cmp.Compare(a.BackgroundADU, b.BackgroundADU) })
	darkest = darkest[:fewestBefore]
	base := darkest[fewestBefore/2]
	for _, p := range alike[len(alike)-brighterLights:] {
		if p.NoiseADU < brighterBy*base.NoiseADU || p.BackgroundADU <= base.BackgroundADU+base.NoiseADU {
			return Hint{}, false
		}
	}
	return Hint{Kind: SkyBrightens, At: last.Start, Brighter: square(last.NoiseADU / base.NoiseADU)}, true
}

func square(x float64) float64 { return x * x }
