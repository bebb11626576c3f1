package turning_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs"
	"duskhand/checklist/subs/testdata/simulate"
	"duskhand/checklist/subs/turning"
	"duskhand/plan/framing"
	"duskhand/sky"
)

// The stated error is honest: over many fields and turns, error over stated error has unit variance and no
// bias, and so has the movement of the middle of the stars.
func TestStatedErrorsAreHonest(t *testing.T) {
	tests := []struct {
		name       string
		leastStars int
		blind      bool // nothing known of each star's noise
		lost       float64
		more       float64 // by which the spread of the pulls may differ beyond chance
	}{
		{name: "many stars", leastStars: 400},
		{name: "many stars of unknown noise", leastStars: 400, blind: true},
		{name: "40 % different stars", leastStars: 400, lost: 0.4},
		{name: "some twenty stars", leastStars: 90, lost: 0.25, more: 0.08}, // the scatter itself is known badly
	}
	trials := 50 * *sweep
	chance := 3.4 / math.Sqrt(2*float64(trials)) // standard errors of a spread
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			var rotation, shift, stated, worst, matched float64
			for seed := range uint64(trials) {
				scene := simulate.Small(seed)
				scene.LeastStars = test.leastStars
				field := simulate.NewField(scene)
				r := random(seed)
				turned := sky.Angle(4*r.Float64()-2) * sky.Degree
				second := shot(1)
				second.Turned, second.Moved = turnedBy(turned), framing.Pixel{X: 30 * r.Float64(), Y: -30 * r.Float64()}
				a, b := without(r, field.Seen(shot(0)), test.lost), without(r, field.Seen(second), test.lost)
				if test.blind {
					a, b = blind(a), blind(b)
				}
				got, err := turning.Match(a, b)
				require.NoError(t, err, "seed %d", seed)
				off := turning.Direct.CameraTurned(got) - turned
				rotation += math.Pow(float64(off/got.RotationError), 2) / float64(trials)
				stated += got.RotationError.Degrees() / float64(trials)
				worst = max(worst, off.Abs().Degrees())
				matched += float64(got.Matched) / float64(trials)
				// Where the middle of the matched stars must have gone.
				sin, cos := math.Sincos(-float64(turned))
				x, y := got.MiddleX-499.5, got.MiddleY-349.5
				wantX := 499.5 + cos*x - sin*y + second.Moved.X
				shift += math.Pow((got.MiddleX+got.ShiftX-wantX)/got.ShiftError, 2) / float64(trials)
			}
			t.Logf("%.0f stars matched; error of the rotation: stated %.5f°, worst %.5f°; spread of the pulls %.3f, of the shift's %.3f",
				matched, stated, worst, math.Sqrt(rotation), math.Sqrt(shift))
			assert.InDelta(t, 1, math.Sqrt(rotation), chance+test.more)
			assert.InDelta(t, 1, math.Sqrt(shift), chance+test.more)
			assert.Less(t, worst, 0.01+4*stated)
		})
	}
}

func blind(list []subs.Star) []subs.Star {
	list = slices.Clone(list)
	for i := range list {
		list[i].Noise = 0
	}
	return list
}

func TestWhatDoesNotMatchIsRefusedInWords(t *testing.T) {
	field := simulate.NewField(simulate.Small(1))
	list := field.Seen(shot(0))
	other := simulate.Small(2)
	other.Centre.Dec += 20 * sky.Degree
	elsewhere := simulate.NewField(other).Seen(shot(0))
	_, err := turning.Match(list, elsewhere)
	var none turning.NoMatch
	require.ErrorAs(t, err, &none)
	assert.Regexp(t, `the stars of the two lights don't match: of \d+ and \d+ no more than \d+ agree; another field, a large shift, or cloud`, err.Error())

	_, err = turning.Match(list, list[:5])
	require.ErrorIs(t, err, turning.TooFew{Second: true, Stars: 5})
	assert.EqualError(t, err, "the second light shows 5 stars, and it takes 6 to compare it: cloud, dew, or focus lost")
	_, err = turning.Match(nil, list)
	assert.EqualError(t, err, "the first light shows no star, and it takes 6 to compare it: cloud, dew, or focus lost")
	_, err = turning.Match(list[:1], list)
	assert.ErrorContains(t, err, "the first light shows one star")
	broken := []subs.Star{{X: math.NaN(), Flux: 1}, {Flux: math.Inf(1)}, {Flux: -1}}
	_, err = turning.Match(append(broken, list[:3]...), list)
	assert.ErrorIs(t, err, turning.TooFew{Second: false, Stars: 3})
}

// Stars scattered at random must not be taken for one field, however many.
func TestChanceIsNoMatch(t *testing.T) {
	r := random(9)
	found := 0
	const trials = 60
	for i := range trials {
		n := []int{6, 8, 12, 30, 120, 500}[i%6]
		small := framing.Sensor{Width: 1000, Height: 700}
		if _, err := turning.Match(hot(r, small, n), hot(r, small, n)); err == nil {
			found++
		}
	}
	assert.Zero(t, found, "of %d", trials)
}

// Few stars: half a dozen are enough, and a list of six that all match is one.
func TestSixStarsAreEnough(t *testing.T) {
	list := simulate.NewField(simulate.Small(1)).Seen(shot(0))[:6]
	moved := slices.Clone(list)
	for i := range moved {
		moved[i].X, moved[i].Y = moved[i].X+40, moved[i].Y-25
	}
	got, err := turning.Match(list, moved)
	require.NoError(t, err)
	assert.InDelta(t, 40, got.ShiftX, 1e-9) // exact data
	assert.InDelta(t, -25, got.ShiftY, 1e-9)
	assert.InDelta(t, 0, got.Rotation.Degrees(), 1e-9)
	assert.InDelta(t, 1, got.Scale, 1e-12)
}

func TestTransformCarriesPlaces(t *testing.T) {
	tr := turning.Transform{Rotation: 90 * sky.Degree, Scale: 2, MiddleX: 10, MiddleY: 20, ShiftX: 1, ShiftY: 2}
	x, y := tr.Apply(11, 20) // one to the right of the middle turns to +Y, twice as far
	assert.InDelta(t, 11, x, 1e-12)
	assert.InDelta(t, 24, y, 1e-12)
	dx, dy := tr.MovedAt(10, 20)
	assert.InDelta(t, 1, dx, 1e-12)
	assert.InDelta(t, 2, dy, 1e-12)
}

func TestParityFromARewind(t *testing.T) {
	tests := []struct {
		name           string
		rotation, turn sky.Angle
		want           turning.Parity
		ok             bool
	}{
		{"the stars turned against the camera", -40 * sky.Degree, 40 * sky.Degree, turning.Direct, true},
		{"and with it", 40 * sky.Degree, 40 * sky.Degree, turning.Flipped, true},
		{"across the half turn", 170 * sky.Degree, 190 * sky.Degree, turning.Direct, true},
		{"a little off", -41 * sky.Degree, 40 * sky.Degree, turning.Direct, true},
		{"by neither", 60 * sky.Degree, 40 * sky.Degree, turning.UnknownParity, false},
		{"half a turn tells nothing", 180 * sky.Degree, 180 * sky.Degree, turning.UnknownParity, false},
		{"nor does no turn", 0, 0, turning.UnknownParity, false},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, ok := turning.ParityOf(turning.Transform{Rotation: test.rotation, RotationError: 0.001 * sky.Degree}, test.turn, 2*sky.Degree)
			assert.Equal(t, test.ok, ok)
			assert.Equal(t, test.want, got)
		})
	}
}
