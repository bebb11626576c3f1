package light_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"duskhand/plan/light"
	"duskhand/sky"
)

func TestNanolamberts(t *testing.T) {
	// Mauna Kea's dark zenith in the paper: 79.0 nL, V = 21.587 (memory); the rest are inverse trips.
	assert.InDelta(t, 79.0, light.Nanolamberts(21.587), 0.05)
	assert.InDelta(t, 21.587, light.MagPerArcsec2(79.0), 0.0005)
	for _, mag := range []float64{3, 16, 19.5, 22.3} {
		assert.InDelta(t, mag, light.MagPerArcsec2(light.Nanolamberts(mag)), 1e-12)
	}
}

func moonlit(phase, moonZenith, zenith, apart, extinction float64) light.Moonlight {
	return light.Moonlight{PhaseAngle: sky.Angle(phase) * sky.Degree, MoonAltitude: sky.Angle(90-moonZenith) * sky.Degree,
		Altitude: sky.Angle(90-zenith) * sky.Degree, Separation: sky.Angle(apart) * sky.Degree, ExtinctionMagPerAirmass: extinction}
}

func TestMoonlightAgainstAnIndependentComputation(t *testing.T) {
	cases := []struct {
		name                                         string
		phase, moonZenith, zenith, apart, extinction float64
		wantNanolamberts                             float64
	}{
		// Python, written beside this from the paper's equations in zenith distances, with the Moon's magnitude
		// −12.73 + 0.026α + 4e-9 α⁴ and 10^(−0.4(m + 16.57)) instead of their sum; printed to three decimals.
		{"full Moon, both half-way up", 0, 30, 30, 60, 0.172, 1390.427},
		{"two days past full", 30, 60, 40, 90, 0.172, 485.237},
		{"half Moon, target overhead, thick air", 90, 45, 0, 45, 0.25, 183.395},
		{"low crescent, near the target", 120, 80, 60, 20, 0.3, 97.015},
		{"five degrees from a full Moon", 10, 20, 25, 5, 0.15, 8219.006},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got := moonlit(c.phase, c.moonZenith, c.zenith, c.apart, c.extinction).Nanolamberts()
			assert.InDelta(t, c.wantNanolamberts, got, 0.0006)
		})
	}
}

// A published worked value (memory): phase angle 45°, Moon 70° and place 20° from the zenith, 50° apart,
// k = 0.15: 19.855.
func TestMoonlightAgainstAWorkedValue(t *testing.T) {
	assert.InDelta(t, 19.855, light.MagPerArcsec2(moonlit(45, 70, 20, 50, 0.15).Nanolamberts()), 0.0005) // its last digit
}

// The paper's two formulas for dust meet at 10°: 10^5.9 = 7.94e5 and 6.2e5. The step is its own, a sixth of
// the whole with the molecules.
func TestTheStepAtTenDegreesIsThePapers(t *testing.T) {
	below, above := moonlit(0, 30, 30, 9.999999, 0.172).Nanolamberts(), moonlit(0, 30, 30, 10, 0.172).Nanolamberts()
	molecules := 229086.77 * (1.06 + 0.969846) // 10^5.36, cos² 10°
	assert.InEpsilon(t, (molecules+6.2e5)/(molecules+794328.2), below/above, 1e-6)
}

func TestAMoonBelowTheHorizonGivesNoLight(t *testing.T) {
	assert.Zero(t, moonlit(0, 90, 30, 60, 0.172).Nanolamberts())
	assert.Zero(t, moonlit(0, 120, 30, 90, 0.172).Nanolamberts())
	assert.Zero(t, moonlit(0, 30, 100, 90, 0.172).Nanolamberts(), "nor does a place under the ground get any")
}

func TestMoonlightBehaves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := moonlit(rapid.Float64Range(0, 170).Draw(t, "phase"), rapid.Float64Range(0, 89).Draw(t, "moon's zenith distance"),
			rapid.Float64Range(0, 89).Draw(t, "zenith distance"), rapid.Float64Range(0, 180).Draw(t, "apart"),
			rapid.Float64Range(0.05, 1).Draw(t, "extinction"))
		light := m.Nanolamberts()
		if !(light > 0) {
			t.Fatalf("%+v: %v", m, light)
		}
		thinner := m
		thinner.PhaseAngle += 5 * sky.Degree
		if got := thinner.Nanolamberts(); got >= light {
			t.Fatalf("a thinner Moon gives %v, this one %v", got, light)
		}
		lower := m
		lower.MoonAltitude /= 2
		if got := lower.Nanolamberts(); got >= light {
			t.Fatalf("a lower Moon gives %v, this one %v", got, light)
		}
		waning := m
		waning.PhaseAngle = -m.PhaseAngle
		if waning.Nanolamberts() != light {
			t.Fatal("the sign of the phase angle must not matter")
		}
	})
}
