package choose_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/choose"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/catalog"
)

// sized is an object of a size on a spot that is up.
func sized(major, minor float64) kit.Target {
	o := catalog.Object{ID: "made up", MajorArcmin: catalog.Known{Value: major, OK: true}}
	if minor > 0 {
		o.MinorArcmin, o.PositionAngleDeg = catalog.Known{Value: minor, OK: true}, catalog.Known{Value: 30, OK: true}
	}
	return kit.Target{Name: "made up", Object: o, Star: sky.Star{Place: sky.J2000{RA: 84 * sky.Degree, Dec: -69 * sky.Degree}}}
}

// The example's chip of 6248 × 4176 pixels of 3.76 µm behind 480 mm covers 168.2′ × 112.5′ of the tangent
// plane: 206.265·p/f is 1.6157″ a pixel (the project's handbook, section 9).
func TestSizeAgainstTheField(t *testing.T) {
	for _, c := range []struct {
		name          string
		major, minor  float64 // arcmin
		fit           choose.Fit
		rows, columns int
		shown, share  float64
	}{
		{"a point beside it", 2, 0, choose.Tiny, 1, 1, 1, 0.4},                    // 112.5/30 = 3.7
		{"a small galaxy", 8, 3, choose.Small, 1, 1, 1, 0.8},                      // 112.5/10 = 11.2
		{"as large as the short side with room", 101, 0, choose.Fits, 1, 1, 1, 1}, // 0.9 · 112.5 = 101.2
		{"a long one, along the long side", 150, 60, choose.Fits, 1, 1, 1, 1},     // 0.9 · 168.2 = 151.4
		{"round and wider than the short side", 112, 0, choose.Larger, 2, 1, 1, 1},
		// A circle of 336′ against 168.2′ × 112.5′: nearly the whole field lies in it, 18 930 of 88 668 square
		// minutes of arc, 21.3 %. With room it takes 373.8′: 1 + 2 steps of 151.4′ and 1 + 3 of 101.2′.
		{"three fields wide", 336.4, 0, choose.Larger, 4, 3, 0.2130, 0.2130},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := rank(t, kit.Example(), moonlitDate, []kit.Target{sized(c.major, c.minor)}, choose.Wish{})[0]
			s := got.Size
			assert.Equal(t, c.fit, s.Fit)
			assert.Equal(t, c.rows*c.columns, s.Panels())
			assert.InDelta(t, c.shown, s.Shown, 0.001) // the last digit above
			assert.InDelta(t, c.share, got.Factors[choose.ByFraming].Share, 0.001)
			assert.InDelta(t, 168.25, s.Width.Arcminutes(), 0.1)
			assert.InDelta(t, 112.46, s.Height.Arcminutes(), 0.1)
			assert.True(t, got.Factors[choose.ByFraming].Told)
		})
	}
}

func TestAPortraitChipFitsTheSameObjects(t *testing.T) {
	k := kit.Example()
	k.Camera.Width, k.Camera.Height = k.Camera.Height, k.Camera.Width
	got := rank(t, k, moonlitDate, []kit.Target{sized(150, 60), sized(336.4, 0)}, choose.Wish{})
	for _, c := range got {
		assert.Contains(t, []choose.Fit{choose.Fits, choose.Larger}, c.Size.Fit)
		if c.Size.Fit == choose.Larger {
			assert.Equal(t, 12, c.Size.Panels())
		}
	}
}

func TestWhatIsMissingIsNamed(t *testing.T) {
	k := kit.Example()
	k.Optics.FocalLengthMM, k.Camera.Width = 0, 0
	got := rank(t, k, moonlitDate, choose.Targets(k), choose.Wish{})
	require.NotEmpty(t, got)
	for _, c := range got {
		require.Equal(t, choose.NotKnown, c.Size.Fit)
		require.Equal(t, []string{"optics.focal_length_mm", "camera.width_px"}, c.Size.Lacks[:2])
		require.Equal(t, 1.0, c.Factors[choose.ByFraming].Share, "unknown costs nothing")
	}
	assert.Positive(t, got[0].Worth, "times and runs are answered")
	noSize := kit.Target{Name: "a place", Star: sized(1, 0).Star}
	c := rank(t, kit.Example(), moonlitDate, []kit.Target{noSize}, choose.Wish{})[0]
	assert.Equal(t, choose.NotKnown, c.Size.Fit)
	assert.Empty(t, c.Size.Lacks)
	assert.Equal(t, 1, c.Size.Panels())
}

func TestWeightsAreOurs(t *testing.T) {
	k := kit.Example()
	tiny := []kit.Target{sized(2, 0)}
	assert.Equal(t, 0.1, rank(t, k, moonlitDate, tiny, choose.Wish{Weights: choose.Weights{Tiny: 0.1}})[0].Factors[choose.ByFraming].Share)
	assert.Equal(t, 1.0, rank(t, k, moonlitDate, tiny, choose.Wish{Weights: choose.Weights{Moonlight: -1}})[0].Factors[choose.ByMoon].Share)
	broad := rank(t, k, moonlitDate, tiny, choose.Wish{})[0].Factors[choose.ByMoon].Share
	narrow := rank(t, k, moonlitDate, tiny, choose.Wish{Weights: choose.Weights{Moonlight: 0.1}})[0].Factors[choose.ByMoon].Share
	assert.True(t, broad < narrow && narrow < 1)
}

// The slow version's moonlight by hand, from the paper's equations: full Moon (I* = 10^(−0.4·3.84) = 0.02911) at
// 30° altitude (X = 1.8898, 10^(−0.4·0.172·1.8898) = 0.74128), 60° from the zenith: f = 10^5.36·1.31 + 10^4.65 =
// 344 776; B = 344 776 · 0.02911 · 0.74128 · (1 − 10^(−0.0688)) = 1090 nL on 79 nL. An hour of something too faint to
// add noise of its own, through a slit at the middle of V, is then worth 79/1169.
func TestFullMoonByHand(t *testing.T) {
	zenith := sky.Horizontal{Altitude: 90 * sky.Degree}
	k := kit.Kit{Site: kit.Site{SkyMagPerArcsec2: 21.587, ExtinctionMagPerAirmass: 0.172, PressureHPa: 1010}}
	k.Subs.Filters = []kit.Filter{{Name: "slit", Kind: kit.Broad, CentreNM: 550, BandwidthNM: 0.1, Exposure: time.Minute, Count: 1}}
	faint := kit.Target{Object: catalog.Object{Type: "galaxy", Magnitude: catalog.Known{Value: 25, OK: true}, MajorArcmin: catalog.Known{Value: 10, OK: true}}}
	height, dark := worthOf(k, faint, zenith, sky.Moon{Horizontal: sky.Horizontal{Altitude: 30 * sky.Degree}, Illuminated: 1, DistanceKm: 384400}, 60*sky.Degree)
	assert.InDelta(t, 1, height, 1e-9)
	assert.InDelta(t, 79.0/1169, dark, 0.0005) // 79 nL is rounded from eq. 1 at V = 21.587
}
