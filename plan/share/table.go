package share

import (
	"math"
	"time"

	"duskhand/plan/scan"
	"duskhand/sky"
)

// grid is the distance of the hand-over times that are tried.
const grid = 5 * time.Minute

// item is one stretch to be placed: a wish, or half of one that has two.
type item struct {
	wish         int
	weight       float64     // of all items together 1
	first, later [][]float64 // weight · worth by begin and end, as the table has them
}

// table is what each target gives between any two instants of the grid.
type table struct {
	times []time.Time
	first [][][]given // by wish, begin and end, of the night's first stretch
	later [][][]given // of any other
}

// given is what a stretch comes to.
type given struct {
	subs    time.Duration
	rewinds int
	height  float64 // mean of scan.Height over it
}

// heightCounts is the weight of height against time: small, so that shares come first and height decides
// between orders that are nearly alike. A choice of ours; at 1 shares were seen to be off by a third.
const heightCounts = 0.2

// worth is the logarithm that is added up, of minutes. A stretch that gives nothing has the worth of a second,
// so that an order that leaves somebody out can still be compared.
func (g given) worth(care time.Duration) float64 {
	minutes := max(time.Second, g.subs-time.Duration(g.rewinds)*care).Minutes()
	return math.Log(minutes) + heightCounts*math.Log(g.height)
}

// tableOf fills the table for paths through a night, each with the time of subs that it needs at most.
func tableOf(s *scan.Sky, paths []*scan.Path, need []time.Duration, rules Rules) table {
	var t table
	for _, dark := range s.Dark {
		for at := dark.From; at.Before(dark.To); at = at.Add(grid) {
			if at.After(rules.From) {
				if len(t.times) == 0 && rules.From.After(dark.From) {
					t.times = append(t.times, rules.From)
				}
				t.times = append(t.times, at)
			}
		}
		if dark.To.After(rules.From) {
			t.times = append(t.times, dark.To)
		}
	}
	settle := s.Kit.Subs.Settle
	for i, path := range paths {
		name := path.Target.Name
		t.first = append(t.first, t.rows(path, need[i], rules.pauseBefore(name, true), settle))
		t.later = append(t.later, t.rows(path, need[i], rules.pauseBefore(name, false), settle))
	}
	return t
}

// rows gives for each begin what the path gives up to each end.
func (t table) rows(path *scan.Path, need, pause, settle time.Duration) [][]given {
	rows := make([][]given, len(t.times))
	sums := heights(path, t.times)
	tail := scan.PaceOf(path.Kit().Subs).Cadence / 2
	for a, begin := range t.times {
		runs := path.From(begin.Add(pause)).Runs(begin.Add(pause))
		rows[a] = make([]given, len(t.times))
		for b := a + 1; b < len(t.times); b++ {
			rows[a][b] = upTo(runs, t.times[b], need, settle, tail)
			rows[a][b].height = sums[b].since(sums[a])
		}
	}
	return rows
}

// heightSum is scan.Height over the samples in windows up to an instant.
type heightSum struct {
	samples int
	height  float64
}

// since returns the mean since an earlier sum, that of 5° where there is no sample.
func (h heightSum) since(earlier heightSum) float64 {
	if h.samples == earlier.samples {
		return scan.Height(5 * sky.Degree)
	}
	return (h.height - earlier.height) / float64(h.samples-earlier.samples)
}

// heights returns the sums up to each of the times.
func heights(path *scan.Path, times []time.Time) []heightSum {
	sums := make([]heightSum, len(times))
	var sum heightSum
	next, sampled := 0, path.Times()
	for i, d := range path.Inside() {
		for next < len(times) && !sampled[i].Before(times[next]) {
			sums[next] = sum
			next++
		}
		sum.samples++
		sum.height += scan.Height(d.Horizontal().Altitude)
	}
	for ; next < len(times); next++ {
		sums[next] = sum
	}
	return sums
}

// upTo sums the runs up to an end, which cuts the last by half a cadence more on the average.
func upTo(runs []scan.Run, end time.Time, need, settle, tail time.Duration) (g given) {
	for i, run := range runs {
		to := run.To
		if cut := end.Add(-tail); cut.Before(to) {
			to = cut
		}
		subs := to.Sub(run.From) - settle
		if subs <= 0 || g.subs >= need {
			break
		}
		g.subs += subs
		if i > 0 && run.Rewind > 0 {
			g.rewinds++
		}
	}
	g.subs = min(g.subs, need)
	return g
}

// itemsOf returns one item for each wish; the wish split, if any (−1: none), has two of half its weight.
func (t table) itemsOf(wishes []Wish, split int, care time.Duration) []item {
	total := 0.0
	for _, w := range wishes {
		total += w.Weight
	}
	var items []item
	for i, w := range wishes {
		it := item{wish: i, weight: w.Weight / total}
		if i == split {
			it.weight /= 2
		}
		it.first, it.later = worths(t.first[i], it.weight, care), worths(t.later[i], it.weight, care)
		items = append(items, it)
		if i == split {
			items = append(items, it)
		}
	}
	return items
}

func worths(rows [][]given, weight float64, care time.Duration) [][]float64 {
	all := make([][]float64, len(rows))
	for a, row := range rows {
		all[a] = make([]float64, len(row))
		for b := range row {
			all[a][b] = math.Inf(-1)
			if b > a {
				all[a][b] = weight * row[b].worth(care)
			}
		}
	}
	return all
}

// needOf returns how long the subs that a wish still wants take.
func needOf(pace scan.Pace, left time.Duration) time.Duration {
	if pace.Exposure == 0 {
		return 0
	}
	return time.Duration(float64(left) / float64(pace.Exposure) * float64(pace.Cadence))
}
