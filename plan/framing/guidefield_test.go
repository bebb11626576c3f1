package framing_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
)

func exampleLight(t *testing.T) framing.GuideLight {
	light, ok := framing.DefaultGuideLight(kit.Example())
	require.True(t, ok)
	return light
}

func TestFaintestGuideStarByHand(t *testing.T) {
	// 50 mm: 19.635 cm². 1000 × 19.635 × 3000 × 0.35 × 2 s = 4.1233e7 e for V = 0. Sky of 19: 2.5119e-8 of it ×
	// 3.8675² = 15.49 e a pixel. Pixels: π (4/3.8675)² = 3.36, so 9. Noise²: 9 × (15.49 + 25) = 364.4.
	// Needed: 200 × (1 + √(1 + 4 × 364.4/400)) = 631.2 e; −2.5 log (631.2/4.1233e7) = 12.04.
	assert.InDelta(t, 12.04, exampleLight(t).FaintestMag(), 0.005)
}

// The equation that the magnitude solves, put back.
func TestFaintestStarHasTheSignalToNoise(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		g := framing.GuideLight{
			ApertureMM: draw("aperture", 20, 300), PerPixel: sky.Angle(draw("pixel", 0.5, 10)) * sky.Arcsecond,
			Exposure: time.Duration(draw("exposure", 0.1, 10) * float64(time.Second)), Throughput: draw("throughput", 0.1, 0.8),
			BandAngstrom: draw("band", 500, 5000), StarWidth: sky.Angle(draw("width", 1, 10)) * sky.Arcsecond,
			SkyMagPerArcsec2: draw("sky", 16, 22), ReadNoise: draw("noise", 0, 20), SignalToNoise: draw("snr", 3, 100),
		}
		flux := 1000 * math.Pi * math.Pow(g.ApertureMM/20, 2) * g.BandAngstrom * g.Throughput * g.Exposure.Seconds()
		electrons := func(mag float64) float64 { return flux * math.Pow(10, -0.4*mag) }
		px := g.PerPixel.Arcseconds()
		n := math.Max(9, math.Pi*math.Pow(g.StarWidth.Arcseconds()/px, 2))
		star, background := electrons(g.FaintestMag()), electrons(g.SkyMagPerArcsec2)*px*px
		require.InEpsilon(t, g.SignalToNoise, star/math.Sqrt(star+n*(background+g.ReadNoise*g.ReadNoise)), 1e-9)
	})
}

func TestMoreLightShowsFainterStars(t *testing.T) {
	base := exampleLight(t)
	for name, change := range map[string]func(*framing.GuideLight){
		"a larger aperture": func(g *framing.GuideLight) { g.ApertureMM *= 2 },
		"a longer exposure": func(g *framing.GuideLight) { g.Exposure *= 2 },
		"a darker sky":      func(g *framing.GuideLight) { g.SkyMagPerArcsec2++ },
		"less read noise":   func(g *framing.GuideLight) { g.ReadNoise /= 2 },
		"less asked for":    func(g *framing.GuideLight) { g.SignalToNoise /= 2 },
	} {
		better := base
		change(&better)
		assert.Greater(t, better.FaintestMag(), base.FaintestMag(), name)
	}
	k := kit.Example()
	k.Optics.GuideFocalLengthMM = 0
	_, ok := framing.DefaultGuideLight(k)
	assert.False(t, ok)
}

func exampleMain(angle sky.Angle) (kit.Kit, framing.Chip) {
	k := kit.Example()
	return k, framing.NewChip(framing.MainSensor(k), k.Targets[0].Star.Place, angle)
}

func TestGuideStarsOfAField(t *testing.T) {
	k, main := exampleMain(0)
	k.Guide.Offset = &kit.ChipOffset{Right: 1 * sky.Degree}
	guide, ok := framing.GuideChip(k, main) // 1.37° × 1.03°
	require.True(t, ok)
	at := func(right, up, mag float64) framing.FieldStar {
		perPixel := guide.PerPixel.Degrees()
		return framing.FieldStar{Place: guide.Sky(framing.Pixel{X: right / perPixel, Y: up / perPixel}), Mag: mag}
	}
	stars := []framing.FieldStar{at(0.1, 0.1, 9), at(-0.3, 0.2, 7), at(0, 0, 12.5), at(0.65, 0, 5), at(0, 0.6, 3)}
	seen := guide.Seen(stars, 12)
	// 12.5 is too faint; 0.65° is on the chip and within 5 % of its edge; 0.6° is above it.
	require.Len(t, seen, 2)
	assert.Equal(t, []float64{7, 9}, []float64{seen[0].Mag, seen[1].Mag}, "brightest first")
	assert.True(t, guide.Contains(stars[3].Place))

	_, turned := exampleMain(180 * sky.Degree)
	other, _ := framing.GuideChip(k, turned)
	assert.Empty(t, other.Seen(stars, 12), "after half a turn the guide scope looks at the other side")
}

// One bright star due east of the main field: with north up the guide scope must look to the left for it.
func TestDirectionsWithoutAGuideStar(t *testing.T) {
	for _, mirrored := range []bool{false, true} {
		k, main := exampleMain(0)
		main.Mirrored = mirrored
		place := framing.NewTangentPlane(main.Centre()).Sky(framing.PlanePoint{East: 2 * sky.Degree})
		found := framing.GuideDirections(k, main, 2*sky.Degree, 72, []framing.FieldStar{{Place: place, Mag: 8}}, 10)
		require.Len(t, found, 72)
		for _, d := range found {
			off := (d.Direction - 90*sky.Degree).Signed().Abs().Degrees()
			switch { // the inner chip is ± 0.62° by ± 0.46°, at 2° from the middle: ± 13° above and below
			case off < 12:
				assert.Equal(t, 1, d.Stars, "towards %v", d.Direction)
				assert.Equal(t, 8.0, d.Brightest)
			case off > 15:
				assert.Zero(t, d.Stars, "towards %v", d.Direction)
			}
		}
		arcs := framing.WithoutStar(found)
		require.Len(t, arcs, 1)
		assert.InDelta(t, 105, arcs[0].From.Degrees(), 5.001)
		assert.InDelta(t, 75, arcs[0].To.Degrees(), 5.001)
		faint := framing.GuideDirections(k, main, 2*sky.Degree, 72, []framing.FieldStar{{Place: place, Mag: 11}}, 10)
		assert.Equal(t, []framing.Arc{{}}, framing.WithoutStar(faint), "too faint: none all the way round")
	}
	k, main := exampleMain(0)
	k.Guide.Width = 0
	assert.Nil(t, framing.GuideDirections(k, main, sky.Degree, 8, nil, 10))
}

func TestArcsWithoutStar(t *testing.T) {
	of := func(counts ...int) (found []framing.GuideDirection) {
		for i, n := range counts {
			found = append(found, framing.GuideDirection{Direction: sky.Turn * sky.Angle(i) / sky.Angle(len(counts)), Stars: n})
		}
		return found
	}
	arc := func(from, to float64) framing.Arc {
		return framing.Arc{From: sky.Angle(from) * sky.Degree, To: sky.Angle(to) * sky.Degree}
	}
	tests := []struct {
		name  string
		found []framing.GuideDirection
		want  []framing.Arc
	}{
		{"a star everywhere", of(1, 2, 1, 1), nil},
		{"none anywhere", of(0, 0, 0, 0), []framing.Arc{{}}},
		{"no directions", nil, nil},
		{"one gap", of(1, 0, 0, 1), []framing.Arc{arc(90, 180)}},
		{"a gap across 0°", of(0, 1, 1, 0), []framing.Arc{arc(270, 0)}},
		{"two gaps", of(0, 1, 0, 1), []framing.Arc{arc(0, 0), arc(180, 180)}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got := framing.WithoutStar(test.found)
			require.Len(t, got, len(test.want))
			for i := range got {
				assert.InDelta(t, test.want[i].From.Degrees(), got[i].From.Degrees(), 1e-9)
				assert.InDelta(t, test.want[i].To.Degrees(), got[i].To.Degrees(), 1e-9)
			}
		})
	}
}

func BenchmarkGuideDirections(b *testing.B) {
	k, main := exampleMain(0)
	var stars []framing.FieldStar
	for i := range 500 {
		p := framing.Pixel{X: float64(i%25-12) * 300, Y: float64(i/25-10) * 300}
		stars = append(stars, framing.FieldStar{Place: main.Sky(p), Mag: 10})
	}
	for b.Loop() {
		framing.GuideDirections(k, main, sky.Degree, 72, stars, 12)
	}
}
