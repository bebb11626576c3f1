package measure

import (
	"math"
	"slices"

	"duskhand/checklist/subs"
)

const (
	enough     = 5    // stars from which they say what a star of the frame looks like
	sure       = 20   // times its noise at which a star's size and shape are trusted
	largest    = 2.8  // times the frame's half-flux diameter: lumps of nebula and galaxies are larger
	large      = 1.4  // times it: what is, might be a star on a lump of nebula
	least      = 0.55 // times it: what is smaller did not come through the optics
	longest    = 1.6  // times the frame's elongation, by more than the noise: pieces of trails are longer
	fromRadius = 1.0  // pixel, of half-flux diameter: no optics give less
)

// sift returns the candidates that are shaped like the others of the frame.
func sift(all []candidate) []candidate {
	all = slices.DeleteFunc(all, func(c candidate) bool { return c.HFD < fromRadius })
	if hfd, long := middleOf(all); hfd > 0 {
		for i, c := range all {
			if c.small != nil && !c.Saturated && c.HFD > large*hfd {
				all[i] = *c.small
			}
		}
		all = slices.DeleteFunc(all, func(c candidate) bool { return c.unlike(hfd, long) })
	}
	return withoutTwins(all)
}

// unlike tells whether a star cannot be one of a frame with these medians of diameter and elongation.
func (c candidate) unlike(hfd, long float64) bool {
	if c.HFD < least*hfd {
		return true
	}
	if c.Saturated {
		return false
	}
	limit := longest * max(long, 1.25)
	return c.HFD > largest*hfd || elongation(c.shape.size(0)-c.spread) > limit
}

// middleOf returns the medians of the half-flux diameter and the elongation among the frame's stars: the crowd of
// those that are sure. 0 when there are too few stars altogether.
func middleOf(all []candidate) (hfd, elongation float64) {
	good := crowdOf(trusted(all))
	if full := saturated(all); rays(good, full) {
		good = full
	}
	if len(good) < enough {
		return 0, 0
	}
	return medianOf(good, func(c candidate) float64 { return c.HFD }),
		medianOf(good, func(c candidate) float64 { return c.Elongation })
}

// trusted returns the stars that are sure, neither saturated nor cut; all of those where few are sure.
func trusted(all []candidate) []candidate {
	good, bright := 0, 0
	for _, c := range all {
		if c.whole() {
			good++
			if c.sure() {
				bright++
			}
		}
	}
	few := bright < enough
	if !few {
		good = bright
	}
	chosen := make([]candidate, 0, good)
	for _, c := range all {
		if c.whole() && (few || c.sure()) {
			chosen = append(chosen, c)
		}
	}
	return chosen
}

func (c *candidate) whole() bool { return !c.Saturated && !c.edge }

func (c *candidate) sure() bool { return c.Flux > sure*c.Noise }

// saturated returns the overexposed stars that are whole.
func saturated(all []candidate) (full []candidate) {
	for _, c := range all {
		if c.Saturated && !c.edge {
			full = append(full, c)
		}
	}
	return full
}

func medianOf(stars []candidate, of func(candidate) float64) float64 {
	values := make([]float64, len(stars))
	for i, c := range stars {
		values[i] = of(c)
	}
	slices.Sort(values)
	n := len(values)
	if n == 0 {
		return 0
	}
	return (values[(n-1)/2] + values[n/2]) / 2
}

// withoutTwins drops what two tiles found of one star that is too large for their margins: a saturated
// one within the disc of a brighter.
func withoutTwins(all []candidate) []candidate {
	slices.SortFunc(all, brighter)
	var full []candidate
	return slices.DeleteFunc(all, func(c candidate) bool {
		if !c.Saturated {
			return false
		}
		twin := slices.ContainsFunc(full, func(f candidate) bool {
			return math.Hypot(f.X-c.X, f.Y-c.Y) < f.HFD/2
		})
		full = append(full, c)
		return twin
	})
}

// summary returns the frame's figures from its stars, brightest first.
func (s *mesh) summary(stars []candidate, keep int) subs.Measured {
	var out subs.Measured
	out.Background, out.Noise = s.typical()
	out.Count = len(stars)
	for _, c := range stars {
		if c.Saturated {
			out.Full++
		}
	}
	for _, c := range stars[:min(len(stars), keep)] {
		out.Stars = append(out.Stars, c.Star)
	}
	good := trusted(stars)
	if full := saturated(stars); len(good) < enough && len(full) > len(good) {
		good = full // a size that is too large rather than that of what stands among them
	}
	if len(good) == 0 {
		return out
	}
	out.HFD = medianOf(good, func(c candidate) float64 { return c.HFD })
	out.Elongation = medianOf(good, func(c candidate) float64 { return c.Elongation })
	mean := ellipticity{
		medianOf(good, func(c candidate) float64 { return c.shape.along }),
		medianOf(good, func(c candidate) float64 { return c.shape.diagonal }),
	}
	out.Direction = mean.direction()
	return out
}
