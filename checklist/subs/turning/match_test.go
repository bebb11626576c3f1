package turning_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs"
	"duskhand/checklist/subs/testdata/simulate"
	"duskhand/checklist/subs/turning"
	"duskhand/plan/framing"
	"duskhand/sky"
)

var begin = time.Date(2026, 12, 5, 14, 0, 0, 0, time.UTC)

// turnedBy is a camera that stands turned by an angle.
func turnedBy(a sky.Angle) simulate.Turning { return func(time.Time) sky.Angle { return a } }

func shot(n int) simulate.Shot {
	return simulate.Shot{Start: begin.Add(time.Duration(n) * 200 * time.Second), Exposure: 3 * time.Minute}
}

func random(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 1)) }

// hot returns n hot pixels that look like stars, the brightest of the frame.
func hot(r *rand.Rand, s framing.Sensor, n int) []subs.Star {
	var list []subs.Star
	for range n {
		flux := 3e5 * (0.5 + r.Float64())
		list = append(list, subs.Star{X: r.Float64() * float64(s.Width), Y: r.Float64() * float64(s.Height), Flux: flux, HFD: 2.8, Noise: 50})
	}
	return list
}

// onto adds more stars to a list, brightest first.
func onto(list, more []subs.Star) []subs.Star {
	all := append(slices.Clone(list), more...)
	slices.SortStableFunc(all, func(a, b subs.Star) int { return int(math.Copysign(1, b.Flux-a.Flux)) })
	return all
}

// without drops a share of a list.
func without(r *rand.Rand, list []subs.Star, share float64) []subs.Star {
	var kept []subs.Star
	for _, s := range list {
		if r.Float64() >= share {
			kept = append(kept, s)
		}
	}
	return kept
}

func TestMatchFindsWhatWasDone(t *testing.T) {
	tests := []struct {
		name   string
		turned sky.Angle
		moved  framing.Pixel
		lost   float64 // share of each list that the other does not have
		hot    int
		cloud  float64
	}{
		{name: "nothing at all"},
		{name: "nothing at all, with hot pixels", hot: 40},
		{name: "a dither of 3 pixels", moved: framing.Pixel{X: 3, Y: -2}},
		{name: "a dither of 200 pixels", moved: framing.Pixel{X: 150, Y: -130}},
		{name: "a twentieth of a degree", turned: 0.05 * sky.Degree},
		{name: "a twentieth of a degree among hot pixels", turned: 0.05 * sky.Degree, hot: 40},
		{name: "seven degrees and a dither", turned: -7 * sky.Degree, moved: framing.Pixel{X: 40, Y: 12}},
		{name: "a rewind of 100°", turned: 100 * sky.Degree, moved: framing.Pixel{X: -20, Y: 35}},
		{name: "half a turn", turned: 180 * sky.Degree},
		{name: "40 % different stars in both", turned: 0.4 * sky.Degree, moved: framing.Pixel{X: 60, Y: 20}, lost: 0.4},
		{name: "a dither among 40 hot pixels", moved: framing.Pixel{X: 11, Y: 7}, hot: 40},
		{name: "a dither among 100 bright hot pixels, half the stars gone", moved: framing.Pixel{X: 11, Y: 7}, hot: 100, lost: 0.3},
		{name: "thin cloud", turned: 0.3 * sky.Degree, cloud: 0.8, moved: framing.Pixel{X: 11, Y: 7}},
	}
	for i, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			field := simulate.NewField(simulate.Small(uint64(i)))
			r := random(uint64(i))
			first, second := shot(0), shot(1)
			second.Turned, second.Moved, second.Cloud = turnedBy(test.turned), test.moved, test.cloud
			more := hot(r, field.Sensor, test.hot)
			a := onto(without(r, field.Seen(first), test.lost), more)
			b := onto(without(r, field.Seen(second), test.lost), more)
			got, err := turning.Match(a, b)
			require.NoError(t, err)
			t.Logf("%d and %d stars, %d matched, rms %.3f px, rotation %v ± %v", len(a), len(b), got.Matched, got.RMS, got.Rotation, got.RotationError)
			off := (turning.Direct.CameraTurned(got) - test.turned).Signed().Abs()
			assert.LessOrEqual(t, off.Degrees(), max(0.01, 4*got.RotationError.Degrees()))
			assert.InDelta(t, 1, got.Scale, 0.0005)                         // 0.1 px in 200
			x, y := got.Apply(499.5, 349.5)                                 // the middle of the chip only moves
			assert.InDelta(t, 499.5+test.moved.X, x, 5*got.ShiftError+0.02) // five σ
			assert.InDelta(t, 349.5+test.moved.Y, y, 5*got.ShiftError+0.02)
		})
	}
}
