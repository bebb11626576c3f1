package plan

import (
	"math"
	"slices"
)

// rimAxes is how many axes around the rim are looked at before the best place is searched for between them.
const rimAxes = 24

// golden is the golden section's share.
const golden = 0.6180339887498949

// greatest returns the largest value of a smooth function around the rim, and where it is. It looks at equal
// steps, and closer where the function may be sharp; then it narrows down the two highest places.
//
// Error: of the place, a thousandth of a step; of the value, which is flat there, a millionth of its span.
func greatest(f func(around float64) float64, sharps ...sharp) (best, at float64) {
	places := make([]float64, 0, 3*rimAxes)
	for i := range rimAxes {
		places = append(places, 2*math.Pi*float64(i)/rimAxes)
	}
	for _, s := range sharps {
		places = s.about(places)
	}
	slices.Sort(places)
	values := make([]float64, len(places))
	for i, place := range places {
		values[i] = f(place)
	}
	best = math.Inf(-1)
	for _, i := range twoHighest(values) {
		n := len(places)
		from, to := places[(i+n-1)%n], places[(i+1)%n]
		if i == 0 {
			from -= 2 * math.Pi
		}
		if i == n-1 {
			to += 2 * math.Pi
		}
		if value, place := narrowed(f, from, to); value > best {
			best, at = value, place
		}
		if values[i] > best {
			best, at = values[i], places[i]
		}
	}
	return best, at
}

// about adds places about a sharp one, each twice as far from it as the one before.
func (s sharp) about(places []float64) []float64 {
	if s.width == 0 {
		return places
	}
	wrapped := func(x float64) float64 { return math.Mod(math.Mod(x, 2*math.Pi)+2*math.Pi, 2*math.Pi) }
	places = append(places, wrapped(s.around))
	for off := s.width / 2; off < math.Pi/rimAxes; off *= 2 {
		places = append(places, wrapped(s.around-off), wrapped(s.around+off))
	}
	return places
}

// twoHighest returns the places of the two highest local maxima of values around a circle.
func twoHighest(values []float64) []int {
	first, second := -1, -1
	for i, v := range values {
		n := len(values)
		if v < values[(i+n-1)%n] || v < values[(i+1)%n] {
			continue
		}
		switch {
		case first < 0 || v > values[first]:
			first, second = i, first
		case second < 0 || v > values[second]:
			second = i
		}
	}
	if second < 0 {
		return []int{first}
	}
	return []int{first, second}
}

// narrowed returns the largest value of f between two places, with one maximum there, by golden section.
func narrowed(f func(float64) float64, from, to float64) (value, at float64) {
	const within = 0.003 // of the bracket
	least := within * (to - from)
	left, right := to-golden*(to-from), from+golden*(to-from)
	a, b := f(left), f(right)
	for to-from > least {
		if a > b {
			to, right, b = right, left, a
			left = to - golden*(to-from)
			a = f(left)
		} else {
			from, left, a = left, right, b
			right = from + golden*(to-from)
			b = f(right)
		}
	}
	if a > b {
		return a, left
	}
	return b, right
}
