package survey_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/subs"
	"duskhand/checklist/subs/survey"
	"duskhand/checklist/subs/testdata/simulate"
	"duskhand/plan/framing"
	"duskhand/sky"
)

// turnedPlace is where a chip looks once its camera angle has grown about a point of the picture that kept its place of the
// sky, and the picture has moved beside.
func turnedPlace(before framing.Chip, axis framing.Pixel, grew sky.Angle, moved framing.Pixel) framing.Chip {
	centre := before.Centre()
	up := before.CameraAngle() + grew
	for range 20 { // the centre from which the turned chip sees the axis' place where it should
		after := framing.NewChip(before.Sensor, centre, up)
		seen, _ := after.Pixel(before.Sky(axis))
		centre = after.Sky(framing.Pixel{X: seen.X - axis.X - moved.X, Y: seen.Y - axis.Y - moved.Y})
	}
	return framing.NewChip(before.Sensor, centre, up)
}

// placedOf is the chip as a light that was placed has it, its rows from the bottom or from the top.
func placedOf(c framing.Chip, topDown bool) *checklist.PlacedBody {
	rows := c.CameraAngle()
	if topDown {
		rows += 180 * sky.Degree
	}
	centre := c.Centre()
	return &checklist.PlacedBody{RADeg: centre.RA.Degrees(), DecDeg: centre.Dec.Degrees(), CentreErrorSec: 0.3, CameraAngleDeg: rows.Degrees(),
		AngleErrorDeg: 0.002, ScaleArcsec: c.PerPixel.Arcseconds(), Mirrored: c.Mirrored != topDown}
}

// A program that was started again knows no stars of the lights before: where they looked tells the axis all the same. Near
// the pole of the Tarantula directions of north differ by degrees over a frame.
func TestTheAxisIsLearnedFromWhereTheLightsLook(t *testing.T) {
	axis := framing.Pixel{X: 180, Y: -240}
	for _, c := range []struct {
		name              string
		topDown, mirrored bool
		moved             framing.Pixel
	}{
		{"rows from the bottom", false, false, framing.Pixel{}},
		{"rows from the top", true, false, framing.Pixel{}},
		{"a picture that is mirrored", false, true, framing.Pixel{}},
		{"the mount moves by 5″ beside", false, false, framing.Pixel{X: 2.5}},
	} {
		t.Run(c.name, func(t *testing.T) {
			n := newNight(t, 5, nil)
			n.kit.Camera.Mirrored = c.mirrored
			n.log.Guiding = checklist.Guiding{Since: n.from.Add(-cadence)}
			sensor := framing.MainSensor(n.kit)
			before := framing.NewChip(sensor, framing.Middle(n.kit.Targets[0]), 40*sky.Degree)
			after := turnedPlace(before, axis, 30*sky.Degree, c.moved)
			hand := func(i int, chip framing.Chip) {
				f := n.seen(i, nil)
				f.Measured.Stars = []subs.Star{} // none that could be matched
				f.Placed = placedOf(chip, c.topDown)
				n.hand(f)
			}
			hand(0, before)
			n.run(n.from.Add(2*cadence), -15*sky.Degree)
			n.survey = survey.New(n.kit)
			hand(3, after)
			require.NotNil(t, n.got[1].Turned)
			learned, ok := n.axis()
			require.True(t, ok)
			off := math.Hypot(learned.At.X-axis.X, learned.At.Y-axis.Y)
			if c.moved == (framing.Pixel{}) {
				assert.Less(t, off, 0.2, "the sky is not flat")
				return
			}
			assert.LessOrEqual(t, off, learned.Sigma*1.05)
			assert.Greater(t, off, 2.0)
		})
	}
}

// A target that was brought back in the run before, after its last light, has been nudged beside the turn.
func TestANudgeBeforeTheTurnIsOneBesideIt(t *testing.T) {
	n := newNight(t, 5, nil)
	n.log.Guiding = checklist.Guiding{Since: n.from.Add(-cadence)}
	n.hand(n.seen(0, nil))
	nudged := n.from.Add(cadence)
	n.log.Recentred = &nudged
	n.run(n.from.Add(2*cadence), -15*sky.Degree)
	n.hand(n.seen(3, func(s *simulate.Shot) { s.Turned = func(time.Time) sky.Angle { return 30 * sky.Degree } }))
	require.NotNil(t, n.got[1].Turned)
	assert.False(t, n.got[1].Turned.Free)
}
