package framing_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/framing"
	"duskhand/sky"
)

// An axis 300 pixels off, turns by 31°, and 5″ by which the mount moves each time, at 1.6″ a pixel.
func TestTheAxisFromTurnsOfAMountThatMoves(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 9))
	const moved = 5 / 1.6
	axis := complex(180, -240)
	var afterOne, afterFive, near float64
	const trials = 2000
	for range trials {
		var turns []framing.AxisTurn
		for range 5 {
			by := sky.Angle(31) * sky.Degree
			around := 2 * math.Pi * rng.Float64()
			mu := complex(moved*math.Cos(around), moved*math.Sin(around))
			// a point p goes to A + r·(p − A) + μ and stays where p = A + μ/(1 − r)
			r := complex(math.Cos(float64(by)), math.Sin(float64(by)))
			stays := axis + mu/(1-r)
			turns = append(turns, framing.AxisTurn{About: framing.Pixel{X: real(stays), Y: imag(stays)}, By: by, Error: 0.02})
		}
		one, sigma, ok := framing.AxisOf(turns[:1], moved)
		require.True(t, ok)
		assert.InDelta(t, 5.85, sigma, 0.01, "3.125/(2 sin 15.5°)")
		off := math.Hypot(one.X-real(axis), one.Y-imag(axis))
		assert.LessOrEqual(t, off, sigma, "within its stated σ after one")
		five, sigma, ok := framing.AxisOf(turns, moved)
		require.True(t, ok)
		assert.Less(t, sigma, 5.85)
		if math.Hypot(five.X-real(axis), five.Y-imag(axis)) <= 3 {
			near++
		}
		afterOne, afterFive = afterOne+off*off, afterFive+math.Pow(math.Hypot(five.X-real(axis), five.Y-imag(axis)), 2)
	}
	assert.Less(t, math.Sqrt(afterFive/trials), 3.0, "within 3 pixels after five")
	assert.InDelta(t, math.Sqrt(afterOne/trials)/math.Sqrt(5), math.Sqrt(afterFive/trials), 0.3, "as the root of five")
	// Five movements of one length and any direction make nearly a Gaussian of two dimensions with the mean square
	// 5.85²/5: 1 − exp(−3²·5/5.85²) = 73 % of it lies within 3 pixels. No single night is promised that.
	assert.InDelta(t, 1-math.Exp(-9*5/(5.85*5.85)), near/trials, 0.04, "the share of nights within 3 pixels after five")
}

// What no estimate can beat, and what reaches it: the bound of Cramér and Rao for movements that scatter as a Gaussian of
// two dimensions, 1 − exp(−3²/bound²) of which lies within 3 pixels. 10,000 draws leave 0.005 of a share (one σ), 0.7 %
// of the mean square.
func TestTheAxisIsFoundAsWellAsCanBe(t *testing.T) {
	rng := rand.New(rand.NewPCG(40, 1))
	const moved, trials = 5 / 1.6, 10_000
	for _, c := range []struct {
		turns  int
		by     float64
		within float64 // the share within 3 pixels
	}{{1, 31, 0.23}, {5, 31, 0.73}, {12, 31, 0.95}, {5, 48, 0.95}} {
		by := sky.Angle(c.by) * sky.Degree
		bound := moved / (2 * (by / 2).Sin()) / math.Sqrt(float64(c.turns))
		near, square := 0.0, 0.0
		for range trials {
			var turns []framing.AxisTurn
			for range c.turns {
				reach := moved / math.Sqrt2 / (2 * (by / 2).Sin())
				turns = append(turns, framing.AxisTurn{About: framing.Pixel{X: reach * rng.NormFloat64(), Y: reach * rng.NormFloat64()}, By: by})
			}
			at, _, ok := framing.AxisOf(turns, moved)
			require.True(t, ok)
			off := math.Hypot(at.X, at.Y)
			square += off * off
			if off <= 3 {
				near++
			}
		}
		assert.InDelta(t, 1, square/trials/(bound*bound), 0.05, "%d turns by %g°", c.turns, c.by)
		assert.InDelta(t, c.within, near/trials, 0.02, "%d turns by %g°", c.turns, c.by)
	}
}

func TestSmallTurnsTellNothingAndScatterWidensTheSigma(t *testing.T) {
	_, _, ok := framing.AxisOf([]framing.AxisTurn{{By: 3 * sky.Degree, Error: 0.1}}, 3)
	assert.False(t, ok)
	at := func(x float64) framing.AxisTurn {
		return framing.AxisTurn{About: framing.Pixel{X: x}, By: 60 * sky.Degree, Error: 0.1}
	}
	_, honest, _ := framing.AxisOf([]framing.AxisTurn{at(299), at(301)}, 3)
	_, apart, _ := framing.AxisOf([]framing.AxisTurn{at(200), at(400)}, 3)
	assert.Greater(t, apart, 10*honest, "one of them was nudged")
}

// Held against two chips on the sky: both see the same place of the sky on the axis.
func TestWhereATurnAboutTheAxisPutsAStar(t *testing.T) {
	for _, mirrored := range []bool{false, true} {
		s := framing.Sensor{Width: 6000, Height: 4000, PerPixel: 1.6 * sky.Arcsecond, Mirrored: mirrored}
		axis, star := framing.Pixel{X: 180, Y: -240}, framing.Pixel{X: -900, Y: 400}
		before := framing.NewChip(s, sky.J2000{RA: 1.2, Dec: -0.3}, 0.7)
		centre := before.Centre()
		for range 20 { // the centre from which the turned chip sees the axis' place on the axis
			after := framing.NewChip(s, centre, 0.7+31*sky.Degree)
			seen, ok := after.Pixel(before.Sky(axis))
			require.True(t, ok)
			centre = after.Sky(framing.Pixel{X: seen.X - axis.X, Y: seen.Y - axis.Y})
		}
		after, ok := framing.NewChip(s, centre, 0.7+31*sky.Degree).Pixel(before.Sky(star))
		require.True(t, ok)
		got := s.TurnedAbout(axis, star, 31*sky.Degree)
		assert.InDelta(t, after.X, got.X, 1, "the sky is not flat; mirrored %v", mirrored)
		assert.InDelta(t, after.Y, got.Y, 1, "mirrored %v", mirrored)
	}
}
