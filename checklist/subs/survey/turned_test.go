package survey_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/checklist/subs/testdata/simulate"
	"duskhand/plan/framing"
	"duskhand/sky"
)

// turningNight is a night of runs of two lights, with a turn by 30° to and fro between them about an axis 300 pixels
// off the chip's middle and a movement of the mount of 5″, which is 2.5 pixels here.
func turningNight(t *testing.T, topDown bool, turns int) (n *night, axis framing.Pixel) {
	rng := rand.New(rand.NewPCG(31, 6))
	n = newNight(t, 5, func(s *simulate.Scene) { s.TopDown = topDown })
	n.log.Guiding = checklist.Guiding{Since: n.from.Add(-time.Hour)} // said to be off
	axis = framing.Pixel{X: 180, Y: -240}
	sensor := framing.MainSensor(n.kit)
	middle := func(at time.Time, reading sky.Angle) sky.Angle { return n.course.CameraAngle(reading, at) }
	first := middle(n.log.Runs[0].Start, n.log.Runs[0].StartAngle)
	turned, moved := sky.Angle(0), framing.Pixel{}
	for i := range 2 * (turns + 1) {
		if i > 0 && i%2 == 0 {
			reading := sky.Angle(15-30*(i/2%2)) * sky.Degree
			at := n.from.Add(time.Duration(i)*cadence - 5*time.Second)
			n.run(at, reading)
			grows := (middle(at, reading) - first).Signed() - turned
			around := 2 * math.Pi * rng.Float64()
			// where the middle's stars were, the turn puts them about the axis, and the mount beside
			after := sensor.TurnedAbout(axis, moved, grows)
			moved = framing.Pixel{X: after.X + 2.5*math.Cos(around), Y: after.Y + 2.5*math.Sin(around)}
			turned += grows
		}
		stands := turned
		n.hand(n.seen(i, func(s *simulate.Shot) {
			s.Moved, s.Turned = moved, func(time.Time) sky.Angle { return stands }
		}))
	}
	return n, axis
}

func (n *night) axis() (advice.CameraAxis, bool) {
	return advice.Moment{Tonight: &advice.Tonight{Kit: n.kit, Log: n.log}}.CameraAxis()
}

func TestTheAxisIsLearnedFromTheFramesBesideATurn(t *testing.T) {
	for name, topDown := range map[string]bool{"rows from the bottom": false, "rows from the top": true} {
		for _, turns := range []int{1, 5} {
			n, want := turningNight(t, topDown, turns)
			learned, ok := n.axis()
			require.True(t, ok, name)
			assert.Equal(t, turns, learned.Turns, name)
			off := math.Hypot(learned.At.X-want.X, learned.At.Y-want.Y)
			if turns == 1 { // the mount moved by just one σ; centroids beside
				assert.LessOrEqual(t, off, learned.Sigma*1.05, name)
				continue
			}
			assert.LessOrEqual(t, off, 2*learned.Sigma, name)
			assert.Less(t, off, 3.0, name)
		}
	}
}

// A guider that brings its star back makes the field turn about that star, and a nudge about anything: neither is learned
// from.
func TestTheAxisIsNotLearnedWhereSomethingElseMoved(t *testing.T) {
	for name, change := range map[string]func(*night){
		"guiding is on":                 func(n *night) { n.log.Guiding.On = true },
		"nobody has said of guiding":    func(n *night) { n.log.Guiding = checklist.Guiding{} },
		"the target was brought back":   func(n *night) { at := n.from.Add(24 * time.Hour); n.log.Recentred = &at },
		"guiding was off after it only": func(n *night) { n.log.Guiding.Since = n.from.Add(24 * time.Hour) },
	} {
		n := newNight(t, 5, nil)
		change(n)
		n.hand(n.seen(0, nil))
		n.hand(n.seen(1, nil))
		at := n.from.Add(2*cadence - 5*time.Second)
		n.run(at, -15*sky.Degree)
		n.hand(n.seen(2, func(s *simulate.Shot) { s.Turned = func(time.Time) sky.Angle { return 30 * sky.Degree } }))
		require.NotNil(t, n.got[2].Turned, name)
		assert.InDelta(t, 30, math.Abs(n.got[2].Turned.RotationDeg), 0.1, name)
		assert.False(t, n.got[2].Turned.Free, name)
		_, ok := n.axis()
		assert.False(t, ok, name)
	}
}
