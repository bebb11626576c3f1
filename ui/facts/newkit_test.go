package facts_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/ui/facts"
	"duskhand/ui/say"
)

// exampleAnswers are the example's values as a person types them.
func exampleAnswers() map[string]string {
	return map[string]string{"site.latitude": "-31.95", "site.longitude": "141.5", "derotator.min_deg": "-16", "derotator.max_deg": "16",
		"derotator.stops": "anywhere", "derotator.largest_rate_deg_per_h": "120", "target.name": "NGC 2070", "optics.aperture_mm": "80",
		"optics.focal_length_mm": "480", "camera.pixel_um": "3.76", "camera.width_px": "6248", "camera.height_px": "4176"}
}

func TestOpticsOfANewKitByHand(t *testing.T) {
	o := facts.NewOpticsOf(kit.NewSketch(exampleAnswers()))
	assert.InDelta(t, 1.6157, o.ScaleArcsecPerPixel, 0.0001) // 206.265·3.76/480, the project's handbook, section 9
	assert.InDelta(t, 2.803, o.Width.Degrees(), 0.001)       // 2·atan(6248·0.00376/960)
	assert.InDelta(t, 1.874, o.Height.Degrees(), 0.001)      // 2·atan(4176·0.00376/960)
	assert.InDelta(t, 6, o.FocalRatio, 1e-12)
	assert.InDelta(t, 96.6, o.ZoneUM, 0.05) // section 8: f/6 and 0.55 µm
	assert.InDelta(t, 32, o.Travel.Degrees(), 1e-12)
	assert.Equal(t, facts.NewOptics{}, facts.NewOpticsOf(kit.NewSketch(nil)))
}

func TestTonightOfANewKitAgreesWithThePlan(t *testing.T) {
	now := time.Date(2026, 12, 5, 9, 0, 0, 0, time.UTC)
	answers := exampleAnswers()
	q := facts.NewNightFrom(kit.NewSketch(answers), now)
	require.True(t, q.HasSite && q.HasRun)
	got := q.Answer()

	k := kit.Example()
	k.Axis, k.Mount.Floor, k.Mount.Ceiling, k.Horizon = kit.Axis{Uncertainty: 3 * sky.Degree}, 20*sky.Degree, 80*sky.Degree, kit.NewHorizon(nil)
	k.Site.PressureHPa, k.Site.TemperatureC, k.Site.DUT1 = 0, 0, 0
	night := plan.NewNight(k, plan.Date{Year: 2026, Month: 12, Day: 5})
	require.Len(t, got.Dark, 1)
	assert.WithinDuration(t, night.Dark[0].From, got.Dark[0].From, time.Second)
	course := night.Course(k.Targets[0], k.Axis)
	longest := time.Duration(0)
	for _, run := range course.Schedule(plan.Start{At: night.Span.From}, plan.NewSequence(kit.Subs{InARow: 1, Filters: []kit.Filter{{Name: "L", Exposure: time.Minute, Count: 100000}}})).Runs {
		longest = max(longest, run.To.Sub(run.From))
	}
	// The plan's runs are some of those that were looked through, in steps of ten minutes.
	assert.GreaterOrEqual(t, got.Longest.Length(), longest-10*time.Minute)
	assert.Less(t, longest, got.Usable)
	assert.False(t, got.Longest.To.After(course.PlannedRun(got.Longest.From, night.Span.To).Until.Add(time.Second)), "no longer than the derotator can")

	delete(answers, "target.name")
	q = facts.NewNightFrom(kit.NewSketch(answers), now)
	assert.False(t, q.HasRun)
	assert.Zero(t, q.Answer().Longest.Length())
	assert.Equal(t, facts.NewNight{}, facts.NewNightFrom(kit.NewSketch(nil), now).Answer())
}

func TestANightThatNeverGetsDark(t *testing.T) {
	// Tromsø, 69.6° north: from May to July the Sun does not set (any almanac).
	q := facts.NewNightFrom(kit.NewSketch(map[string]string{"site.latitude": "69.6", "site.longitude": "18.9"}), time.Date(2026, 6, 21, 20, 0, 0, 0, time.UTC))
	assert.True(t, q.HasSite)
	assert.Empty(t, q.Answer().Dark)
}

func TestPlaceInWords(t *testing.T) {
	cases := []struct {
		name, want string
		place      sky.Site
	}{
		{"south and east", "31°57′ south, 141°30′ east, 210 m", sky.Site{Latitude: -31.95 * sky.Degree, Longitude: 141.5 * sky.Degree, ElevationMetres: 210}},
		{"north and west", "51°00′ north, 4°15′ west, 0 m", sky.Site{Latitude: 50.9999 * sky.Degree, Longitude: -4.25 * sky.Degree}},
		{"below the sea", "0°00′ north, 0°00′ east, −400 m", sky.Site{ElevationMetres: -400}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want, say.Place(c.place)) })
	}
}

func BenchmarkNewNight(b *testing.B) {
	q := facts.NewNightFrom(kit.NewSketch(exampleAnswers()), time.Date(2026, 12, 5, 9, 0, 0, 0, time.UTC))
	for range b.N {
		q.Answer()
	}
}
