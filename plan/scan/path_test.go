package scan_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/scan"
	"duskhand/sky"
)

func TestInsideAreTheSamplesOfTheWindows(t *testing.T) {
	k := endless()
	n := plan.NewNight(k, exampleDate)
	target := made("near NGC 1365", 53.4, -36.1)
	s := scan.NewSky(n, k.Axis, nil)
	path, course := s.Follow(target), n.Course(target, k.Axis)
	seen := 0
	for i, d := range path.Inside() {
		at := s.Times()[i]
		inside := false
		for _, w := range path.Windows {
			inside = inside || !at.Before(w.From) && !at.After(w.To)
		}
		require.True(t, inside, "%v lies in no window", at)
		assert.InDelta(t, 0, d.Separation(course.Place(at).Direction()).Arcseconds(), 0.001)
		assert.InDelta(t, course.FieldRate(at).DegreesPerHour(), path.Rate(i).DegreesPerHour(), 1e-6)
		seen++
	}
	assert.InDelta(t, path.Usable().Minutes()/2, float64(seen), 2, "one each two minutes") // and an edge or two
	stopped := 0
	for range path.Inside() {
		if stopped++; stopped == 3 {
			break
		}
	}
	assert.Equal(t, 3, stopped)
}

func TestFromLeavesOutWhatIsOver(t *testing.T) {
	k := endless()
	n := plan.NewNight(k, exampleDate)
	path := scan.NewSky(n, k.Axis, nil).Follow(made("near NGC 1365", 53.4, -36.1))
	require.Len(t, path.Windows, 2)
	first, second := path.Windows[0], path.Windows[1]
	for _, c := range []struct {
		name    string
		from    time.Time
		usable  time.Duration
		windows int
		keyhole time.Duration
	}{
		{"before the night", n.Span.From, path.Usable(), 2, path.Keyhole()},
		{"in the first window", first.To.Add(-time.Hour), time.Hour + second.Length(), 2, path.Keyhole()},
		{"in the keyhole", first.To.Add(time.Minute), second.Length(), 1, path.Keyhole() - time.Minute},
		{"in the second", second.To.Add(-time.Minute), time.Minute, 1, 0},
		{"after both", second.To.Add(time.Minute), 0, 0, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			rest := path.From(c.from)
			assert.Equal(t, c.usable, rest.Usable())
			assert.Len(t, rest.Windows, c.windows)
			assert.InDelta(t, c.keyhole.Seconds(), rest.Keyhole().Seconds(), 1e-6)
			for _, run := range rest.Runs(c.from) {
				assert.False(t, run.From.Before(c.from))
			}
		})
	}
	assert.Len(t, path.Windows, 2, "the path itself stays")
}

// The example's runs from any instant on are those of the exact plan from there.
func TestRunsFromAnyInstant(t *testing.T) {
	k := endless()
	n := plan.NewNight(k, exampleDate)
	target := made("near NGC 2070", 84.7, -69.1)
	path, course := scan.NewSky(n, k.Axis, nil).Follow(target), n.Course(target, k.Axis)
	for from := n.Dark[0].From.Add(-time.Hour); from.Before(n.Dark[0].To); from = from.Add(50 * time.Minute) {
		exact := course.Schedule(plan.Start{At: from}, plan.NewSequence(k.Subs))
		runs := path.Runs(from)
		require.InDelta(t, len(exact.Runs), len(runs), 1, "from %v", from)
		assert.InDelta(t, workedExactly(exact, k).Minutes(), worked(runs, k).Minutes(), 5) // half a cadence for each of up to five
		for i := range min(len(runs), len(exact.Runs)) - 1 {
			assert.InDelta(t, exact.Runs[i].StartAngle.Degrees(), runs[i].Start.Degrees(), 0.5) // 15°/h over a cadence
			assert.True(t, runs[i].Spent)
		}
	}
}

// A spread that is narrow across and wide along gives longer runs than the circle around it, as it does in
// the exact plan.
func TestTheEllipseOfAFitCounts(t *testing.T) {
	k := endless()
	spread := plan.Spread{East: 0.05 * sky.Degree, North: 0.6 * sky.Degree, Correlation: 0.3}
	k.Axis.Uncertainty = spread.Radius()
	n := plan.NewNight(k, exampleDate)
	target := made("near NGC 2070", 84.7, -69.1)
	within := scan.NewSky(n, k.Axis, &spread).Follow(target).Runs(n.Span.From)
	circle := scan.NewSky(n, k.Axis, nil).Follow(target).Runs(n.Span.From)
	exact := n.CourseWithin(target, k.Axis, &spread).Schedule(plan.Start{At: n.Span.From}, plan.NewSequence(k.Subs))
	require.NotEmpty(t, within)
	assert.InDelta(t, exact.Runs[0].Limit.Early.At.Sub(within[0].From).Minutes(), within[0].By.Add(k.Derotator.Margin).Sub(within[0].From).Minutes(), 0.5) // linear in the axis
	assert.True(t, within[0].By.After(circle[0].By))
}

// The layer's airmass and what height is worth, by hand from Krisciunas & Schaefer's eq. 2 and 3: at 30° up
// X = 1/√(1 − 0.96·0.75) = 1.8898; the signal pays 10^(−0.4·0.172·0.8898) = 0.8685, and so does the sky, which
// is X times as deep: 0.8685/1.8898 = 0.4596.
func TestHeight(t *testing.T) {
	const digits = 5e-5 // those above
	assert.InDelta(t, 1, scan.LayerAirmass(90*sky.Degree), digits)
	assert.InDelta(t, 1.8898, scan.LayerAirmass(30*sky.Degree), digits)
	assert.InDelta(t, 5, scan.LayerAirmass(0), digits)
	assert.InDelta(t, 5, scan.LayerAirmass(-10*sky.Degree), digits, "held at the horizon's")
	assert.InDelta(t, 1, scan.Height(90*sky.Degree), digits)
	assert.InDelta(t, 0.4596, scan.Height(30*sky.Degree), digits)
	for h := 1; h <= 90; h++ {
		assert.Greater(t, scan.Height(sky.Angle(h)*sky.Degree), scan.Height(sky.Angle(h-1)*sky.Degree), "higher is better")
	}
}

func TestANightThatIsNeverDark(t *testing.T) {
	k := endless()
	k.Site.Place.Latitude = 60 * sky.Degree
	n := plan.NewNight(k, plan.Date{Year: 2026, Month: time.June, Day: 21})
	s := scan.NewSky(n, k.Axis, nil)
	path := s.Follow(made("overhead", 260, 60))
	assert.Zero(t, s.Darkness())
	assert.Empty(t, s.Times())
	assert.Zero(t, path.Usable())
	assert.Empty(t, path.Runs(n.Span.From))
	assert.Empty(t, path.From(n.Span.To).Windows)
}
