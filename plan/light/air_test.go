package light_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"duskhand/plan/light"
)

// hayesLatham is an older formula for the air's molecules, in magnitudes per airmass: Hayes & Latham 1975, ApJ 197,
// 593.
func hayesLatham(micrometres, kilometres float64) float64 {
	inverse := math.Pow(micrometres, -2)
	n := 0.23465 + 107.6/(146-inverse) + 0.93161/(41-inverse)
	return 0.0094977 * math.Pow(micrometres, -4) * n * n * math.Exp(-kilometres/7.996)
}

func TestTheTwoFormulasForMoleculesAgree(t *testing.T) {
	for _, c := range []struct{ nm, noll, hayes float64 }{ // computed by hand in the handbook, section 14
		{400, 0.391, 0.395}, {550, 0.106, 0.107}, {656, 0.0515, 0.0521},
	} {
		assert.InDelta(t, c.noll, 1.0857*light.RayleighDepth(light.Wavelength(c.nm), 1013.25, 0), 0.0006, "%v nm", c.nm)
		assert.InDelta(t, c.hayes, hayesLatham(c.nm/1000, 0), 0.0006, "%v nm", c.nm)
	}
	for nm := 400.0; nm <= 700; nm += 10 {
		assert.InDelta(t, hayesLatham(nm/1000, 0), 1.0857*light.RayleighDepth(light.Wavelength(nm), 1013.25, 0), 0.0045, "%v nm", nm)
	}
	// At 2 km the pressure of the standard atmosphere is 795 hPa; the older formula has a scale height instead.
	assert.InDelta(t, hayesLatham(0.55, 2), 1.0857*light.RayleighDepth(550, 795, 2000), 0.003)
}

func TestTheAirTakesWhatTheKitSaysInV(t *testing.T) {
	for _, v := range []float64{0.05, 0.12, 0.18, 0.35, 1} { // the first is clearer than molecules alone
		air := light.NewAir(1010, 0, v)
		assert.InDelta(t, v, air.Extinction(550), 1e-12)
		assert.Greater(t, air.Extinction(450), v)
		assert.Less(t, air.Extinction(656.28), v)
	}
	// Sea level and 0.18 in V: molecules 0.106 and ozone 0.025·e^(−(45/60)²) = 0.0142 leave 0.0594 to the dust, which
	// at 656 nm is (656.28/550)^−1.38 = 0.784 of it: 0.0515 + 0.0087 + 0.0466.
	assert.InDelta(t, 0.107, light.NewAir(1013.25, 0, 0.18).Extinction(656.28), 0.001)
}
