package choose_test

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/choose"
	"duskhand/plan/kit"
	"duskhand/sky"
)

func yearOf(t *testing.T, k kit.Kit, target kit.Target, from plan.Date, nights int) choose.Year {
	t.Helper()
	year, err := choose.YearOf(context.Background(), k, target, k.Axis, from, nights, nil)
	require.NoError(t, err)
	return year
}

func at(latitude, longitude float64) kit.Kit {
	k := kit.Example()
	k.Site.Place = sky.Site{Latitude: sky.Angle(latitude) * sky.Degree, Longitude: sky.Angle(longitude) * sky.Degree}
	return k
}

// Windows by plan.Course, the Moon looked at every minute in them.
func TestYearAgreesWithWindowsAndASlowMoon(t *testing.T) {
	for _, c := range []struct {
		name string
		kit  kit.Kit
		of   string
	}{
		{"in the south", kit.Example(), "NGC 1365"},
		{"in the north, west of Greenwich", at(44, -79), "M 51"},
		{"far in the north, where nights fail", at(63, 25), "M 31"},
		{"at the equator", at(0, 100), "M 42"},
	} {
		t.Run(c.name, func(t *testing.T) {
			target := named(t, c.of)[0]
			year := yearOf(t, c.kit, target, plan.Date{Year: 2026, Month: time.September, Day: 1}, 365)
			require.Len(t, year.Nights, 365)
			for i := 0; i < 365; i += 13 {
				got := year.Nights[i]
				n := plan.NewNight(c.kit, got.Date)
				var usable, free time.Duration
				for _, w := range n.Course(target, c.kit.Axis).Windows() {
					usable += w.Length()
					for m := w.From; m.Before(w.To); m = m.Add(time.Minute) {
						moon := n.Frame.Moon(m)
						if moon.Altitude+moon.SemiDiameter()+34*sky.Arcminute <= 0 {
							free += time.Minute
						}
					}
				}
				assert.InDelta(t, usable.Minutes(), got.Usable.Minutes(), 2, "usable on %v", got.Date) // windows under 2 min are missed
				assert.InDelta(t, free.Minutes(), got.MoonFree.Minutes(), 3, "without the Moon on %v", got.Date)
				assert.LessOrEqual(t, got.MoonFree, got.Usable)
				assert.LessOrEqual(t, got.Usable, got.Dark)
				assert.InDelta(t, n.Frame.Moon(n.Span.From.Add(12*time.Hour)).Illuminated, got.Illuminated, 1e-9)
				if len(n.Dark) == 0 {
					assert.Zero(t, got.Dark)
				}
			}
		})
	}
}

// New Moons of the time are those of 9 Nov and 9 Dec 2026 (Meeus ch. 49 gives 9 Nov 7 h and 9 Dec 0 h 52 min).
func TestTheBestNightsAreAroundNewMoon(t *testing.T) {
	year := yearOf(t, kit.Example(), named(t, "NGC 2070")[0], plan.Date{Year: 2026, Month: time.November, Day: 20}, 30)
	best, ok := year.Best()
	require.True(t, ok)
	n := year.Nights[best.Best]
	assert.Less(t, n.Illuminated, 0.1)
	assert.True(t, best.First <= best.Best && best.Best <= best.Last)
	for _, night := range year.Nights[best.First : best.Last+1] {
		assert.GreaterOrEqual(t, night.MoonFree.Hours(), 0.8*n.MoonFree.Hours())
	}
	for _, night := range year.Nights {
		assert.LessOrEqual(t, night.MoonFree.Minutes(), n.MoonFree.Minutes()+0.51, "none has a minute more")
	}
	assert.Contains(t, []time.Month{time.November, time.December}, n.Date.Month)
	assert.InDelta(t, 6.5, n.MoonFree.Hours(), 0.5)
}

func TestYearsThatDoNotGoAsUsual(t *testing.T) {
	june := plan.Date{Year: 2026, Month: time.June, Day: 10}
	t.Run("a month without astronomical night", func(t *testing.T) {
		year := yearOf(t, at(60, 25), named(t, "M 57")[0], june, 30)
		for _, n := range year.Nights {
			assert.Equal(t, choose.YearNight{Date: n.Date, Illuminated: n.Illuminated}, n)
		}
		_, ok := year.Best()
		assert.False(t, ok)
	})
	t.Run("a target that never rises", func(t *testing.T) {
		year := yearOf(t, at(50, 8), named(t, "NGC 2070")[0], june, 365)
		_, ok := year.Best()
		assert.False(t, ok)
	})
	t.Run("a single night at full Moon", func(t *testing.T) {
		year := yearOf(t, kit.Example(), named(t, "NGC 2070")[0], plan.Date{Year: 2026, Month: time.December, Day: 24}, 1)
		assert.InDelta(t, 1, year.Nights[0].Illuminated, 0.01) // full Moon on 24 Dec 2026, 1 h 28 min (memory)
		assert.InDelta(t, 1, year.Nights[0].MoonShare(), 0.01)
		_, ok := year.Best()
		assert.False(t, ok, "the Moon is up whenever it can be used")
	})
	t.Run("across the end of a leap year's February", func(t *testing.T) {
		year := yearOf(t, kit.Example(), named(t, "NGC 2070")[0], plan.Date{Year: 2028, Month: time.February, Day: 28}, 3)
		assert.Equal(t, "2028-02-29", year.Nights[1].Date.String())
		assert.Equal(t, "2028-03-01", year.Nights[2].Date.String())
	})
	t.Run("a night that has no use has no Moon in it", func(t *testing.T) { assert.Zero(t, choose.YearNight{}.MoonShare()) })
}

func TestAYearCanBeCutShort(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	k, calls := kit.Example(), 0
	_, err := choose.YearOf(ctx, k, k.Targets[0], k.Axis, moonlitDate, 365, func(done, total int) {
		if calls++; done == 5 {
			cancel()
		}
	})
	assert.ErrorIs(t, err, context.Canceled)
	assert.Equal(t, 5, calls)
}

// The bound: a second for one target's year on a machine of two cores.
func BenchmarkYearOfOneTarget(b *testing.B) {
	k := kit.Example()
	for b.Loop() {
		if _, err := choose.YearOf(context.Background(), k, k.Targets[0], k.Axis, moonlitDate, 365, nil); err != nil {
			b.Fatal(err)
		}
	}
}
