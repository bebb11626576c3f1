package plan_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"

	"duskhand/plan"
	"duskhand/plan/kit"
)

var evening = time.Date(2026, 12, 5, 20, 0, 0, 0, time.UTC)

func after(minutes float64) time.Time {
	return evening.Add(time.Duration(minutes * float64(time.Minute)))
}

// worthOf returns what the subs of a sequence are worth in some stretches, less the price of each change.
func worthOf(s plan.Sequence, subs kit.Subs, worth *plan.Worth, spans []plan.Span) (total float64, taken []plan.Sub) {
	for _, span := range spans {
		var here []plan.Sub
		here, s = s.Run(span.From, span.To)
		taken = append(taken, here...)
	}
	number := map[string]int{}
	for f, filter := range subs.Filters {
		number[filter.Name] = f
	}
	for i, sub := range taken {
		total += worth.Of(number[sub.Filter.Name], sub.Exposure)
		if i > 0 && sub.Filter.Name != taken[i-1].Filter.Name {
			total -= subs.WorthAChange.Seconds()
		}
	}
	return total, taken
}

// someWorth is a night of a random sky: each filter has a level, a Moon that goes or comes and takes its own share,
// and a height that rises and falls.
func someWorth(random *rand.Rand, filters int) *plan.Worth {
	worth := &plan.Worth{From: evening, Step: 4 * time.Minute, ByFilter: make([][]float64, filters)}
	turn, sets, top := 600*random.Float64(), random.IntN(2) == 0, 600*random.Float64()
	for f := range worth.ByFilter {
		moonTakes, falls := random.Float64(), 0.5*random.Float64()
		for minute := 0.0; minute <= 600; minute += 4 {
			w := 1 - falls*math.Pow((minute-top)/600, 2)
			if (minute < turn) == sets {
				w *= 1 - moonTakes
			}
			worth.ByFilter[f] = append(worth.ByFilter[f], w)
		}
	}
	return worth
}

func someFilters(counts []int, exposure func(f int) time.Duration) (filters []kit.Filter) {
	for f, n := range counts {
		filters = append(filters, kit.Filter{Name: fmt.Sprint("F", f), Exposure: exposure(f), Count: n})
	}
	return filters
}

// Linear programming (gonum's simplex; the assignment has an integral solution among its best) over subs of one length
// and slots: Σ worth, each slot for one sub at most, each filter its count at most.
func assigned(t *testing.T, worth *plan.Worth, slots []plan.Span, counts []int) float64 {
	nf, ns := len(counts), len(slots)
	rows, columns := ns+nf, nf*ns+ns+nf
	a, b, c := mat.NewDense(rows, columns, nil), make([]float64, rows), make([]float64, columns)
	for i, slot := range slots {
		for f := range counts {
			x := i*nf + f
			a.Set(i, x, 1)
			a.Set(ns+f, x, 1)
			c[x] = -worth.Of(f, slot)
		}
		a.Set(i, nf*ns+i, 1)
		b[i] = 1
	}
	for f, n := range counts {
		a.Set(ns+f, nf*ns+ns+f, 1)
		b[ns+f] = float64(n)
	}
	best, _, err := lp.Simplex(c, a, b, 1e-9, nil)
	require.NoError(t, err)
	return -best
}

func TestTheOrderIsWithinHalfAPercentOfTheAssignment(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 1))
	for n := range 40 {
		counts := make([]int, 2+random.IntN(3))
		for f := range counts {
			counts[f] = 1 + random.IntN(18)
		}
		const minutes = 10
		subs := kit.Subs{InARow: 1, Filters: someFilters(counts, func(int) time.Duration { return minutes * time.Minute })}
		worth := someWorth(random, len(counts))
		first := 10 + random.IntN(10)
		spans := []plan.Span{{From: evening, To: after(float64(first * minutes))}, {From: after(float64(first*minutes + 17)), To: after(590)}}
		var slots []plan.Span
		for _, span := range spans {
			for at := span.From; !at.Add(minutes * time.Minute).After(span.To); at = at.Add(minutes * time.Minute) {
				slots = append(slots, plan.Span{From: at, To: at.Add(minutes * time.Minute)})
			}
		}
		// Subs follow one another: of more slots than subs the first are used.
		wanted := 0
		for _, c := range counts {
			wanted += c
		}
		slots = slots[:min(len(slots), wanted)]
		best := assigned(t, worth, slots, counts)
		got, taken := worthOf(plan.Laid(plan.NewSequence(subs).By(worth), spans), subs, worth, spans)
		assert.Len(t, taken, len(slots), "night %d", n)
		assert.LessOrEqual(t, got, best+1e-6, "night %d: the assignment is the bound", n)
		assert.Greater(t, got, 0.995*best, "night %d: %v", n, counts)
	}
}

// bestByForce tries every order of the subs.
func bestByForce(s plan.Sequence, subs kit.Subs, worth *plan.Worth, spans []plan.Span, left []int, order []plan.FilterCount) float64 {
	best, any := math.Inf(-1), false
	for f, n := range left {
		for count := min(n, subs.InARow); count <= n && n > 0; count++ {
			if k := len(order); k > 0 && order[k-1].Filter == subs.Filters[f].Name {
				continue
			}
			any = true
			left[f] -= count
			best = math.Max(best, bestByForce(s, subs, worth, spans, left, append(order[:len(order):len(order)], plan.FilterCount{Filter: subs.Filters[f].Name, Count: count})))
			left[f] += count
		}
	}
	if any {
		return best
	}
	total, _ := worthOf(s.InOrder(order), subs, worth, spans)
	return total
}

func TestTheOrderAgainstEveryOrder(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 2))
	for n := range 60 {
		counts := []int{1 + random.IntN(4), 1 + random.IntN(4), random.IntN(3)}
		subs := kit.Subs{InARow: 1 + random.IntN(2), Overhead: 5 * time.Second, DitherEvery: random.IntN(3), DitherSettle: 20 * time.Second,
			WorthAChange: time.Duration(random.IntN(300)) * time.Second, Filters: someFilters(counts, func(f int) time.Duration {
				return time.Duration(30+20*random.IntN(3)) * time.Minute
			})}
		worth := someWorth(random, 3)
		spans := []plan.Span{{From: evening, To: after(200 + 100*random.Float64())}, {From: after(310), To: after(480 + 100*random.Float64())}}
		got, _ := worthOf(plan.Laid(plan.NewSequence(subs).By(worth), spans), subs, worth, spans)
		best := bestByForce(plan.NewSequence(subs), subs, worth, spans, append([]int(nil), counts...), nil)
		assert.Greater(t, got, best-0.005*math.Abs(best), "night %d: %v, in a row %d", n, counts, subs.InARow)
	}
}

// A group is as long as the kit's in a row, but for a filter that has only one, and the last where the time ends.
func TestNoGroupIsShorterThanInARow(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 4))
	for n := range 60 {
		counts := []int{15 + random.IntN(30), 15 + random.IntN(20), 15 + random.IntN(20)}
		subs := kit.Subs{InARow: 5, WorthAChange: time.Second, Filters: someFilters(counts, func(f int) time.Duration {
			return time.Duration(1+4*random.IntN(2)) * time.Minute
		})}
		spans := []plan.Span{{From: evening, To: after(97)}, {From: after(103), To: after(171)}, {From: after(178), To: after(600)}}
		s := plan.Laid(plan.NewSequence(subs).By(someWorth(random, 3)), spans)
		order, groups, total := s.Order(), map[string]int{}, 0
		for _, p := range order {
			groups[p.Filter]++
			total += p.Count
		}
		for i, p := range order {
			cut := i == len(order)-1 && total < counts[0]+counts[1]+counts[2]
			assert.False(t, p.Count < 5 && groups[p.Filter] > 1 && !cut, "night %d: %v", n, order)
		}
	}
}
