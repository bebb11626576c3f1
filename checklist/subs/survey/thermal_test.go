package survey_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/subs/survey"
	"duskhand/sky"
)

// cooling is a thermometer read each hour, in air that cools by 1.5 K an hour from 14 °C.
func cooling(hours int) []checklist.Temperature {
	var readings []checklist.Temperature
	for h := range hours + 1 {
		readings = append(readings, checklist.Temperature{At: evening.Add(time.Duration(h) * time.Hour), C: 14 - 1.5*float64(h)})
	}
	return readings
}

func TestAirBetweenReadings(t *testing.T) {
	readings := cooling(2)
	for minutes, want := range map[int]float64{0: 14, 30: 13.25, 60: 12.5, 90: 11.75, 120: 11, 139: 11, -10: 14} {
		c, ok := survey.AirAt(readings, evening.Add(time.Duration(minutes)*time.Minute))
		assert.True(t, ok, minutes)
		assert.InDelta(t, want, c, 1e-9, minutes)
	}
	for _, minutes := range []int{-21, 141} {
		_, ok := survey.AirAt(readings, evening.Add(time.Duration(minutes)*time.Minute))
		assert.False(t, ok, minutes)
	}
	_, ok := survey.AirAt(nil, evening)
	assert.False(t, ok)
}

// Stars that grow by 4 % of their best size for each kelvin colder, in three filters and with seeing of 6 %: the
// slope comes back, and its error is what it is off by.
func TestDiameterAgainstTemperature(t *testing.T) {
	const perKelvin = 0.04
	readings, pulls := cooling(5), 0.0
	for seed := range uint64(100) {
		lights := points(60, seed, func(_ int, p *survey.Point) {
			c, ok := survey.AirAt(readings, p.Start)
			require.True(t, ok)
			p.HFD *= sky.Angle(1 + perKelvin*(14-c))
		})
		got, ok := survey.ByTemperature(lights, readings, evening)
		require.True(t, ok)
		require.Equal(t, 60, got.Lights)
		want := -perKelvin * 3.1 // ″ a kelvin: the last light is of G
		// What lights are held against is the middle of the three best, below the true size by the luck of three.
		assert.InDelta(t, want, got.PerKelvin.Arcseconds(), 0.15*math.Abs(want)+3*got.Error.Arcseconds(), "night %d", seed)
		pulls += math.Pow((got.PerKelvin.Arcseconds()-want)/got.Error.Arcseconds(), 2) / 100
		assert.True(t, got.Follows())
		assert.InDelta(t, 7, got.ColdestC, 0.5)
		assert.InDelta(t, 14, got.WarmestC, 0.5)
	}
	assert.InDelta(t, 1, math.Sqrt(pulls), 0.35, "the stated error is the true one")
}

func TestDiameterThatDoesNotFollowTheTemperature(t *testing.T) {
	followed := 0
	for seed := range uint64(100) {
		got, ok := survey.ByTemperature(points(60, seed, nil), cooling(5), evening)
		require.True(t, ok)
		if got.Follows() {
			followed++
		}
	}
	assert.Less(t, followed, 12, "two σ are passed by chance in five of a hundred")
}

func TestDiameterAgainstTooLittle(t *testing.T) {
	lights := points(60, 1, nil)
	for what, try := range map[string]func() bool{
		"no reading": func() bool { _, ok := survey.ByTemperature(lights, nil, evening); return ok },
		"no change": func() bool {
			_, ok := survey.ByTemperature(lights, []checklist.Temperature{{At: evening, C: 9}, {At: evening.Add(5 * time.Hour), C: 9.9}}, evening)
			return ok
		},
		"few lights": func() bool {
			_, ok := survey.ByTemperature(lights[:5], []checklist.Temperature{{At: evening, C: 9}, {At: evening.Add(time.Hour), C: 2}}, evening)
			return ok
		},
		"focused since": func() bool {
			_, ok := survey.ByTemperature(lights, cooling(5), evening.Add(290*time.Minute))
			return ok
		},
	} {
		assert.False(t, try(), what)
	}
}
