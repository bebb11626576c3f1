package plan_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// allows tells by how much one axis allows a target: its room below the ceiling in degrees, and below both rates in
// degrees an hour.
func allows(k kit.Kit, pole, target, axis sky.Direction) []float64 {
	azimuth, _ := sky.AzimuthRate(pole, target, axis)
	field, _ := sky.FieldRate(pole, target, axis)
	return []float64{
		(target.Separation(axis) - (90*sky.Degree - k.Mount.Ceiling)).Degrees(),
		(k.Mount.LargestAzimuthRate - sky.Rate(sky.Angle(azimuth).Abs())).DegreesPerHour(),
		(k.Derotator.LargestRate - sky.Rate(sky.Angle(field).Abs())).DegreesPerHour(),
	}
}

// A window is open only while every axis of the circle allows it, and closes within five seconds of the first that
// does not: keyhole and both rates, against thousands of axes at its edges and between.
func TestWindowsHoldForEveryAxis(t *testing.T) {
	set := func(ceiling, azimuthPerSecond, fieldPerHour float64) func(*kit.Kit) {
		return func(k *kit.Kit) {
			k.Mount.Ceiling = sky.Angle(ceiling) * sky.Degree
			k.Mount.LargestAzimuthRate = sky.Rate(azimuthPerSecond) * sky.DegreePerSecond
			k.Derotator.LargestRate = sky.Rate(fieldPerHour) * sky.DegreePerHour
		}
	}
	for _, c := range []struct {
		name   string
		set    func(*kit.Kit)
		lat    float64
		target int
		closes plan.Bound
	}{
		{"the ceiling at 80°", set(80, 20, 36000), -31.95, 1, plan.ByKeyhole},
		{"the ceiling at 88°", set(88, 20, 36000), -31.95, 1, plan.ByKeyhole},
		{"a slow mount under a ceiling of 90°", set(90, 0.02, 36000), -31.95, 1, plan.ByAzimuthRate},
		{"a slow derotator under a ceiling of 90°", set(90, 20, 60), -31.95, 1, plan.ByDerotatorRate},
		{"a derotator that can't follow some axes for an hour", set(89, 20, 17), -31.95, 0, plan.ByDerotatorRate},
	} {
		t.Run(c.name, func(t *testing.T) {
			k := exampleKit()
			k.Site.Place.Latitude = sky.Angle(c.lat) * sky.Degree
			k.Horizon = kit.NewHorizon(nil)
			k.Axis = kit.Axis{Tilt: sky.Degree, Toward: 200 * sky.Degree, Uncertainty: 3 * sky.Degree}
			c.set(&k)
			night := plan.NewNight(k, exampleDate)
			course := night.Course(k.Targets[c.target], k.Axis)
			windows := course.Windows()
			require.NotEmpty(t, windows)
			assert.Equal(t, c.closes, windows[0].ClosesBefore)
			axes, fixed := discOf(k.Axis), night.Frame.Fix(k.Targets[c.target].Star)
			worst := func(at time.Time) float64 {
				target := night.Frame.Direction(fixed, at)
				least, _ := axes.extremes(func(axis sky.Direction) float64 {
					room := allows(k, night.Frame.Pole(), target, axis)
					return math.Min(room[0], math.Min(room[1], room[2]))
				})
				return least
			}
			const seed = 12
			random := rand.New(rand.NewPCG(seed, 0))
			for _, w := range windows {
				assert.True(t, !w.From.Before(w.Nominal.From) && !w.To.After(w.Nominal.To), "the nominal window holds it")
				for range 5 {
					at := w.From.Add(time.Duration(random.Float64() * float64(w.Length())))
					assert.GreaterOrEqual(t, worst(at), 0.0, "%v", at)
				}
				if w.ClosesBefore != plan.ByDarkness {
					assert.GreaterOrEqual(t, worst(w.To.Add(-time.Second)), 0.0, "every axis allows it to the end")
					assert.Negative(t, worst(w.To.Add(5*time.Second)), "and some does not soon after")
				}
				if w.OpensAfter != plan.ByDarkness {
					assert.GreaterOrEqual(t, worst(w.From.Add(time.Second)), 0.0)
					assert.Negative(t, worst(w.From.Add(-5*time.Second)))
				}
			}
		})
	}
}

// Posts of a fifth of a degree to two degrees, anywhere along the target's way: none is looked through, and each
// costs no more than the time that the target is behind it.
func TestNoPostIsTooNarrowToBeSeen(t *testing.T) {
	const seed, posts = 7, 40
	random := rand.New(rand.NewPCG(seed, 0))
	for range posts {
		k := exampleKit()
		k.Axis.Uncertainty = 0
		k.Horizon = kit.NewHorizon(nil)
		target := k.Targets[random.IntN(2)]
		night := plan.NewNight(k, exampleDate)
		free := night.Course(target, k.Axis).Windows()[0]
		behind := free.From.Add(time.Duration((0.05 + 0.9*random.Float64()) * float64(free.Length())))
		place := night.Course(target, k.Axis).Place(behind)
		half := sky.Angle(0.1+0.9*random.Float64()) * sky.Degree
		k.Horizon = kit.NewHorizon([]kit.HorizonPoint{
			{Azimuth: place.Azimuth - half - 0.01*sky.Degree, Name: "post"}, {Azimuth: place.Azimuth - half, Altitude: 85 * sky.Degree, Name: "post"},
			{Azimuth: place.Azimuth + half, Altitude: 85 * sky.Degree, Name: "post"}, {Azimuth: place.Azimuth + half + 0.01*sky.Degree, Name: "post"}})
		course := plan.NewNight(k, exampleDate).Course(target, k.Axis)
		windows := course.Windows()
		for _, w := range windows {
			assert.False(t, w.Contains(behind), "seed %d: planned through a post %.1f° wide at %v", seed, 2*half.Degrees(), behind)
		}
		var lost, hidden time.Duration
		lost = free.Length()
		for _, w := range windows {
			lost -= w.Overlap(free.Span)
		}
		for at := free.From; at.Before(free.To); at = at.Add(time.Second) {
			if p := course.Place(at); p.Altitude < k.Horizon.At(p.Azimuth) {
				hidden += time.Second
			}
		}
		assert.InDelta(t, hidden.Seconds(), lost.Seconds(), 8, "seed %d", seed) // whole seconds at each edge, and refraction
	}
}
