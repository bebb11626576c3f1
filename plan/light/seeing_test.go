package light_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"duskhand/plan/light"
	"duskhand/sky"
)

// By hand: at 30° the airmass is 1.994 (Kasten & Young 1989), and 1.994^0.6 = 1.513; Hα is 656.28/550 = 1.193 times the
// wavelength of V, and 1.193^−0.2 = 0.965; blue at 455 nm 1.039.
func TestSeeingByAirmassAndWavelength(t *testing.T) {
	const overhead = 2 * sky.Arcsecond
	for _, c := range []struct {
		name     string
		altitude float64
		λ        light.Wavelength
		want     float64 // arcseconds
	}{
		{"overhead in V", 90, 550, 2},
		{"half-way down in V", 30, 550, 3.026},
		{"overhead in Hα", 90, 656.28, 1.930},
		{"overhead in blue", 90, 455, 2.077},
		{"half-way down in Hα", 30, 656.28, 2.921},
		{"below the horizon there is none", -3, 656.28, 2},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := light.SeeingAt(overhead, sky.Angle(c.altitude)*sky.Degree, c.λ)
			assert.InDelta(t, c.want, got.Arcseconds(), 0.003, "the digits above")
		})
	}
	assert.InDelta(t, 550, float64(light.Band{From: 400, To: 700}.Middle()), 1e-9)
}
