package measure

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// The value at any index is the one that sorting puts there, with many equal ones too.
func TestTheNthIsThatOfTheSorted(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 1))
	for range 2000 {
		values := make([]float32, 1+r.IntN(40))
		for i := range values {
			values[i] = float32(r.IntN(1 + r.IntN(30)))
		}
		sorted := slices.Sorted(slices.Values(values))
		index := r.IntN(len(values))
		require.Equal(t, sorted[index], nth(slices.Clone(values), index), "%v, %d", values, index)
	}
}

// Bright pixels go down from the brightest, equal ones as they lie in the patch.
func TestBrightPixelsGoDown(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 2))
	p := newPatch()
	for at := range int32(3000) {
		p.filter[at] = float32(1+r.IntN(400)) * 0.37
		p.bright = append(p.bright, at)
	}
	p.sortBright()
	for i := 1; i < len(p.bright); i++ {
		a, b := p.bright[i-1], p.bright[i]
		require.True(t, p.filter[a] > p.filter[b] || p.filter[a] == p.filter[b] && a < b)
	}
}
