package measure_test

import (
	"math"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/checklist/subs/measure"
)

// wide is a frame of several tiles, with stars of all kinds.
func wide(seed uint64) *picture {
	p := blank(1700, 900, 1000)
	random := seeded(seed)
	for range 400 {
		p.draw(spot{
			x: 1699 * random.Float64(), y: 899 * random.Float64(), hfd: 3.4,
			flux: 1500 * math.Pow(1000, random.Float64()*random.Float64()),
		})
	}
	p.draw(spot{x: 767, y: 767, flux: 3e7, hfd: 5, beta: 3}) // at the corner of four tiles
	return p.expose(random)
}

func TestGoroutinesAndEarlierFramesMakeNoDifference(t *testing.T) {
	first, second := wide(40), wide(41)
	alone, err := measure.New(1, measure.Kept).Frame(first)
	require.NoError(t, err)
	require.Greater(t, alone.Count, 200)
	for _, goroutines := range []int{2, 3} {
		m := measure.New(goroutines, measure.Kept)
		for _, p := range []*picture{first, second, blank(64, 64, 7), first} {
			got, err := m.Frame(p)
			require.NoError(t, err)
			if p == first {
				require.Equal(t, alone, got, "%d goroutines", goroutines)
			}
		}
	}
}

func TestStarAtTheCornerOfFourTilesIsOne(t *testing.T) {
	got := frame(t, wide(40))
	at := 0
	for _, s := range got.Stars {
		if math.Hypot(s.X-767, s.Y-767) < 8 {
			at++
			assert.True(t, s.Saturated)
			assert.InDelta(t, 767, s.X, 0.3)
		}
	}
	assert.Equal(t, 1, at)
}

// What a frame leaves behind is its stars; the mesh is small.
func TestNightOfFramesDoesNotGrow(t *testing.T) {
	p, m := wide(42), measure.New(2, 100)
	var before, after runtime.MemStats
	_, err := m.Frame(p)
	require.NoError(t, err)
	runtime.GC()
	runtime.ReadMemStats(&before)
	for range 4 {
		_, err := m.Frame(p)
		require.NoError(t, err)
	}
	runtime.GC()
	runtime.ReadMemStats(&after)
	assert.Less(t, int64(after.HeapAlloc)-int64(before.HeapAlloc), int64(1e6))
	assert.Less(t, (after.TotalAlloc-before.TotalAlloc)/4, uint64(4e6), "a frame of 6 MB")
	runtime.KeepAlive(m)
}

func TestAnyPixelsAreMeasuredOrRefused(t *testing.T) {
	m := measure.New(2, 50)
	rapid.Check(t, func(t *rapid.T) {
		p := blank(rapid.IntRange(1, 150).Draw(t, "width"), rapid.IntRange(1, 150).Draw(t, "height"), 0)
		strange := rapid.SampledFrom([]float32{0, 1, -1, 65535, 3e38, -3e38, float32(math.Inf(1)), float32(math.NaN()), 1e-40})
		random := seeded(rapid.Uint64().Draw(t, "seed"))
		values := rapid.SliceOfN(strange, 1, 5).Draw(t, "values")
		block := rapid.IntRange(1, 40).Draw(t, "block")
		for i := range p.values {
			switch column := i % p.width / block; {
			case column%3 == 0:
				p.values[i] = values[random.IntN(len(values))]
			case column%3 == 1:
				p.values[i] = float32(1000 + 30*random.NormFloat64())
			default:
				p.values[i] = values[column%len(values)]
			}
		}
		got, err := m.Frame(p)
		if err != nil {
			return
		}
		for _, v := range []float64{got.Background, got.Noise, got.HFD, got.Elongation, got.Direction.Degrees()} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("%+v", got)
			}
		}
		for _, s := range got.Stars {
			if math.IsNaN(s.X+s.Y+s.Flux+s.HFD+s.Elongation+s.Peak+s.Noise) || s.Elongation < 1 || s.X < -1 || s.X > float64(p.width) {
				t.Fatalf("%+v", s)
			}
		}
	})
}
