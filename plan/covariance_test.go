package plan_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan"
	"duskhand/sky"
)

func altaz(altDeg, azDeg float64) sky.Direction {
	return sky.Horizontal{Altitude: sky.Angle(altDeg) * sky.Degree, Azimuth: sky.Angle(azDeg) * sky.Degree}.Direction()
}

func centredAt(sigmaArcmin float64, directions ...sky.Direction) []plan.Centring {
	var stars []plan.Centring
	for _, d := range directions {
		stars = append(stars, plan.Centring{Direction: d, Error: sky.Angle(sigmaArcmin) * sky.Arcminute})
	}
	return stars
}

// Shuster & Oh 1981, J. Guidance and Control 4(1), 70–77, in numbers; the table's README asks for 0.01 %
// of the formula and 2 % of the Monte Carlo, whose own scatter is 0.5 %.
func TestPointingAndRollAgreeWithTheTable(t *testing.T) {
	var worst, worstDrawn float64
	for _, r := range reference(t, "pair.csv") {
		first := altaz(r.number(t, "star1_alt_deg"), r.number(t, "star1_az_deg"))
		second := altaz(r.number(t, "star2_alt_deg"), r.number(t, "star2_az_deg"))
		target := altaz(r.number(t, "target_alt_deg"), r.number(t, "target_az_deg"))
		p, err := plan.AttitudeCovariance(centredAt(r.number(t, "sigma_arcmin"), first, second)...)
		require.NoError(t, err, "row %s", r["id"])
		for column, got := range map[string]sky.Angle{"point_rms_arcmin": p.Pointing(target), "roll_rms_arcmin": p.Roll(target)} {
			want := r.number(t, column)
			// Places in the table are rounded to 0.0001°, which stars a few degrees apart feel most; and
			// its figures to 1e-6′.
			assert.InDelta(t, want, got.Arcminutes(), 1e-4*want+1e-6, "row %s, %s", r["id"], column)
			worst = math.Max(worst, math.Abs(got.Arcminutes()/want-1))
			if r["mc_"+column] != "" {
				drawn := r.number(t, "mc_"+column)
				assert.InEpsilon(t, drawn, got.Arcminutes(), 0.02, "row %s, Monte Carlo of %s", r["id"], column)
				worstDrawn = math.Max(worstDrawn, math.Abs(got.Arcminutes()/drawn-1))
			}
		}
		assert.InDelta(t, r.number(t, "sep_deg"), first.Separation(second).Degrees(), 2e-4, "row %s", r["id"]) // rounding of the places
	}
	t.Logf("largest: %.2g of the formula, %.2g of the Monte Carlo", worst, worstDrawn)
}

func TestStarsThatDetermineNoAttitudeAreRefusedInWords(t *testing.T) {
	canopus := altaz(40, 120)
	opposite := sky.Direction{X: -canopus.X, Y: -canopus.Y, Z: -canopus.Z}
	cases := []struct {
		name  string
		stars []plan.Centring
		says  string
	}{
		{"no star", nil, "one star leaves"},
		{"one star", centredAt(1, canopus), "one star leaves"},
		{"the same star twice", centredAt(1, canopus, canopus), "same star twice"},
		{"two stars that the camera shows as one", centredAt(1, canopus, altaz(40+0.5/60, 120)), "same star twice"},
		{"opposite stars", centredAt(1, canopus, opposite), "opposite"},
		{"the same and the opposite", centredAt(1, canopus, canopus, opposite), "opposite"},
		{"no error at all", centredAt(0, canopus, altaz(50, 10)), "above 0"},
		{"an error that is no number", centredAt(math.NaN(), canopus, altaz(50, 10)), "above 0"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := plan.AttitudeCovariance(c.stars...)
			require.ErrorContains(t, err, c.says)
			assert.Regexp(t, "; (give|take) ", err.Error(), "it says what would be right")
		})
	}
	_, err := plan.AttitudeCovariance(centredAt(1, canopus, canopus, altaz(50, 10))...)
	require.NoError(t, err, "a third star elsewhere is enough")
}

// For stars 90° apart the eigenvalues of P/σ² are 1, 1 and ½, by hand: pointing at either star errs by
// √1.5 σ, and at the normal to both by √2 σ.
func TestStarsAtRightAngles(t *testing.T) {
	p, err := plan.AttitudeCovariance(centredAt(1, altaz(0, 0), altaz(0, 90))...)
	require.NoError(t, err)
	const rounding = 1e-12
	assert.InDelta(t, math.Sqrt(1.5), p.Pointing(altaz(0, 0)).Arcminutes(), rounding)
	assert.InDelta(t, 1, p.Roll(altaz(0, 0)).Arcminutes(), rounding)
	assert.InDelta(t, math.Sqrt(2), p.Pointing(altaz(90, 0)).Arcminutes(), rounding)
	assert.InDelta(t, math.Sqrt(0.5), p.Roll(altaz(90, 0)).Arcminutes(), rounding)
}

func anyDirection(t *rapid.T, name string) sky.Direction {
	z := rapid.Float64Range(-1, 1).Draw(t, name+" z")
	a := sky.Angle(rapid.Float64Range(0, 2*math.Pi).Draw(t, name+" azimuth"))
	r := math.Sqrt(1 - z*z)
	return sky.Direction{X: r * a.Sin(), Y: r * a.Cos(), Z: z}
}

func TestCovarianceProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u, v, target := anyDirection(t, "first"), anyDirection(t, "second"), anyDirection(t, "target")
		if s := u.Separation(v); s < sky.Degree || s > 179*sky.Degree {
			t.Skip("nearly undetermined: rounding rules")
		}
		su, sv := rapid.Float64Range(0.1, 10).Draw(t, "σ₁"), rapid.Float64Range(0.1, 10).Draw(t, "σ₂")
		first, second := centredAt(su, u)[0], centredAt(sv, v)[0]
		p, err := plan.AttitudeCovariance(first, second)
		require.NoError(t, err)
		point, roll := p.Pointing(target).Arcminutes(), p.Roll(target).Arcminutes()
		require.False(t, math.IsNaN(point) || math.IsNaN(roll))

		swapped, err := plan.AttitudeCovariance(second, first)
		require.NoError(t, err)
		require.InEpsilon(t, point, swapped.Pointing(target).Arcminutes(), 1e-9, "the order does not matter")

		k := rapid.Float64Range(0.1, 10).Draw(t, "scale")
		scaled, err := plan.AttitudeCovariance(plan.Centring{Direction: u, Error: sky.Angle(k) * first.Error}, plan.Centring{Direction: v, Error: sky.Angle(k) * second.Error})
		require.NoError(t, err)
		require.InEpsilon(t, k*point, scaled.Pointing(target).Arcminutes(), 1e-9, "errors scale with σ")
		require.InEpsilon(t, k*roll, scaled.Roll(target).Arcminutes(), 1e-6, "errors scale with σ") // a roll near 0 cancels

		mirrored := sky.Direction{X: -target.X, Y: -target.Y, Z: -target.Z}
		require.InEpsilon(t, point, p.Pointing(mirrored).Arcminutes(), 1e-9, "the far side of the sky errs alike")

		third, err := plan.AttitudeCovariance(first, second, centredAt(su, anyDirection(t, "third"))[0])
		require.NoError(t, err)
		require.LessOrEqual(t, third.Pointing(target).Arcminutes(), point*(1+1e-9), "a third star can only help")
		require.GreaterOrEqual(t, point, math.Min(su, sv)*(1-1e-9), "no better than two stars at the target: σ/√2 in each of two axes")
	})
}

func TestCentringErrorGrowsTowardsTheHorizon(t *testing.T) {
	// A tenth of the refraction that Meeus's eq. 16.4 gives: 2.7′ at 20°, 0′ at the zenith.
	assert.InDelta(t, math.Hypot(1, 0.1*2.7), plan.CentringError(sky.Arcminute, 20*sky.Degree).Arcminutes(), 0.005)
	assert.InDelta(t, 1, plan.CentringError(sky.Arcminute, 90*sky.Degree).Arcminutes(), 1e-6)
	for alt := 0; alt < 90; alt += 5 {
		low, high := plan.CentringError(sky.Arcminute, sky.Angle(alt)*sky.Degree), plan.CentringError(sky.Arcminute, sky.Angle(alt+5)*sky.Degree)
		assert.Greater(t, low, high, "from %d°", alt)
	}
}

func BenchmarkCovarianceOfOnePair(b *testing.B) {
	first, second, target := centredAt(1, altaz(40, 120))[0], centredAt(1, altaz(50, 10))[0], altaz(60, 60)
	b.ReportAllocs()
	for b.Loop() {
		p, _ := plan.AttitudeCovariance(first, second)
		_ = p.Pointing(target)
	}
}
