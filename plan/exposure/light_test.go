package exposure_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan/exposure"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// exampleLight is 80 mm of aperture, 3.76 µm at 480 mm, 300 nm, 0.8 × 0.85.
func exampleLight(t require.TestingT) exposure.Light {
	k := kit.Example()
	light := exposure.LightOf(k, k.Subs.Filters[0])
	require.True(t, light.OK)
	return light.Value
}

func TestLightByHand(t *testing.T) {
	l := exampleLight(t)
	assert.InDelta(t, 50.2655, l.AreaCM2, 0.0001)               // π/4 × 8², to the last digit
	assert.InDelta(t, 1.61574, l.PerPixel.Arcseconds(), 0.0001) // 206264.8 × 0.00376 / 480
	// 1000 × 50.26548 cm² × 3000 Å × 0.68 = 1.025416e8 at magnitude 0
	assert.InDelta(t, 1.025416e8, l.StarElectronsPerS(0), 50)
	assert.InDelta(t, 1.025416e4, l.StarElectronsPerS(10), 0.005, "ten magnitudes are a factor of 10⁴, exactly")
	// × 10^(−0.4 × 21.6) = 2.290868e-9, × 1.615741² = 2.610619: 0.613258
	// 1000 × 3000 Å × 2.290868e-9 = 6.872604e-3 photons of it on each cm²
	assert.InDelta(t, 0.613258, l.PixelElectronsOf(6.872604e-3), 1e-6)
	assert.InDelta(t, 1/2.610619, l.PixelsPerArcsec2(), 1e-6)
}

func TestAnObstructionTakesItsArea(t *testing.T) {
	k := kit.Example()
	whole := exampleLight(t).AreaCM2
	k.Optics.ObstructionMM = 40 // half the diameter is a quarter of the area
	light := exposure.LightOf(k, k.Subs.Filters[0])
	assert.InDelta(t, 0.75*whole, light.Value.AreaCM2, 1e-9)
}

func TestLightNamesWhatTheKitDoesNotSay(t *testing.T) {
	k := kit.Example()
	k.Optics.Transmission, k.Camera.QuantumEfficiency = 0, 0
	light := exposure.LightOf(k, kit.Filter{Name: "S"})
	assert.False(t, light.OK)
	assert.Equal(t, []string{"optics.transmission", "camera.quantum_efficiency", "subs.filter.bandwidth_nm"}, light.Lacks)
}

func TestArrivingByTheAir(t *testing.T) {
	overhead, ok := exposure.Arriving(10, 0.2, 90*sky.Degree)
	require.True(t, ok)
	assert.InDelta(t, 10.2, overhead, 0.0002) // Kasten & Young's airmass overhead is 0.9997
	at30, ok := exposure.Arriving(10, 0.2, 30*sky.Degree)
	require.True(t, ok)
	assert.InDelta(t, 10.4, at30, 0.002) // 1/sin 30° = 2, less 0.3 % for the round Earth
	_, ok = exposure.Arriving(10, 0.2, -1*sky.Degree)
	assert.False(t, ok)
}

func TestShortestSubByHand(t *testing.T) {
	// 1.5² / ((1.05² − 1) × 0.613258) = 2.25 / (0.1025 × 0.613258) = 35.7944
	sub, ok := exposure.ShortestSub(1.5, 0.613258, 0.05)
	require.True(t, ok)
	assert.InDelta(t, 35.7944, sub.Seconds(), 0.0001)
	assert.InDelta(t, 0.05, exposure.ReadNoiseShare(1.5, 0.613258, sub), 1e-8, "the one turns round the other") // to the nanosecond
	// By noise alone: 100 electrons of sky have 10 of noise, and with 5 of read noise √125 = 11.1803.
	assert.InDelta(t, 0.118034, exposure.ReadNoiseShare(5, 10, 10*time.Second), 1e-6)
	_, ok = exposure.ShortestSub(10, 1e-9, 0.01)
	assert.False(t, ok, "a day is not enough")
	_, ok = exposure.ShortestSub(10, 0, 0.01)
	assert.False(t, ok, "nothing is lost in no sky")
}

func TestShortestSubHoldsToItsShare(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		readNoise := rapid.Float64Range(0.1, 20).Draw(t, "read noise, electrons")
		background := rapid.Float64Range(0.01, 100).Draw(t, "background, electrons per second")
		share := rapid.Float64Range(0.01, 1).Draw(t, "share")
		sub, ok := exposure.ShortestSub(readNoise, background, share)
		if !ok {
			return // longer than a day
		}
		if sub < time.Millisecond {
			return // nanoseconds round too coarsely
		}
		if got := exposure.ReadNoiseShare(readNoise, background, sub); math.Abs(got-share) > 1e-5 {
			t.Fatalf("read noise adds %v in the shortest sub, want %v", got, share)
		}
		darker, ok := exposure.ShortestSub(readNoise, background/2, share)
		if ok && darker <= sub {
			t.Fatalf("half the sky needs %v, all of it %v", darker, sub)
		}
	})
}
