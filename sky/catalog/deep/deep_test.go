package deep_test

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/sky"
	"duskhand/sky/catalog"
	"duskhand/sky/catalog/deep"
)

const allMagnitudes = 99

func at(raDeg, decDeg float64) sky.J2000 {
	return sky.J2000{RA: sky.Angle(raDeg) * sky.Degree, Dec: sky.Angle(decDeg) * sky.Degree}
}

func wholeSky() []deep.Star { return deep.Near(at(0, 0), 180*sky.Degree, allMagnitudes) }

// Hipparcos's stars to V 6.5, at J2000.0 as the layer is: Tycho-2's own places, but for the 426 that the
// layer has from the same table. 0.13″ is what rounding to 0.0001° does.
func TestPlacesAgreeWithHipparcos(t *testing.T) {
	var apart, fainter []float64
	without := 0
	for _, s := range catalog.Stars(catalog.FaintestStar) {
		found := deep.Near(s.Star.Place, 5*sky.Arcsecond, allMagnitudes)
		if len(found) == 0 {
			without++
			continue
		}
		apart = append(apart, found[0].Place.Direction().Separation(s.Star.Place.Direction()).Arcseconds())
		fainter = append(fainter, found[0].Magnitude-s.Magnitude.Value)
	}
	slices.Sort(apart)
	slices.Sort(fainter)
	n := len(apart)
	t.Logf("%d stars: apart median %.3f″, 99th of a hundred %.2f″, largest %.2f″; over 1″ %d; VT − V median %.3f, 5 to 95 of a hundred %.2f to %.2f, largest %.2f",
		n, apart[n/2], apart[n*99/100], apart[n-1], n-countBelow(apart, 1), fainter[n/2], fainter[n/20], fainter[n*19/20], fainter[n-1])
	assert.Zero(t, without, "stars of sky/catalog that the layer lacks")
	assert.Less(t, apart[n/2], 0.15, "median")              // rounding of stars.csv
	assert.Less(t, apart[n*99/100], 1.0, "99 of a hundred") // pairs, where the two measure other points
	assert.Less(t, n-countBelow(apart, 1), 60, "stars more than 1″ off")
	// V = VT − 0.090 (BT − VT) (ESA 1997, vol. 1, eq. 1.3.20); BT − VT is about 0.8 for the median bright star.
	assert.InDelta(t, 0.07, fainter[n/2], 0.02, "median of VT − V")
	// The generator takes pairs within 0.5 of the whole light; an equal pair's stars are 0.75 fainter than it.
	assert.LessOrEqual(t, fainter[n-1], 1.3, "no star of much less light")
}

func countBelow(sorted []float64, limit float64) int {
	n, _ := slices.BinarySearch(sorted, limit)
	return n
}

// The brightest, of which Tycho-2's supplement gives the place of 1991.25, stand once and at J2000.0.
func TestFastBrightStarsStandOnceAndAtTheirEpoch(t *testing.T) {
	for _, c := range []struct {
		name  string
		stars int // to VT 2, within 90″
	}{{"Sirius", 1}, {"Arcturus", 1}, {"Procyon", 1}, {"Altair", 1}, {"α Cen", 2}, {"Vega", 1}, {"Canopus", 1}} {
		o, err := catalog.Find(c.name)
		require.NoError(t, err)
		found := deep.Near(o.Star.Place, 90*sky.Arcsecond, 2)
		require.Len(t, found, c.stars, c.name)
		off := found[0].Place.Direction().Separation(o.Star.Place.Direction())
		assert.Less(t, off.Arcseconds(), 0.5, c.name) // two sources' rounding
	}
}

func TestHowManyStarsThereAre(t *testing.T) {
	all := wholeSky()
	assert.Len(t, all, 426217, "as gen/pack.py counts them: ten per cell make 363,000, and the rest to VT 10")
	assert.True(t, slices.IsSortedFunc(all, func(a, b deep.Star) int { return cmp.Compare(a.Magnitude, b.Magnitude) }), "brightest first")
	n := slices.IndexFunc(all, func(s deep.Star) bool { return s.Magnitude > 10 })
	// The finest index file has 326,478 to VT 10.000; here 10.0 is anything to 10.025, some 3,500 more, and
	// 326 come from sky/catalog.
	assert.InDelta(t, 330300, n, 1000, "to VT 10")
}

// Circles as large as the chips: 400 mm with 23.5 × 15.7 mm, 800 mm with 17.7 × 13.4 mm. Ten stars per
// cell of 1.136 square degrees, without the further ones to VT 10, would give 66 and 10.
func TestAFieldHasStars(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for _, f := range []struct {
		name                             string
		focalMM, widthMM, heightMM, mean float64
		fewest                           int
	}{
		{"400 mm", 400, 23.5, 15.7, 66, 40},
		{"800 mm", 800, 17.7, 13.4, 10, 2},
	} {
		area := 4 * math.Atan(f.widthMM/2/f.focalMM) * math.Atan(f.heightMM/2/f.focalMM) // sr, near enough
		radius := sky.Angle(math.Sqrt(area / math.Pi))
		const fields = 1000
		total, fewest, poorest := 0, math.MaxInt, math.Inf(1)
		for range fields {
			centre := at(360*random.Float64(), math.Asin(2*random.Float64()-1)*180/math.Pi)
			limit := deep.Limits(centre, radius)
			total, fewest, poorest = total+limit.Stars, min(fewest, limit.Stars), min(poorest, limit.CompleteTo)
		}
		mean := float64(total) / fields
		t.Logf("%s: mean %.1f, fewest %d, least complete to %.2f", f.name, mean, fewest, poorest)
		assert.GreaterOrEqual(t, mean, f.mean, f.name)
		assert.Less(t, mean, 1.5*f.mean, f.name)
		assert.GreaterOrEqual(t, fewest, f.fewest, f.name)
	}
}

// Near against a scan of all stars, at the poles, across 0 h and anywhere, of all sizes.
func TestNearAgreesWithAScan(t *testing.T) {
	all, found := wholeSky(), 0
	directions := make([]sky.Direction, len(all)) // once, for a hundred scans
	for i, s := range all {
		directions[i] = s.Place.Direction()
	}
	rapid.Check(t, func(t *rapid.T) {
		ra := rapid.OneOf(evenly(0, 360), evenly(-2, 2), rapid.SampledFrom([]float64{0, 90, 360})).Draw(t, "RA, degrees")
		dec := rapid.OneOf(evenly(-90, 90), evenly(88, 90), evenly(-90, -88),
			rapid.SampledFrom([]float64{-90, 0, 41.81, -41.81, 90})).Draw(t, "Dec, degrees")
		radius := rapid.OneOf(evenly(0, 5), evenly(0, 30), evenly(0, 180)).Draw(t, "radius, degrees")
		faintest := evenly(4, 12).Draw(t, "faintest")
		centre, limit := at(ra, dec).Direction(), sky.Angle(radius)*sky.Degree
		const rim = 1e-9 // rad: rounding decides within it
		want := map[deep.Star]bool{}
		for i, s := range all {
			if s.Magnitude <= faintest && centre.Separation(directions[i]) < limit-rim {
				want[s] = true
			}
		}
		got := deep.Near(at(ra, dec), limit, faintest)
		for i, s := range got {
			if centre.Separation(s.Place.Direction()) > limit+rim || s.Magnitude > faintest {
				t.Fatalf("%+v is beyond %v or fainter than %v", s, limit, faintest)
			}
			if i > 0 && got[i-1].Magnitude > s.Magnitude {
				t.Fatalf("%+v is out of order", s)
			}
			delete(want, s)
		}
		found += len(got)
		require.Empty(t, want, "missed")
	})
	require.Greater(t, found, 100, "stars compared: the draws must not all be empty")
}

// A circle about a pole is the same whatever right ascension its centre is given.
func TestAtAPoleTheRightAscensionOfTheCentreMeansNothing(t *testing.T) {
	for _, pole := range []float64{-90, 90} {
		want := len(deep.Near(at(0, pole), 30*sky.Degree, 5))
		require.Greater(t, want, 50)
		for _, share := range thousandths() {
			require.Len(t, deep.Near(at(360*share, pole), 30*sky.Degree, 5), want, "RA %.2f°", 360*share)
		}
	}
}

// evenly draws numbers spread evenly over a range; rapid's own prefer those near zero.
func evenly(from, to float64) *rapid.Generator[float64] {
	return rapid.Map(rapid.SampledFrom(thousandths()), func(k float64) float64 { return from + k*(to-from) })
}

func thousandths() []float64 {
	list := make([]float64, 1001)
	for i := range list {
		list[i] = float64(i) / 1000
	}
	return list
}

func TestNoInputPanics(t *testing.T) {
	odd := []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1e300, 1e300, -1, 0, 5e-324, math.Pi / 2, math.Pi, 7}
	for _, ra := range odd {
		for _, dec := range odd {
			for _, radius := range []float64{math.NaN(), math.Inf(-1), -1, 0, 5e-324, 0.01, 3} {
				for _, faintest := range []float64{math.NaN(), math.Inf(-1), 4} {
					deep.Near(sky.J2000{RA: sky.Angle(ra), Dec: sky.Angle(dec)}, sky.Angle(radius), faintest)
				}
			}
			deep.Limits(sky.J2000{RA: sky.Angle(ra), Dec: sky.Angle(dec)}, 0.01)
		}
	}
	assert.Nil(t, deep.Near(at(math.NaN(), 0), sky.Degree, 5))
	assert.Nil(t, deep.Near(at(0, 0), -sky.Degree, 5))
	assert.Zero(t, deep.Limits(at(math.NaN(), 0), sky.Degree))
	assert.Nil(t, deep.Near(at(0, 0), 180*sky.Degree, math.NaN()))
	assert.Equal(t, deep.Near(at(10, 60), sky.Degree, 8), deep.Near(at(370, 60), sky.Degree, 8), "RA needs no range")
	assert.Len(t, deep.Near(at(0, 0), sky.Angle(math.Inf(1)), 3), len(deep.Near(at(0, 0), 180*sky.Degree, 3)))
}

func BenchmarkNearThreeDegreeField(b *testing.B)  { benchmarkNear(b, 1.5*sky.Degree) }
func BenchmarkNearThreeDegreeRadius(b *testing.B) { benchmarkNear(b, 3*sky.Degree) }

func benchmarkNear(b *testing.B, radius sky.Angle) {
	b.ReportAllocs()
	for b.Loop() {
		deep.Near(at(83.8, -5.4), radius, allMagnitudes)
	}
}

func BenchmarkLimitsThreeDegreeField(b *testing.B) {
	for b.Loop() {
		deep.Limits(at(83.8, -5.4), 1.5*sky.Degree)
	}
}

// The whole layer has every star for drawing once more, and fainter ones in their own order. Tycho-2 has 2.5
// million stars; the finest index keeps ten of each 0.142 square degrees.
func TestAllHasTheStarsForDrawingAndFainterOnes(t *testing.T) {
	all := deep.All(at(0, 0), 180*sky.Degree)
	require.Len(t, all, 1871340, "as gen/pack.py counts them")
	assert.True(t, slices.IsSortedFunc(all, func(a, b deep.Star) int { return cmp.Compare(a.Magnitude, b.Magnitude) }), "brightest first")
	assert.Less(t, all[len(all)-1].Magnitude, 15.2)
	missing := map[deep.Star]bool{} // of a quarter as many as the other way round
	for _, s := range wholeSky() {
		missing[s] = true
	}
	for _, s := range all {
		delete(missing, s)
	}
	require.Empty(t, missing, "drawn, and not among all")
	random := rand.New(rand.NewPCG(3, 4))
	var counts []int
	for range 400 { // circles as large as 0.67° × 0.45°
		centre := at(360*random.Float64(), math.Asin(2*random.Float64()-1)*180/math.Pi)
		counts = append(counts, len(deep.All(centre, 0.31*sky.Degree)))
	}
	slices.Sort(counts)
	t.Logf("0.3 square degrees: median %d, one in twenty has %d or fewer", counts[200], counts[20])
	assert.GreaterOrEqual(t, counts[200], 12)
	assert.GreaterOrEqual(t, counts[20], 4)
	assert.Empty(t, deep.All(at(0, 0), -1))
}
