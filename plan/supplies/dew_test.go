package supplies_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan/supplies"
)

func TestDewPoint(t *testing.T) {
	// The project's handbook, section 11: 20 °C and 50 % → 9.26 °C, to its last digit.
	assert.InDelta(t, 9.26, supplies.Air{TemperatureC: 20, HumidityPercent: 50}.DewPointC(), 0.005)
	assert.InDelta(t, 15, supplies.Air{TemperatureC: 15, HumidityPercent: 100}.DewPointC(), 1e-12, "saturated air is at its dew point")
	assert.InDelta(t, -10, supplies.Air{TemperatureC: -10, HumidityPercent: 100}.DewPointC(), 1e-12)
}

// The vapour pressure of water over water in hPa, as tables of physics have it (Goff and Gratch; memory); the
// humidity is the quotient of two of them.
func TestHumidityAgainstTablesOfVapourPressure(t *testing.T) {
	pressure := map[float64]float64{-20: 1.254, -10: 2.863, 0: 6.108, 10: 12.272, 20: 23.373, 30: 42.43}
	for _, c := range []struct{ air, point float64 }{{30, 20}, {20, 10}, {10, 0}, {0, -10}, {-10, -20}, {30, 0}} {
		want := 100 * pressure[c.point] / pressure[c.air]
		assert.InDelta(t, want, supplies.HumidityPercent(c.air, c.point), 0.3, "%+v", c) // the constants' 0.4 %, twice
		point := supplies.Air{TemperatureC: c.air, HumidityPercent: want}.DewPointC()
		assert.InDelta(t, c.point, point, 0.1, "%+v", c)
	}
	assert.Greater(t, supplies.HumidityPercent(10, 12), 100.0, "no air holds that")
}

func TestDewPointTurnsRoundAndBehaves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := supplies.Air{TemperatureC: rapid.Float64Range(-40, 50).Draw(t, "air, °C"), HumidityPercent: rapid.Float64Range(1, 99).Draw(t, "humidity, %")}
		point := a.DewPointC()
		if point >= a.TemperatureC {
			t.Fatalf("%+v: its dew point %v lies above", a, point)
		}
		if back := supplies.HumidityPercent(a.TemperatureC, point); math.Abs(back-a.HumidityPercent) > 1e-9 {
			t.Fatalf("%+v: %v %% back", a, back)
		}
		moister := a
		moister.HumidityPercent++
		if moister.DewPointC() <= point {
			t.Fatalf("%+v: moister air has no higher dew point", a)
		}
	})
}

func TestDewWarnsBelowThreeDegrees(t *testing.T) {
	cases := []struct {
		name   string
		margin float64
		want   supplies.Risk
	}{
		{"far from it", 10, supplies.Dry},
		{"just outside", 3.1, supplies.Dry},
		{"just inside", 2.9, supplies.DewNear},
		{"saturated but for the hygrometer", 0.3, supplies.DewNow},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			d, err := supplies.DewIn(supplies.Air{TemperatureC: 15, HumidityPercent: supplies.HumidityPercent(15, 15-c.margin)})
			require.NoError(t, err)
			assert.Equal(t, c.want, d.Risk)
			assert.InDelta(t, c.margin, d.MarginK, 1e-9)
		})
	}
}

func TestAirThatIsNoneIsRefused(t *testing.T) {
	for want, a := range map[string]supplies.Air{
		"the relative humidity 120 % is out of range; give 1 to 100 %":  {TemperatureC: 10, HumidityPercent: 120},
		"the relative humidity 0 % is out of range; give 1 to 100 %":    {TemperatureC: 10},
		"the relative humidity NaN % is out of range; give 1 to 100 %":  {HumidityPercent: math.NaN()},
		"the air temperature 68 °C is out of range; give -40 to 50 °C":  {TemperatureC: 68, HumidityPercent: 50}, // Fahrenheit
		"the air temperature NaN °C is out of range; give -40 to 50 °C": {TemperatureC: math.NaN(), HumidityPercent: 50},
	} {
		_, err := supplies.DewIn(a)
		assert.EqualError(t, err, want)
	}
	d, err := supplies.DewIn(supplies.Air{TemperatureC: 50, HumidityPercent: 100})
	require.NoError(t, err)
	assert.Equal(t, supplies.DewNow, d.Risk)
}
