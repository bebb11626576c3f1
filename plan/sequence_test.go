package plan_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// anySubs draws some filters and a way of taking their subs.
func anySubs(t *rapid.T) kit.Subs {
	subs := kit.Subs{
		InARow:       rapid.IntRange(1, 5).Draw(t, "in a row"),
		Overhead:     time.Duration(rapid.IntRange(0, 20).Draw(t, "overhead, s")) * time.Second,
		DitherEvery:  rapid.IntRange(0, 4).Draw(t, "dither every"),
		DitherSettle: time.Duration(rapid.IntRange(0, 30).Draw(t, "dither, s")) * time.Second,
		FilterChange: time.Duration(rapid.IntRange(0, 15).Draw(t, "change, s")) * time.Second,
	}
	for i := range rapid.IntRange(1, 4).Draw(t, "filters") {
		subs.Filters = append(subs.Filters, kit.Filter{
			Name:     []string{"L", "R", "G", "B"}[i],
			Exposure: time.Duration(rapid.IntRange(10, 300).Draw(t, "exposure, s")) * time.Second,
			Count:    rapid.IntRange(0, 12).Draw(t, "count"),
		})
	}
	return subs
}

func wanted(subs kit.Subs) (n int, open time.Duration) {
	for _, f := range subs.Filters {
		n += f.Count
		open += time.Duration(f.Count) * f.Exposure
	}
	return n, open
}

// A whole sequence, sub by sub: each filter gets what it wants, none more, never more in a row than the kit says while
// others lack some, and what lies between two subs is what the kit says of it.
func TestASequenceFromItsFirstSubToItsLast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		subs := anySubs(t)
		n, open := wanted(subs)
		all, after := plan.NewSequence(subs).Run(noonOfSpans, noonOfSpans.Add(1000*time.Hour))
		require.Len(t, all, n)
		require.True(t, after.Done())
		require.Equal(t, open, after.Exposed())
		left := map[string]int{}
		for _, f := range subs.Filters {
			left[f.Name] = f.Count
		}
		at, inARow := noonOfSpans, 0
		for i, sub := range all {
			require.Equal(t, at, sub.Exposure.From, "each begins when the one before is over")
			require.Equal(t, sub.Filter.Exposure, sub.Exposure.Length())
			left[sub.Filter.Name]--
			require.GreaterOrEqual(t, left[sub.Filter.Name], 0)
			if inARow++; i > 0 && all[i-1].Filter.Name != sub.Filter.Name {
				inARow = 1
			}
			others := 0
			for name, some := range left {
				if name != sub.Filter.Name {
					others += some
				}
			}
			require.True(t, inARow <= subs.InARow || others == 0, "sub %d: %d in a row while others lack %d", i, inARow, others)
			between := subs.Overhead
			if subs.DitherEvery > 0 && (i+1)%subs.DitherEvery == 0 {
				between += subs.DitherSettle
			}
			if i+1 < len(all) && all[i+1].Filter.Name != sub.Filter.Name {
				between += subs.FilterChange
			}
			require.Equal(t, between, sub.Over.Sub(sub.Exposure.To), "sub %d of %d", i, n)
			at = sub.Over
		}
	})
}

// Wherever a run is cut, the rest of the sequence is the same, and the last of a run is over in time.
func TestARunThatIsCutGoesOnWhereItStood(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		subs := anySubs(t)
		until := noonOfSpans.Add(time.Duration(rapid.IntRange(0, 7200).Draw(t, "cut, s")) * time.Second)
		whole, end := plan.NewSequence(subs).Run(noonOfSpans, noonOfSpans.Add(1000*time.Hour))
		first, middle := plan.NewSequence(subs).Run(noonOfSpans, until)
		for _, sub := range first {
			require.False(t, sub.Over.After(until))
		}
		if len(first) < len(whole) {
			require.True(t, whole[len(first)].Over.After(until), "one more would not have ended in time")
		}
		second, last := middle.Run(until, until.Add(1000*time.Hour))
		require.Len(t, second, len(whole)-len(first))
		for i, sub := range second {
			require.Equal(t, whole[len(first)+i].Filter.Name, sub.Filter.Name)
		}
		require.True(t, last.Same(end))
		require.Equal(t, end.Taken(), last.Taken())
	})
}

// Progress at any instant agrees with the list of all subs.
func TestProgressAgreesWithTheListOfSubs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		subs := anySubs(t)
		all, _ := plan.NewSequence(subs).Run(noonOfSpans, noonOfSpans.Add(1000*time.Hour))
		now := noonOfSpans.Add(time.Duration(rapid.IntRange(-60, 9000).Draw(t, "now, s")) * time.Second)
		got := plan.NewSequence(subs).Progress(noonOfSpans, now)
		done, exposing := 0, false
		for _, sub := range all {
			if !now.Before(sub.Exposure.To) {
				done++
			}
			exposing = exposing || sub.Exposure.Contains(now)
		}
		require.Len(t, got.Done, done)
		require.Equal(t, exposing, got.Exposing)
		total := 0
		for _, n := range got.After.Taken() {
			total += n
		}
		require.Equal(t, done, total)
		if now.Before(noonOfSpans) {
			require.True(t, got.Waiting)
		}
		if exposing {
			require.False(t, got.Waiting)
			require.True(t, got.Now.Exposure.Contains(now))
		}
	})
}

func TestWhatIsSkippedAndTakenBack(t *testing.T) {
	subs := kit.Subs{InARow: 2, Overhead: 10 * time.Second, DitherEvery: 4, DitherSettle: 20 * time.Second, Filters: []kit.Filter{
		{Name: "L", Exposure: time.Minute, Count: 10}, {Name: "Ha", Exposure: 5 * time.Minute, Count: 4}}}
	s := plan.NewSequence(subs)
	// By hand: 10 · 70 s + 4 · 310 s, and a dither of 20 s for every fourth of 14: 14 · 20/4 = 70 s.
	assert.Equal(t, 700*time.Second+1240*time.Second+70*time.Second, s.Working())
	assert.InDelta(t, 1800./2010, s.Duty(), 1e-12)
	skipped := s.Skip("Ha", 4).Skip("L", 9)
	assert.Equal(t, 75*time.Second, skipped.Working())
	assert.InDelta(t, 60./75, skipped.Duty(), 1e-12)
	assert.Equal(t, []int{9, 4}, skipped.Taken())
	assert.Equal(t, 29*time.Minute, skipped.Exposed())
	done := skipped.Take("L")
	assert.True(t, done.Done())
	assert.Zero(t, done.Working())
	assert.InDelta(t, 1800./2010, done.Duty(), 1e-12, "of all, when none is wanted")
	assert.False(t, done.TakeBack("Ha").Done(), "one is wanted again")
	assert.Equal(t, []int{10, 3}, done.TakeBack("Ha").Taken())
	assert.True(t, done.Take("OIII").Same(done), "a filter that the kit has not changes nothing")
	assert.Equal(t, []int{9, 4}, skipped.Taken(), "a sequence is a value")
	assert.Equal(t, 1.0, plan.NewSequence(kit.Subs{}).Duty(), "without filters nothing is lost")
}

func TestDates(t *testing.T) {
	for _, c := range []struct {
		text string
		want plan.Date
		ok   bool
	}{
		{"2026-12-05", plan.Date{Year: 2026, Month: time.December, Day: 5}, true},
		{"2028-02-29", plan.Date{Year: 2028, Month: time.February, Day: 29}, true},
		{"2027-02-29", plan.Date{}, false},
		{"2026-13-01", plan.Date{}, false},
		{"05.12.2026", plan.Date{}, false},
		{"2026-12-5", plan.Date{}, false},
		{"tonight", plan.Date{}, false},
		{"", plan.Date{}, false},
	} {
		t.Run(c.text, func(t *testing.T) {
			got, err := plan.ParseDate(c.text)
			assert.Equal(t, c.want, got)
			if c.ok {
				require.NoError(t, err)
				assert.Equal(t, c.text, got.String())
			} else {
				assert.ErrorContains(t, err, "write year-month-day, as 2026-12-05", "it says what would be right")
			}
		})
	}
}

// A night begins at local mean solar noon and bears the date of its evening, wherever it is and whatever UTC says.
func TestEveryInstantOfANightBearsItsDate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		site := sky.Site{Longitude: sky.Angle(rapid.Float64Range(-179.9, 179.9).Draw(t, "longitude")) * sky.Degree}
		day := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, rapid.IntRange(0, 1000).Draw(t, "day"))
		date := plan.Date{Year: day.Year(), Month: day.Month(), Day: day.Day()}
		noon := sky.SolarNoon(site, date.Year, date.Month, date.Day)
		into := time.Duration(rapid.Float64Range(0.001, 23.999).Draw(t, "hours into it") * float64(time.Hour))
		require.Equal(t, date, plan.DateOf(site, noon.Add(into)))
		require.NotEqual(t, date, plan.DateOf(site, noon.Add(-time.Second)))
		require.NotEqual(t, date, plan.DateOf(site, noon.Add(24*time.Hour+time.Second)))
	})
}

// With a levelled axis the azimuth turns as dA/dt = ω (sin φ − cos φ cos A tan h) says (Meeus eq. 13.5 differentiated),
// and its extremes are those of its course.
func TestTheAzimuthTurnsAsItsRateSays(t *testing.T) {
	k := exampleKit()
	k.Axis = kit.Axis{}
	night := plan.NewNight(k, plan.Date{Year: 2026, Month: 12, Day: 5})
	for _, target := range k.Targets {
		course := night.Course(target, k.Axis)
		span := plan.Span{From: course.Span.From.Add(9 * time.Hour), To: course.Span.From.Add(14 * time.Hour)}
		got := course.AzimuthTurn(span)
		sum, least, most := sky.Angle(0), sky.Angle(0), sky.Angle(0)
		const step = 10 * time.Second
		for at := span.From; at.Before(span.To); at = at.Add(step) {
			rate, ok := sky.AzimuthRate(night.Frame.Pole(), course.Place(at.Add(step/2)).Direction(), sky.MountAxis(0, 0))
			require.True(t, ok)
			sum += rate.Times(step)
			least, most = min(least, sum), max(most, sum)
		}
		assert.True(t, got.Sure)
		// The rate leaves the drift of the place out, 0.02 %.
		assert.InDelta(t, sum.Degrees(), got.By.Degrees(), 0.05, target.Name)
		assert.InDelta(t, least.Degrees(), got.Least.Degrees(), 0.05, target.Name)
		assert.InDelta(t, most.Degrees(), got.Most.Degrees(), 0.05, target.Name)
		start, end := course.AzimuthAboutAxis(span.From), course.AzimuthAboutAxis(span.To)
		assert.InDelta(t, 0, (end - start - got.By).Signed().Degrees(), 1e-9, "whole turns apart from the two ends")
		assert.InDelta(t, 0, (course.Place(span.From).Azimuth - start).Signed().Degrees(), 1e-9, "levelled, it is the azimuth")
	}
}
