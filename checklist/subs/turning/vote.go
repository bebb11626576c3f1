package turning

import (
	"cmp"
	"math"
	"slices"

	"duskhand/sky"
)

// The voting's grain; choices of ours.
const (
	rotationBins  = 1440 // of ¼°
	rotationPeaks = 6    // that are looked into
	shiftBin      = 10.0 // pixels
	shortestPair  = 0.08 // of the stars' extent: shorter ones say little about the rotation
)

// guess returns the best of the transforms that the voting brings up, and how many voters agree with it.
func (l lists) guess() (best Transform, agree int) {
	if len(l.a) < fewestMatched || len(l.b) < fewestMatched {
		return Transform{}, 0
	}
	for _, rotation := range l.rotations() {
		start, ok := l.shiftFor(rotation)
		if !ok {
			continue
		}
		fitted := start
		for _, within := range []float64{coarsely, coarsely / 2, coarsely / 4, finely} {
			pairs := nearest(l.a, l.b, fitted, within)
			if len(pairs) < 3 {
				break
			}
			fitted = fit(l.a, l.b, pairs)
		}
		if n := len(nearest(l.a, l.b, fitted, finely)); n > agree {
			best, agree = fitted, n
		}
		if 2*agree > min(len(l.a), len(l.b)) && agree > 2*fewestMatched {
			break // no other can have as many
		}
	}
	return best, agree
}

// pair is two stars of a light.
type pair struct{ length, direction float64 }

func (l lists) pairsOf(x func(i int) (float64, float64), n int) []pair {
	var pairs []pair
	for i := range n {
		for j := range i {
			xi, yi := x(i)
			xj, yj := x(j)
			p := pair{math.Hypot(xj-xi, yj-yi), math.Atan2(yj-yi, xj-xi)}
			if p.length >= shortestPair*l.extent {
				pairs = append(pairs, p)
			}
		}
	}
	slices.SortFunc(pairs, func(p, q pair) int { return cmp.Compare(p.length, q.length) })
	return pairs
}

// rotations returns the rotations that most pairs of equal length vote for, most first.
func (l lists) rotations() []sky.Angle {
	inA := l.pairsOf(func(i int) (float64, float64) { return l.a[i].X, l.a[i].Y }, len(l.a))
	inB := l.pairsOf(func(i int) (float64, float64) { return l.b[i].X, l.b[i].Y }, len(l.b))
	var votes []float64 // turns, [0, 1)
	from := 0
	for _, p := range inA {
		tolerance := 1.5 + 0.0015*p.length // centroids; a refocused scale
		for from < len(inB) && inB[from].length < p.length-tolerance {
			from++
		}
		for i := from; i < len(inB) && inB[i].length <= p.length+tolerance; i++ {
			turn := (inB[i].direction - p.direction) / (2 * math.Pi)
			votes = append(votes, fraction(turn), fraction(turn+0.5)) // nobody knows which end is which
		}
	}
	return peaks(votes)
}

func fraction(x float64) float64 {
	if x -= math.Floor(x); x < 1 {
		return x
	}
	return 0
}

// peaks returns the middles of the fullest stretches of the circle.
func peaks(votes []float64) []sky.Angle {
	var counts [rotationBins]int
	for _, v := range votes {
		counts[int(v*rotationBins)]++
	}
	smooth := func(i int) int {
		return counts[(i+rotationBins-1)%rotationBins] + counts[i] + counts[(i+1)%rotationBins]
	}
	order := make([]int, rotationBins)
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(smooth(j), smooth(i)) })
	var found []sky.Angle
	var taken []int
	for _, bin := range order {
		if len(found) == rotationPeaks || smooth(bin) == 0 {
			break
		}
		if slices.ContainsFunc(taken, func(other int) bool { return apart(bin, other) <= 3 }) {
			continue
		}
		taken = append(taken, bin)
		found = append(found, middleOf(votes, (float64(bin)+0.5)/rotationBins))
	}
	return found
}

// apart returns how many bins lie between two, round the circle.
func apart(i, j int) int {
	d := (i - j + rotationBins) % rotationBins
	return min(d, rotationBins-d)
}

// middleOf returns the mean of the votes within half a degree of a place on the circle.
func middleOf(votes []float64, around float64) sky.Angle {
	const within = 2.0 / rotationBins
	sum, n := 0.0, 0
	for _, v := range votes {
		if off := fraction(v-around+0.5) - 0.5; math.Abs(off) <= within {
			sum += off
			n++
		}
	}
	return (sky.Angle(around+sum/float64(max(1, n))) * sky.Turn).Signed()
}

// shiftFor returns the transform with that rotation and the shift that most stars vote for.
func (l lists) shiftFor(rotation sky.Angle) (Transform, bool) {
	type cell struct{ x, y int }
	turned := Transform{Rotation: rotation, Scale: 1, MiddleX: l.a[0].X, MiddleY: l.a[0].Y}
	votes := map[cell]int{}
	for _, s := range l.a {
		x, y := turned.Apply(s.X, s.Y)
		for _, other := range l.b {
			votes[cell{int(math.Floor((other.X - x) / shiftBin)), int(math.Floor((other.Y - y) / shiftBin))}]++
		}
	}
	var best cell
	most := 0
	for c := range votes { // by count, then by place: the order of a map must not matter
		n := votes[c] + votes[cell{c.x + 1, c.y}] + votes[cell{c.x, c.y + 1}] + votes[cell{c.x + 1, c.y + 1}]
		if n > most || n == most && (c.x < best.x || c.x == best.x && c.y < best.y) {
			best, most = c, n
		}
	}
	turned.ShiftX, turned.ShiftY = shiftBin*float64(best.x+1), shiftBin*float64(best.y+1)
	return turned, most >= 3
}
