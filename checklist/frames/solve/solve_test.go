package solve_test

import (
	"errors"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/frames/solve"
	"duskhand/sky"
	"duskhand/sky/catalog/deep"
)

// outcome is how many frames came out how.
type outcome struct {
	solved, wrong int
	why           map[solve.Kind]int
	angles        []float64 // errors, degrees
	sigmas        []float64 // errors in stated ones
	apart         []float64 // ″
	took          []time.Duration
	inLayer       []int
}

func run(t *testing.T, c camera, n int, seed uint64, of faults, prior func(r *rand.Rand, at truth) solve.Prior) outcome {
	t.Helper()
	r := rand.New(rand.NewPCG(seed, uint64(1000*c.field.Degrees())))
	out := outcome{why: map[solve.Kind]int{}}
	for range n {
		f, at := listOf(r, c, of)
		out.inLayer = append(out.inLayer, at.inLayer)
		from := time.Now()
		p, err := solve.Solve(f, prior(r, at), deep.All)
		out.took = append(out.took, time.Since(from))
		var refused *solve.Refusal
		if errors.As(err, &refused) {
			out.why[refused.Kind]++
			continue
		}
		require.NoError(t, err)
		out.solved++
		if at.wrong(p, c) {
			out.wrong++
			t.Logf("wrong: %+v for %+v", p, at)
			continue
		}
		out.angles = append(out.angles, at.turned(p).Degrees())
		out.sigmas = append(out.sigmas, float64(at.turned(p)/p.AngleError))
		out.apart = append(out.apart, at.apart(p).Arcseconds())
	}
	slices.Sort(out.angles)
	slices.Sort(out.sigmas)
	slices.Sort(out.apart)
	slices.Sort(out.took)
	slices.Sort(out.inLayer)
	t.Logf("%.2f°: %d of %d solved, %d wrong, %v; layer's stars %d (%d); angle %.4f (%.4f)°, in its σ %.1f (%.1f); middle %.2f (%.2f)″; %v (%v, worst %v)", c.field.Degrees(),
		out.solved, n, out.wrong, out.why, out.inLayer[n/2], out.inLayer[n/20], at(out.angles, 0.5), at(out.angles, 0.95), at(out.sigmas, 0.5), at(out.sigmas, 0.95),
		at(out.apart, 0.5), at(out.apart, 0.95), out.took[n/2].Round(100*time.Microsecond), out.took[n*19/20].Round(time.Millisecond), out.took[n-1].Round(time.Millisecond))
	return out
}

func at(sorted []float64, share float64) float64 {
	if len(sorted) == 0 {
		return 0
	}
	return sorted[int(share*float64(len(sorted)-1))]
}

// near is the prior of a target that was gone to: up to 1.5° off, the scale to 3 %.
func near(c camera) func(r *rand.Rand, at truth) solve.Prior {
	return func(r *rand.Rand, at truth) solve.Prior {
		return solve.Prior{Near: off(r, at.centre, 1.5*sky.Degree), Within: 1.5 * sky.Degree, PerPixel: c.scale(), ScaleWithin: 0.03}
	}
}

// What part of the frames is placed, by field. A field of 0.5° has six of the layer's stars, and some have two.
func TestFramesArePlaced(t *testing.T) {
	for _, c := range []struct {
		field sky.Angle
		least float64
		angle float64 // degrees, median
	}{
		{2.8 * sky.Degree, 1, 0.001}, {1.5 * sky.Degree, 1, 0.002}, {1.0 * sky.Degree, 0.97, 0.004}, {0.67 * sky.Degree, 0.9, 0.01}, {0.5 * sky.Degree, 0.7, 0.02},
	} {
		const n = 60
		out := run(t, camera{c.field}, n, 1, ordinary, near(camera{c.field}))
		assert.Zero(t, out.wrong)
		assert.GreaterOrEqual(t, float64(out.solved), c.least*n)
		assert.Less(t, at(out.angles, 0.5), c.angle)
		assert.Less(t, at(out.sigmas, 0.95), 4.0, "stated errors hold")
	}
}
