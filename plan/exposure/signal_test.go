package exposure_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan/exposure"
)

func TestSignalToNoiseByHand(t *testing.T) {
	p := exposure.Pixel{ObjectEPerS: 1, SkyEPerS: 2, DarkEPerS: 0.5, ReadNoiseE: 4}
	// 100 s: 100 electrons of object; variance 350 + 16 = 366; 100/√366 = 5.22708
	assert.InDelta(t, 5.22708, p.SignalToNoise(1, 1, 100*time.Second), 0.00001)
	assert.InDelta(t, 4*5.22708, p.SignalToNoise(1, 16, 100*time.Second), 0.0001, "sixteen subs are four times better")
	assert.InDelta(t, 5.22708/2, p.SignalToNoise(0.25, 1, 100*time.Second), 0.0001, "a quarter of a pixel half as good")
	assert.Zero(t, p.SignalToNoise(1, 0, time.Minute))
	assert.Zero(t, p.SignalToNoise(1, 10, 0))
	assert.Zero(t, exposure.Pixel{}.SignalToNoise(1, 10, time.Minute))
}

// The equation against dice: the scatter of many simulated pixels.
func TestSignalToNoiseAgainstASimulation(t *testing.T) {
	const seed, frames = 7, 20000
	random := rand.New(rand.NewPCG(seed, seed))
	p := exposure.Pixel{ObjectEPerS: 3, SkyEPerS: 5, DarkEPerS: 1, ReadNoiseE: 8}
	const seconds = 10
	sum, sum2 := 0.0, 0.0
	for range frames {
		x := poisson(random, (3+5+1)*seconds) + 8*random.NormFloat64() - (5+1)*seconds
		sum, sum2 = sum+x, sum2+x*x
	}
	mean := sum / frames
	scatter := math.Sqrt(sum2/frames - mean*mean)
	assert.InEpsilon(t, mean/scatter, p.SignalToNoise(1, 1, seconds*time.Second), 0.02, "seed %d", seed) // 1/√20000 is 0.7 %, thrice that
}

// poisson is Knuth's way: multiply uniform numbers until they fall below e^−λ.
func poisson(random *rand.Rand, lambda float64) float64 {
	n, product := 0.0, random.Float64()
	for limit := math.Exp(-lambda); product > limit; product *= random.Float64() {
		n++
	}
	return n
}

func TestSubsForAWantedSignal(t *testing.T) {
	p := exposure.Pixel{ObjectEPerS: 1, SkyEPerS: 2, DarkEPerS: 0.5, ReadNoiseE: 4}
	n, ok := p.SubsFor(20, 1, 100*time.Second)
	require.True(t, ok)
	assert.Equal(t, 15, n) // (20/5.22708)² = 14.64
	_, ok = exposure.Pixel{SkyEPerS: 1}.SubsFor(20, 1, time.Minute)
	assert.False(t, ok, "nothing of nothing")
	_, ok = exposure.Pixel{ObjectEPerS: 1e-6, SkyEPerS: 1, ReadNoiseE: 1}.SubsFor(20, 1, time.Minute)
	assert.False(t, ok, "more than a million")
}

func TestSubsForIsTheFewestThatReachIt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := exposure.Pixel{
			ObjectEPerS: rapid.Float64Range(0.05, 10).Draw(t, "object"), SkyEPerS: rapid.Float64Range(0, 10).Draw(t, "sky"),
			DarkEPerS: rapid.Float64Range(0, 1).Draw(t, "dark"), ReadNoiseE: rapid.Float64Range(0.1, 10).Draw(t, "read noise"),
		}
		wanted := rapid.Float64Range(1, 100).Draw(t, "wanted")
		sub := time.Duration(rapid.IntRange(1, 600).Draw(t, "seconds")) * time.Second
		n, ok := p.SubsFor(wanted, 1, sub)
		if !ok {
			return // more than a million
		}
		if got := p.SignalToNoise(1, n, sub); got < wanted*(1-1e-6) {
			t.Fatalf("%d subs give %v, want %v", n, got, wanted)
		}
		if n > 1 && p.SignalToNoise(1, n-1, sub) >= wanted {
			t.Fatalf("%d subs are enough too", n-1)
		}
		// The same time in longer subs is read out less often and never worse.
		if p.SignalToNoise(1, 1, 2*sub) < p.SignalToNoise(1, 2, sub) {
			t.Fatalf("one sub of %v is worse than two of %v", 2*sub, sub)
		}
	})
}
