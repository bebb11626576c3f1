package catalog_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/sky"
	"duskhand/sky/catalog"
)

// Counts of XHIP (Anderson & Francis 2012, VizieR V/137D) by V, as counted in d3-celestial 0.7.35.
func TestStarsByMagnitude(t *testing.T) {
	for _, c := range []struct {
		faintest float64
		want     int
	}{{2.5, 93}, {3.0, 177}, {3.5, 288}, {4, 519}, {6, 5044}, {6.5, 8874}, {-2, 0}, {99, 8874}} {
		assert.Len(t, catalog.Stars(c.faintest), c.want, "stars of V ≤ %v", c.faintest)
	}
}

func TestStarsAreSortedAndInRange(t *testing.T) {
	previous := math.Inf(-1)
	for _, s := range catalog.Stars(catalog.FaintestStar) {
		require.True(t, s.Magnitude.OK, s.ID)
		require.GreaterOrEqual(t, s.Magnitude.Value, previous, "%s is out of order", s.ID)
		previous = s.Magnitude.Value
		require.Equal(t, catalog.Star, s.Kind, s.ID)
		require.Equal(t, "star", s.Type, s.ID)
		require.Equal(t, s.Star.Place.RA.Wrapped(), s.Star.Place.RA, s.ID)
		require.LessOrEqual(t, s.Star.Place.Dec.Abs(), 90*sky.Degree, s.ID)
		// Of the stars to 6.5 none is faster than Groombridge 1830, 7.06″ a year.
		require.Less(t, math.Hypot(s.Star.Motion.RA.Arcseconds(), s.Star.Motion.Dec.Arcseconds()), 7.1, s.ID)
		require.Equal(t, catalog.Constellation(s.Star.Place), s.Constellation, s.ID)
		require.NotEmpty(t, s.Names, s.ID)
		require.Contains(t, s.Names, s.ID)
	}
}

func TestStarsAgreeWithHipparcos(t *testing.T) {
	for _, row := range table(t, "hipparcos.csv") {
		want := at(15*number(t, row["ra_hours"]), number(t, row["dec_deg"]))
		var best catalog.Object
		nearest := 180 * sky.Degree
		for _, s := range catalog.Stars(6) {
			if d := apart(s.Star.Place, want); d < nearest {
				best, nearest = s, d
			}
		}
		// Both places are Hipparcos's; ours are rounded to 0.0001° in RA and Dec, half of which
		// is 0.25″ along the diagonal. The list knows α Cen as one star.
		assert.Less(t, nearest.Arcseconds(), 0.26, "%s: nearest is %s", row["name"], best.Name())
		assert.InDelta(t, number(t, row["v_mag"]), best.Magnitude.Value, 0.011, "V of %s", row["name"]) // last digit
	}
}

func TestProperMotions(t *testing.T) {
	for _, c := range []struct {
		name          string
		raMas, decMas float64
		within        float64 // mas/yr
	}{
		// Hipparcos, the new reduction (van Leeuwen 2007), from memory, to the digits given.
		{"Arcturus", -1093.4, -2000.1, 1},
		{"Sirius", -546.0, -1223.1, 1},
		{"Procyon", -714.6, -1036.8, 3}, // a double: solutions differ by its orbit
		{"α Cen", -3679.3, 473.7, 1},
		{"Toliman", -3614.4, 803.0, 1},
		{"β Hyi", 2219.5, 324.1, 2},
		{"τ Cet", -1721.1, 854.2, 2},
		{"η Ori", -0.7, -3.5, 1},
		{"61 Cyg", 4164, 3250, 30}, // a double of 700 years: solutions differ by its orbit
		{"ε Ind", 3961, -2539, 3},
		{"HIP 57939", 4003, -5813, 5}, // Groombridge 1830
	} {
		o, err := catalog.Find(c.name)
		require.NoError(t, err)
		assert.InDelta(t, c.raMas, float64(o.Star.Motion.RA/sky.MilliarcsecondPerYear), c.within, "RA motion of %s", c.name)
		assert.InDelta(t, c.decMas, float64(o.Star.Motion.Dec/sky.MilliarcsecondPerYear), c.within, "Dec motion of %s", c.name)
	}
}

func TestAlignmentStarsHaveProperMotions(t *testing.T) {
	for _, s := range catalog.Stars(3) {
		assert.NotZero(t, s.Star.Motion, s.Name())
	}
}

func TestBayer(t *testing.T) {
	for name, want := range map[string]string{
		"Sirius": "α CMa", "Acrab": "β¹ Sco", "Tabit": "π³ Ori", "Fuyue": "G Sco", "Beemim": "υ³ Eri",
		"61 Cyg": "", "HIP 57939": "", "M 42": "",
	} {
		o, err := catalog.Find(name)
		require.NoError(t, err)
		assert.Equal(t, want, o.Bayer(), name)
	}
}
