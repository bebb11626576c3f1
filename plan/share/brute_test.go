package share_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/plan/scan"
	"duskhand/plan/share"
)

// exactWorth is what a stretch is worth by the exact plan: weight · (log of minutes of subs, less the care for
// rewinds, + 0.2 · log of the mean height), as the package says it counts.
func exactWorth(n *plan.Night, c *plan.Course, weight float64, begin, end time.Time, pause time.Duration) float64 {
	k, rewinds, subs := n.Kit, 0, time.Duration(0)
	sequence, ready := plan.NewSequence(k.Subs), begin.Add(pause)
	var height float64
	samples := 0
	for _, w := range c.Windows() {
		for t := later(begin, w.From); t.Before(end) && t.Before(w.To); t = t.Add(time.Minute) {
			height += scan.Height(c.Place(t).Altitude)
			samples++
		}
		from, to := later(ready, w.From), w.To
		if end.Before(to) {
			to = end
		}
		for {
			next, ok := c.NextRun(nil, from, plan.Span{From: from, To: to}, sequence)
			if !ok {
				break
			}
			if subs > 0 {
				rewinds++
				angle := next.Run.StartAngle + c.Kit.Derotator.Travel() // nearly all of the travel, as after a spent run
				from = from.Add(c.RewindTime(next.Run.StartAngle, angle))
				if next, ok = c.NextRun(nil, from, plan.Span{From: from, To: to}, sequence); !ok {
					break
				}
			}
			subs += next.Run.Length() - k.Subs.Settle
			sequence, from = next.After, next.Run.To
		}
	}
	worth := math.Log(max(time.Second, subs-time.Duration(rewinds)*5*time.Minute).Minutes())
	if samples == 0 {
		return math.Inf(-1)
	}
	return weight * (worth + 0.2*math.Log(height/float64(samples)))
}

func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

func orders(n int) (all [][]int) {
	var extend func([]int)
	extend = func(order []int) {
		if len(order) == n {
			all = append(all, append([]int(nil), order...))
			return
		}
	next:
		for i := range n {
			for _, used := range order {
				if used == i {
					continue next
				}
			}
			extend(append(order, i))
		}
	}
	extend(nil)
	return all
}

// Every order and every pair of hand-over times on a grid of forty minutes, each worth by the exact plan: the
// division is worth as much or more, for its grid is finer. It may lose what a scan can be wrong by, half a
// cadence in a run of half an hour.
func TestNoDivisionOnACoarseGridIsBetter(t *testing.T) {
	const coarse, scanned = 40 * time.Minute, 0.02
	for _, c := range []struct {
		name    string
		of      []string
		weights []float64
	}{
		{"three alike, one through the keyhole", []string{"NGC 1365", "NGC 2070", "M 42"}, []float64{1. / 3, 1. / 3, 1. / 3}},
		{"half, a third and the rest, one setting early", []string{"M 41", "NGC 2070", "M 74"}, []float64{3. / 6, 2. / 6, 1. / 6}},
	} {
		t.Run(c.name, func(t *testing.T) {
			k := endless()
			n := plan.NewNight(k, exampleDate)
			wishes := share.Equally(k, targets(t, k, c.of...))
			var courses []*plan.Course
			for i := range wishes {
				wishes[i].Weight = c.weights[i]
				courses = append(courses, n.Course(wishes[i].Target, k.Axis))
			}
			s := divide(t, k, exampleDate, wishes, share.UsualRules())
			require.Len(t, s.Stretches, 3)
			best := coarsest(n, courses, c.weights, coarse)
			assert.GreaterOrEqual(t, s.Orders[0].Worth, best-scanned)
			planned := 0.0
			for i, st := range s.Stretches {
				which := indexOf(wishes, st.Target)
				planned += exactWorth(n, courses[which], c.weights[which], st.From, later(st.To, endOf(s, i)), st.Ready.Sub(st.From))
			}
			assert.GreaterOrEqual(t, planned, best-scanned)
			assert.InDelta(t, planned, s.Orders[0].Worth, 2*scanned, "the worth shown is that of the exact plan")
		})
	}
}

func endOf(s share.Share, i int) time.Time {
	if i+1 < len(s.Stretches) {
		return s.Stretches[i+1].From
	}
	return s.Stretches[i].To
}

func indexOf(wishes []share.Wish, target kit.Target) int {
	for i, w := range wishes {
		if w.Target.Name == target.Name {
			return i
		}
	}
	return -1
}

// coarsest returns the best worth of three targets on a grid.
func coarsest(n *plan.Night, courses []*plan.Course, weights []float64, step time.Duration) float64 {
	var times []time.Time
	for t := n.Dark[0].From; t.Before(n.Dark[0].To); t = t.Add(step) {
		times = append(times, t)
	}
	times = append(times, n.Dark[0].To)
	last := len(times) - 1
	worth := map[[4]int]float64{}
	of := func(i, a, b, pause int) float64 {
		key := [4]int{i, a, b, pause}
		if w, known := worth[key]; known {
			return w
		}
		worth[key] = exactWorth(n, courses[i], weights[i], times[a], times[b], time.Duration(pause)*time.Minute)
		return worth[key]
	}
	best := math.Inf(-1)
	for _, order := range orders(3) {
		for a := 1; a < last; a++ {
			for b := a + 1; b < last; b++ {
				best = max(best, of(order[0], 0, a, 0)+of(order[1], a, b, 12)+of(order[2], b, last, 12))
			}
		}
	}
	return best
}
