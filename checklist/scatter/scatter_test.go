package scatter_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"duskhand/checklist/scatter"
)

func TestMedian(t *testing.T) {
	values := []float64{3, -1, 7, 2}
	assert.Equal(t, 2.5, scatter.Median(values))
	assert.Equal(t, []float64{3, -1, 7, 2}, values, "left in their order")
	assert.Equal(t, 3.0, scatter.Median([]float64{9, 3, -4}))
	assert.Zero(t, scatter.Median(nil))
}

// The first of Anscombe's data sets: slope 0.500, its standard error 0.118 (F. J. Anscombe, The American
// Statistician 27 (1973) 17, table, from memory).
func TestLineOfAnscombe(t *testing.T) {
	xs := []float64{10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5}
	ys := []float64{8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82, 5.68}
	slope, sigma := scatter.Line(xs, ys)
	assert.InDelta(t, 0.500, slope, 0.0005)
	assert.InDelta(t, 0.118, sigma, 0.0005)
}

// The stated error is that by which slopes really differ.
func TestTheErrorOfASlopeIsTrue(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	pulls, n := 0.0, 2000
	for range n {
		var xs, ys []float64
		for i := range 12 {
			x := float64(i) + r.Float64()
			xs, ys = append(xs, x), append(ys, 3-0.7*x+0.4*r.NormFloat64())
		}
		slope, sigma := scatter.Line(xs, ys)
		pulls += math.Pow((slope+0.7)/sigma, 2)
	}
	assert.InDelta(t, 10.0/8, pulls/float64(n), 0.12, "the variance of Student's t of ten degrees of freedom")
}
