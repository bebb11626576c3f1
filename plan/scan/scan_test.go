package scan_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/plan/scan"
	"duskhand/sky"
	"duskhand/sky/catalog"
)

var exampleDate = plan.Date{Year: 2026, Month: time.December, Day: 5}

// edgeWithin is what straight lines between samples two minutes apart leave: an altitude bends by at most
// ω² = 0.0019°/min², so that its chord is 0.001° off, 0.06 s at the usual 15°/h, and 10 s for a target that
// crosses the floor at a sixtieth of that.
const edgeWithin = 10 * time.Second

// asPlanned compares a scan with plan.Course and plan.Schedule, which follow the same night exactly, with the
// full bounds of sixteen axes.
func asPlanned(n *plan.Night, target kit.Target, axis kit.Axis) (scanned []scan.Run, planned plan.Schedule, path *scan.Path) {
	path = scan.NewSky(n, axis, nil).Follow(target)
	course := n.Course(target, axis)
	planned = course.Schedule(plan.Start{At: n.Span.From}, plan.NewSequence(n.Kit.Subs))
	return path.Runs(n.Span.From), planned, path
}

func worked(runs []scan.Run, k kit.Kit) (total time.Duration) {
	for _, r := range runs {
		total += r.Length() - k.Subs.Settle
	}
	return total
}

func workedExactly(runs plan.Schedule, k kit.Kit) (total time.Duration) {
	for _, r := range runs.Runs {
		total += r.Length() - k.Subs.Settle
	}
	return total
}

// endless is the example's kit with a sequence that does not end.
func endless() kit.Kit {
	k := kit.Example()
	k.Subs.Loop, k.Subs.WorthARewind = 0, 0 // the scan weighs no rewind
	for i := range k.Subs.Filters {
		k.Subs.Filters[i].Count *= 100
	}
	return k
}

func made(name string, ra, dec float64) kit.Target {
	return kit.Target{Name: name, Star: sky.Star{Place: sky.J2000{RA: sky.Angle(ra) * sky.Degree, Dec: sky.Angle(dec) * sky.Degree}}}
}

func TestScanAgreesWithTheExactPlan(t *testing.T) {
	north := endless()
	north.Site.Place = sky.Site{Latitude: 51.5 * sky.Degree, Longitude: -3 * sky.Degree}
	polar := endless()
	polar.Site.Place = sky.Site{Latitude: 88 * sky.Degree}
	ends := endless()
	ends.Derotator.StopsAnywhere = false
	backward := endless()
	backward.Derotator.Sense = -1
	summer, winter := plan.Date{Year: 2026, Month: time.June, Day: 21}, plan.Date{Year: 2026, Month: time.December, Day: 21}
	for _, c := range []struct {
		name    string
		kit     kit.Kit
		date    plan.Date
		target  kit.Target
		windows int
	}{
		{"a southern target through its upper culmination", endless(), exampleDate, made("near NGC 2070", 84.7, -69.1), 1},
		{"one through the keyhole", endless(), exampleDate, made("near NGC 1365", 53.4, -36.1), 2},
		{"one that stays low in the north, with a reversal", endless(), exampleDate, made("near M 42", 83.8, -5.4), 1},
		{"one that never rises", endless(), exampleDate, made("near M 81", 148.9, 69.1), 0},
		{"a circumpolar one in the north", north, winter, made("near M 81", 148.9, 69.1), 1},
		{"one past the zenith in the north", north, winter, made("near M 51", 202.5, 47.2), 1},
		{"a night without darkness", north, summer, made("near M 51", 202.5, 47.2), 0},
		{"a polar night", polar, winter, made("near M 51", 202.5, 47.2), 1},
		{"a stage that stops at its ends only", ends, exampleDate, made("near NGC 2070", 84.7, -69.1), 1},
		{"a stage of the other sense", backward, exampleDate, made("near NGC 2070", 84.7, -69.1), 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			n := plan.NewNight(c.kit, c.date)
			runs, planned, path := asPlanned(n, c.target, c.kit.Axis)
			require.Len(t, path.Windows, c.windows)
			require.Len(t, planned.Windows, c.windows)
			for i, w := range path.Windows {
				exact := planned.Windows[i]
				assert.InDelta(t, 0, w.From.Sub(exact.From).Seconds(), edgeWithin.Seconds())
				assert.InDelta(t, 0, w.To.Sub(exact.To).Seconds(), edgeWithin.Seconds())
				assert.Equal(t, exact.OpensAfter, w.OpensAfter)
				assert.Equal(t, exact.ClosesBefore, w.ClosesBefore)
				assert.Equal(t, exact.Obstruction, w.Obstruction)
			}
			assert.Len(t, runs, len(planned.Runs))
			// Half a cadence of each run is what no average knows.
			pace := scan.PaceOf(c.kit.Subs)
			assert.InDelta(t, workedExactly(planned, c.kit).Minutes(), worked(runs, c.kit).Minutes(), float64(len(runs))*pace.Cadence.Minutes())
		})
	}
}

// Every tenth object of the catalogue, at sites north and south, with an axis that is hardly known: 3° is the
// kit's own default.
func TestScanAgreesForTheCatalogue(t *testing.T) {
	k := endless()
	k.Axis.Uncertainty = 3 * sky.Degree
	var exact, scanned time.Duration
	for _, latitude := range []float64{-31.95, 3, 52} {
		k.Site.Place.Latitude = sky.Angle(latitude) * sky.Degree
		n := plan.NewNight(k, exampleDate)
		for i, o := range catalog.DeepSky() {
			if i%10 != 0 {
				continue
			}
			runs, planned, path := asPlanned(n, kit.Target{Name: o.ID, Star: o.Star, Object: o}, k.Axis)
			assert.InDelta(t, planned.Usable().Seconds(), path.Usable().Seconds(), 60, "windows of %s at %v", o.ID, latitude)
			assert.InDelta(t, len(planned.Runs), len(runs), 1, "runs of %s at %v", o.ID, latitude)
			a, b := workedExactly(planned, k), worked(runs, k)
			exact, scanned = exact+a, scanned+b
			assert.InDelta(t, a.Minutes(), b.Minutes(), 6, "%s at %v in %d runs", o.ID, latitude, len(planned.Runs))
		}
	}
	assert.InDelta(t, 1, scanned.Hours()/exact.Hours(), 0.005, "all together") // the halves of cadences even out
}

// Runs never overlap, none is longer than the travel allows for the axis as known, and none begins at a start
// outside the travel: for any site, target, axis and stage. What the axis's uncertainty takes of runs is held
// against the exact plan above.
func TestScannedRunsAreRuns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		angle := func(name string, low, high float64) sky.Angle {
			return sky.Angle(rapid.Float64Range(low, high).Draw(t, name)) * sky.Degree
		}
		k := endless()
		k.Site.Place = sky.Site{Latitude: angle("latitude", -65, 65), Longitude: angle("longitude", -180, 180)}
		k.Derotator.Min = angle("min", -170, 100)
		k.Derotator.Max = k.Derotator.Min + angle("travel", 5, 180)
		k.Derotator.StopsAnywhere = rapid.Bool().Draw(t, "anywhere")
		k.Derotator.Sense = rapid.SampledFrom([]int{-1, 1}).Draw(t, "sense")
		k.Axis = kit.Axis{Tilt: angle("tilt", 0, 5), Toward: angle("toward", 0, 360), Uncertainty: angle("uncertainty", 0, 2)}
		target := kit.Target{Star: sky.Star{Place: sky.J2000{RA: angle("ra", 0, 360), Dec: angle("dec", -85, 85)}}}
		n := plan.NewNight(k, exampleDate)
		runs := scan.NewSky(n, k.Axis, nil).Follow(target).Runs(n.Span.From)
		course := n.Course(target, k.Axis)
		var before time.Time
		for _, r := range runs {
			require.False(t, r.From.Before(before.Add(r.Rewind)), "a run begins when the stage has turned")
			require.True(t, r.Start >= k.Derotator.Min && r.Start <= k.Derotator.Max)
			require.True(t, r.To.After(r.From.Add(k.Subs.Settle)))
			limit := course.Limit(plan.Anchor{At: r.From, Angle: r.Start}, r.By)
			if limit.At.OK { // for the axis as known: straight lines in the field angle leave 0.1° at 90° an hour
				past := (course.FieldAngle(r.By) - course.FieldAngle(limit.At.At)).Abs()
				require.Less(t, past.Degrees(), 0.1, "the run from %v goes on past its limit", r.From)
			}
			before = r.To
		}
	})
}

func TestKeyholeIsWhatTheTargetLoses(t *testing.T) {
	k := endless()
	n := plan.NewNight(k, exampleDate)
	target := made("near NGC 1365", 53.4, -36.1)
	path := scan.NewSky(n, k.Axis, nil).Follow(target)
	windows := n.Course(target, k.Axis).Windows()
	require.Len(t, windows, 2)
	assert.InDelta(t, windows[1].From.Sub(windows[0].To).Seconds(), path.Keyhole().Seconds(), 2*edgeWithin.Seconds())
	assert.Zero(t, scan.NewSky(n, k.Axis, nil).Follow(made("near NGC 2070", 84.7, -69.1)).Keyhole())
}

func TestPace(t *testing.T) {
	// 120 of 60 s and 120 of 120 s: 90 s on the average; 4 s after each, 12 s after every fifth.
	p := scan.PaceOf(kit.Example().Subs)
	assert.Equal(t, 90*time.Second, p.Exposure)
	assert.Equal(t, 90*time.Second+4*time.Second+12*time.Second/5, p.Cadence)
	assert.Equal(t, 64*time.Second, p.Least)
	assert.Equal(t, 90*time.Minute, p.Open(60*p.Cadence))
	assert.Zero(t, scan.Pace{}.Open(time.Hour), "no filters, no exposure")
}

// All of the catalogue in one night, the bulk of a ranking that may take half a second.
func BenchmarkScanOfTheWholeCatalogue(b *testing.B) {
	k := kit.Example()
	n := plan.NewNight(k, exampleDate)
	for b.Loop() {
		s := scan.NewSky(n, k.Axis, nil)
		for _, o := range catalog.DeepSky() {
			s.Follow(kit.Target{Star: o.Star}).Runs(time.Time{})
		}
	}
}
