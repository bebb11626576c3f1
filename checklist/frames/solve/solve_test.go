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
	"duskhand/checklist/subs/testdata/simulate"
	"duskhand/plan/framing"
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
		{2.8 * sky.Degree, 1, 0.0015}, {1.5 * sky.Degree, 1, 0.003}, {1.0 * sky.Degree, 0.97, 0.005}, {0.67 * sky.Degree, 0.9, 0.01}, {0.5 * sky.Degree, 0.65, 0.02},
	} {
		const n = 60 // of 200 at 0.67° 190 to 193, at 0.5° 150 to 154 (13 in 100 have three stars or fewer)
		out := run(t, camera{c.field}, n, 1, ordinary, near(camera{c.field}))
		assert.Zero(t, out.wrong)
		assert.GreaterOrEqual(t, float64(out.solved), c.least*n)
		assert.Less(t, at(out.angles, 0.5), c.angle)
		assert.Less(t, at(out.sigmas, 0.95), 4.0, "stated errors hold")
	}
}

// A nebula gives a heap of bright lumps, a poor night leaves stars out: what can be told is, and nothing else.
func TestLumpsAndMissingStars(t *testing.T) {
	c := camera{1.5 * sky.Degree}
	for name, of := range map[string]faults{
		"a nebula":             {missing: 0.1, extra: 6, lumps: 25},
		"stars left out":       {missing: 0.5, extra: 3, lumps: 3},
		"crowds of faint ones": {missing: 0.1, extra: 30, lumps: 3},
	} {
		t.Run(name, func(t *testing.T) {
			out := run(t, c, 20, 4, of, near(c))
			assert.Zero(t, out.wrong)
			assert.GreaterOrEqual(t, out.solved, 18)
		})
	}
}

// Frames that look elsewhere are not placed, whatever the field, and neither are stars that are none.
func TestWhatLooksElsewhereIsNotPlaced(t *testing.T) {
	for _, field := range []sky.Angle{2.8 * sky.Degree, 1 * sky.Degree, 0.5 * sky.Degree} {
		c := camera{field}
		elsewhere := func(r *rand.Rand, at truth) solve.Prior {
			p := near(c)(r, at)
			p.Near = off(r, sky.J2000{RA: at.centre.RA + 180*sky.Degree, Dec: -at.centre.Dec}, 20*sky.Degree)
			return p
		}
		out := run(t, c, 25, 5, ordinary, elsewhere)
		assert.Zero(t, out.solved, "%v", field)
		out = run(t, c, 10, 6, ordinary, func(r *rand.Rand, at truth) solve.Prior {
			p := near(c)(r, at)
			p.PerPixel *= 1.12
			return p
		})
		assert.Zero(t, out.solved, "%v, of another scale than the kit's", field)
	}
}

// A pointing that is lost by up to 10° is found.
func TestLostPointing(t *testing.T) {
	for _, field := range []sky.Angle{2.8 * sky.Degree, 1 * sky.Degree} {
		c := camera{field}
		out := run(t, c, 5, 3, ordinary, func(r *rand.Rand, at truth) solve.Prior {
			p := near(c)(r, at)
			p.Near, p.Within = off(r, at.centre, 10*sky.Degree), 10*sky.Degree
			return p
		})
		assert.Zero(t, out.wrong)
		assert.Equal(t, 5, out.solved)
	}
}

func TestWhyAFrameIsNotPlaced(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 8))
	c := camera{1 * sky.Degree}
	f, at := listOf(r, c, ordinary)
	prior := near(c)(r, at)
	var refused *solve.Refusal

	few := f
	few.Stars = f.Stars[:3]
	_, err := solve.Solve(few, prior, deep.All)
	require.ErrorAs(t, err, &refused)
	assert.Equal(t, solve.Refusal{Kind: solve.FewInFrame, Stars: 3}, *refused)
	assert.ErrorContains(t, err, "it shows 3 stars, and it takes 4 to tell")

	_, err = solve.Solve(f, prior, func(centre sky.J2000, radius sky.Angle) []deep.Star { return nil })
	require.ErrorAs(t, err, &refused)
	assert.Equal(t, solve.FewInLayer, refused.Kind)
	assert.ErrorContains(t, err, "the catalogue has only 0 stars")

	prior.Near.Dec = -prior.Near.Dec
	_, err = solve.Solve(f, prior, deep.All)
	require.ErrorAs(t, err, &refused)
	assert.Equal(t, solve.NowhereNear, refused.Kind)
	assert.ErrorContains(t, err, "within 1.5° of where it should look")

	_, err = solve.Solve(solve.Frame{Stars: slices.Repeat(f.Stars[:1], 50), Width: across, Height: down}, prior, deep.All)
	assert.ErrorAs(t, err, &refused, "stars all at one place")
	_, err = solve.Solve(solve.Frame{}, solve.Prior{}, deep.All)
	assert.ErrorAs(t, err, &refused)
}

// The poles and the seam of right ascension are places like others.
func TestPolesAndTheSeam(t *testing.T) {
	for name, centre := range map[string]sky.J2000{
		"north pole": {Dec: 89.95 * sky.Degree}, "south pole": {RA: 3, Dec: -89.9 * sky.Degree}, "seam": {RA: 0.01 * sky.Degree, Dec: 20 * sky.Degree},
	} {
		t.Run(name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(9, 9))
			c := camera{1.5 * sky.Degree}
			f, at := listAt(r, c, ordinary, centre)
			p, err := solve.Solve(f, near(c)(r, at), deep.All)
			require.NoError(t, err)
			assert.Less(t, at.apart(p).Arcseconds(), 0.5)
			assert.Equal(t, at.mirrored, p.Mirrored)
			if name == "seam" {
				assert.Less(t, at.turned(p).Degrees(), 0.01)
			}
		})
	}
}

// The artificial lights' own model: stars of the catalogue, seen as a good measurement finds them.
func TestSimulatedLights(t *testing.T) {
	r := rand.New(rand.NewPCG(10, 10))
	for _, field := range []sky.Angle{2.8, 1.5, 1.0, 0.67} {
		c := camera{field * sky.Degree}
		solved := 0
		for range 5 {
			scene := simulate.Small(r.Uint64())
			scene.Sensor = framing.Sensor{Width: across, Height: down, PerPixel: c.scale() * sky.Angle(0.98+0.04*r.Float64()), Mirrored: r.IntN(2) == 1}
			scene.Centre, scene.CameraAngle, scene.Deep, scene.LeastStars = anywhere(r), sky.Angle(360*r.Float64())*sky.Degree, true, 300
			at := truth{centre: scene.Centre, angle: scene.CameraAngle, mirrored: scene.Sensor.Mirrored}
			stars := simulate.NewField(scene).Seen(simulate.Shot{Exposure: 3 * time.Minute})
			p, err := solve.Solve(solve.Frame{Stars: stars, Width: across, Height: down}, near(c)(r, at), deep.All)
			if err != nil {
				continue
			}
			solved++
			assert.False(t, at.wrong(p, c), "%+v for %+v", p, at)
			assert.Less(t, at.turned(p).Degrees(), 0.02)
		}
		assert.GreaterOrEqual(t, solved, 4, "%v", field)
	}
}

func BenchmarkSolve(b *testing.B) {
	for name, c := range map[string]camera{"2.8": {2.8 * sky.Degree}, "1.0": {1 * sky.Degree}, "0.67": {0.67 * sky.Degree}} {
		b.Run(name, func(b *testing.B) {
			r := rand.New(rand.NewPCG(11, 11))
			f, at := listOf(r, c, ordinary)
			prior := near(c)(r, at)
			for b.Loop() {
				_, _ = solve.Solve(f, prior, deep.All)
			}
		})
	}
}

func TestOneStarIsNotSaidAsMany(t *testing.T) {
	for kind, said := range map[solve.Kind]string{solve.FewInFrame: "it shows 1 star,", solve.FewInLayer: "only 1 star in"} {
		assert.Contains(t, (&solve.Refusal{Kind: kind, Stars: 1}).Error(), said)
	}
}
