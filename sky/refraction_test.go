package sky_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/sky"
)

func TestRefractionAgreesWithRayTracing(t *testing.T) {
	var high, low worst
	for _, r := range reference(t, "refraction.csv") {
		air := sky.Air{PressureHPa: r.number("pressure_hpa"), TemperatureC: r.number("temp_c")}
		altitude := r.degrees("alt_true_deg")
		off := abs(air.Refraction(altitude).Arcminutes() - r.number("raytrace_arcmin"))
		if altitude > 15*sky.Degree {
			high.see(off, r)
		} else {
			low.see(off, r)
		}
	}
	t.Logf("largest: %.3f′ above 15°, %.3f′ below", high.value, low.value)
	assert.Less(t, high.value, 0.2, "′ above 15°, row %s", high.id)
	assert.Less(t, low.value, 0.5, "′ from 5° to 15°, row %s", low.id)
}

func TestRefractionStaysSane(t *testing.T) {
	air := sky.Air{PressureHPa: 1010, TemperatureC: 10}
	assert.Zero(t, air.Refraction(90*sky.Degree), "nothing is lifted past the zenith")
	for altitude := -90.0; altitude < 90; altitude += 0.25 {
		got := air.Refraction(sky.Angle(altitude) * sky.Degree).Arcminutes()
		require.True(t, got >= 0 && got < 45, "%.2f° is lifted by %.2f′", altitude, got)
	}
	assert.InDelta(t, 28.98, air.Refraction(0).Arcminutes(), 0.3, "airless horizon: Meeus ch. 16, formula 16.4 gives 28.98′")
}

// Kasten & Young's own table of relative optical air masses, from their 1989 paper (memory): 90° 1.0000,
// 30° 1.9943, 10° 5.5841, 5° 10.3164, 0° 37.9196.
func TestAirmassOfKastenAndYoung(t *testing.T) {
	for altitude, want := range map[float64]float64{90: 1.0, 30: 1.9943, 10: 5.5841, 5: 10.3164, 0: 37.9196} {
		got, ok := sky.Airmass(sky.Angle(altitude) * sky.Degree)
		require.True(t, ok)
		assert.InDelta(t, want, got, 0.005*want, "their formula follows their table to 0.5 %")
	}
	_, ok := sky.Airmass(-0.01)
	assert.False(t, ok, "no airmass below the horizon")
}
