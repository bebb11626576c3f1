package plan_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan"
	"duskhand/sky"
)

// All rows of overlap.csv (shapely 1.8.5 on GEOS 3.11.1).
func TestOverlapAgreesWithTheTable(t *testing.T) {
	const tolerance = 1e-6 // of a frame; the table's README says so, its digits go to 1e-8
	rectangles := 0
	for _, r := range reference(t, "overlap.csv") {
		width, height := r.degrees(t, "width_deg"), r.degrees(t, "height_deg")
		var angles []sky.Angle
		for _, text := range strings.Split(r["pas_deg"], ";") {
			pa, err := strconv.ParseFloat(text, 64)
			require.NoError(t, err)
			angles = append(angles, sky.Angle(pa)*sky.Degree)
		}
		common := plan.Overlap(width, height, angles)
		assert.InDelta(t, r.number(t, "area_frac"), common.Share, tolerance, "row %s, share", r["id"])
		if r["rect_frac"] == "" {
			continue
		}
		rectangles++
		assert.InDelta(t, r.number(t, "rect_frac"), common.CropShare, tolerance, "row %s, crop", r["id"])
		assert.InDelta(t, float64(common.CropWidth*common.CropHeight), common.CropShare*float64(width*height), 1e-15, "row %s", r["id"])
	}
	assert.Greater(t, rectangles, 100)
}

func TestOverlapOfTurnsThatAreKnownByHand(t *testing.T) {
	deg := func(values ...float64) (angles []sky.Angle) {
		for _, v := range values {
			angles = append(angles, sky.Angle(v)*sky.Degree)
		}
		return angles
	}
	tests := []struct {
		name          string
		width, height float64
		angles        []sky.Angle
		share, crop   float64
	}{
		{"one frame", 3, 2, deg(77), 1, 1},
		{"no frame", 3, 2, nil, 0, 0},
		{"a frame without height", 3, 0, deg(1), 0, 0},
		{"half a turn", 3, 2, deg(10, 190, -170), 1, 1},
		{"a quarter turn of a square chip", 2, 2, deg(0, 90, 180, 270), 1, 1},
		{"a quarter turn of 3:2", 3, 2, deg(0, 90), 2.0 / 3, 2.0 / 3}, // the square of the shorter side
		// A square with its corners cut: 2(√2−1) of it, the regular octagon in a square.
		{"an eighth of a turn of a square", 2, 2, deg(0, 45), 2 * (math.Sqrt2 - 1), math.Pow(1/math.Sqrt2, 2)},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			common := plan.Overlap(sky.Angle(test.width)*sky.Degree, sky.Angle(test.height)*sky.Degree, test.angles)
			assert.InDelta(t, test.share, common.Share, 1e-12) // rounding
			assert.InDelta(t, test.crop, common.CropShare, 1e-12)
		})
	}
}

// A frame turned through east by 10° has its right side leaning up by 10°, as a picture of the sky with north
// up has east on the left. An outline turned the other way would stick out of it.
func TestOutlineIsInTheAxesOfTheFirstFrame(t *testing.T) {
	common := plan.Overlap(2, 1, []sky.Angle{0, 10 * sky.Degree})
	turnedRight := func(p plan.FieldPoint) sky.Angle { // along the second frame's right, which leans up by 10°
		a := 10 * sky.Degree
		return p.Right*sky.Angle(a.Cos()) + p.Up*sky.Angle(a.Sin())
	}
	require.NotEmpty(t, common.Outline)
	for _, p := range common.Outline {
		assert.LessOrEqual(t, float64(p.Right.Abs()), 1+1e-12)
		assert.LessOrEqual(t, float64(p.Up.Abs()), 0.5+1e-12)
		assert.LessOrEqual(t, float64(turnedRight(p).Abs()), 1+1e-12)
	}
}

// frames draws a frame and camera angles, some of them alike or half a turn apart.
func frames(t *rapid.T) (width, height sky.Angle, angles []sky.Angle) {
	width = sky.Angle(rapid.Float64Range(0.01, 8).Draw(t, "width")) * sky.Degree
	height = width * sky.Angle(rapid.OneOf(rapid.Just(1.0), rapid.Float64Range(0.2, 5)).Draw(t, "ratio"))
	angle := rapid.OneOf(rapid.SampledFrom([]float64{0, 90, 180, -180, 45, 1e-9}), rapid.Float64Range(-720, 720))
	for _, a := range rapid.SliceOfN(angle, 1, 8).Draw(t, "angles") {
		angles = append(angles, sky.Angle(a)*sky.Degree)
	}
	return width, height, angles
}

const roundingOfShare = 1e-9 // a share is of order one, an angle of 720° is good to 1e-14

func TestOverlapDependsOnDifferencesOnly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width, height, angles := frames(t)
		turn := sky.Angle(rapid.Float64Range(-360, 360).Draw(t, "turn")) * sky.Degree
		var turned, mirrored []sky.Angle
		for _, a := range angles {
			turned, mirrored = append(turned, a+turn), append(mirrored, -a)
		}
		want := plan.Overlap(width, height, angles)
		for _, other := range [][]sky.Angle{turned, mirrored} {
			got := plan.Overlap(width, height, other)
			assert.InDelta(t, want.Share, got.Share, roundingOfShare)
			assert.InDelta(t, want.CropShare, got.CropShare, roundingOfShare)
		}
		swapped := plan.Overlap(height, width, angles)
		assert.InDelta(t, want.Share, swapped.Share, roundingOfShare)
		assert.InDelta(t, want.CropShare, swapped.CropShare, roundingOfShare)
	})
}

func TestOverlapFallsAsFramesAreAdded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width, height, angles := frames(t)
		before := plan.CommonField{Share: 1, CropShare: 1}
		for n := 1; n <= len(angles); n++ {
			common := plan.Overlap(width, height, angles[:n])
			assert.LessOrEqual(t, common.Share, before.Share+roundingOfShare)
			assert.LessOrEqual(t, common.CropShare, before.CropShare+roundingOfShare)
			assert.LessOrEqual(t, common.CropShare, common.Share+roundingOfShare)
			// The circle inside the frame is inside however it is turned.
			short, long := float64(min(width, height)), float64(max(width, height))
			assert.GreaterOrEqual(t, common.Share, math.Pi/4*short/long-roundingOfShare)
			before = common
		}
	})
}

func TestTheCropLiesInEveryFrame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width, height, angles := frames(t)
		common := plan.Overlap(width, height, angles)
		for _, angle := range angles {
			for _, side := range []sky.Angle{1, -1} {
				right, up := common.CropWidth/2, side*common.CropHeight/2
				turned := angle - angles[0]
				c, s := sky.Angle(turned.Cos()), sky.Angle(turned.Sin())
				assert.LessOrEqual(t, float64((c*right + s*up).Abs()), float64(width/2)*(1+roundingOfShare))
				assert.LessOrEqual(t, float64((c*up - s*right).Abs()), float64(height/2)*(1+roundingOfShare))
			}
		}
	})
}

func BenchmarkOverlapOfTenRuns(b *testing.B) {
	var angles []sky.Angle
	for i := range 10 {
		angles = append(angles, sky.Angle(i)*17*sky.Degree)
	}
	for b.Loop() {
		plan.Overlap(3*sky.Degree, 2*sky.Degree, angles)
	}
}
