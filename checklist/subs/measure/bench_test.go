package measure_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs/measure"
)

// The bound: half of what source-extractor takes for such a frame, see testdata/README.md.
func BenchmarkMeasure26Megapixels(b *testing.B) {
	p := blank(6248, 4176, 1000)
	random := seeded(50)
	for range 4000 {
		p.draw(spot{
			x: 6247 * random.Float64(), y: 4175 * random.Float64(), hfd: 3.2,
			flux: 1000 * math.Pow(2000, random.Float64()*random.Float64()),
		})
	}
	p.expose(random)
	m := measure.New(2, measure.Kept)
	b.ReportAllocs()
	for b.Loop() {
		got, err := m.Frame(p)
		require.NoError(b, err)
		require.Greater(b, got.Count, 2000)
	}
}
