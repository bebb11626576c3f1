package turning_test

import (
	"math"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs"
	"duskhand/checklist/subs/fits"
	"duskhand/checklist/subs/measure"
	"duskhand/checklist/subs/testdata/simulate"
	"duskhand/checklist/subs/turning"
	"duskhand/plan/framing"
	"duskhand/sky"
)

// developed writes lights as files, reads and measures them: the whole way of a light.
type developed struct {
	t        *testing.T
	folder   string
	measurer *measure.Measurer
	pixels   fits.Pixels
}

func develop(t *testing.T) *developed {
	return &developed{t: t, folder: t.TempDir(), measurer: measure.New(1, 500)}
}

func (d *developed) stars(field *simulate.Field, s simulate.Shot) (subs.Header, []subs.Star) {
	path := filepath.Join(d.folder, s.Start.Format("150405.fits"))
	require.NoError(d.t, field.Frame(s).Save(path))
	frame, err := fits.Open(path)
	require.NoError(d.t, err)
	defer func() { assert.NoError(d.t, frame.Close()) }()
	require.NoError(d.t, frame.Fill(&d.pixels))
	measured, err := d.measurer.Frame(&d.pixels)
	require.NoError(d.t, err)
	return frame.Header, measured.Stars
}

// From pixels to a rotation: within 0.01°, with an honest error, hot pixels, gradient, trail and all.
func TestRotationFromFrames(t *testing.T) {
	d := develop(t)
	trials := 4 * *sweep
	var pulls, worst, stated float64
	for seed := range uint64(trials) {
		scene := simulate.Small(seed)
		scene.Gradient, scene.HotPixels = 0.3, 150
		if seed%2 == 1 {
			scene.MoffatBeta = 3.5
		}
		field := simulate.NewField(scene)
		r := random(seed)
		turned := sky.Angle(r.Float64()-0.5) * sky.Degree
		second := shot(1)
		second.Turned, second.Moved, second.Trail = turnedBy(turned), framing.Pixel{X: 20 * r.Float64(), Y: 20 * r.Float64()}, true
		_, a := d.stars(field, shot(0))
		_, b := d.stars(field, second)
		got, err := turning.Match(a, b)
		require.NoError(t, err)
		off := (turning.Direct.CameraTurned(got) - turned).Abs()
		pulls += math.Pow(float64(off/got.RotationError), 2) / float64(trials)
		worst, stated = max(worst, off.Degrees()), stated+got.RotationError.Degrees()/float64(trials)
		assert.Greater(t, got.Matched, 40)
	}
	t.Logf("stated %.5f°, worst %.5f°, spread of the pulls %.2f", stated, worst, math.Sqrt(pulls))
	assert.Less(t, worst, 0.01)
	assert.InDelta(t, 1, math.Sqrt(pulls), 3/math.Sqrt(2*float64(trials))) // standard errors
}

func TestVerdictsFromFrames(t *testing.T) {
	course := exampleCourse(0, 0)
	from := evening(course)
	tests := []struct {
		name  string
		turns func(i int) simulate.Turning
		want  turning.Kind
		alarm int
	}{
		{"tracking", func(int) simulate.Turning { return nil }, turning.Steady, -1},
		{"off", func(int) simulate.Turning { return simulate.Off(course, from) }, turning.Off, 2},
		{"off from the fourth light on", func(int) simulate.Turning { return simulate.Off(course, from.Add(600*time.Second)) }, turning.Off, 4},
		{"reversed", func(int) simulate.Turning { return simulate.Reversed(course, from) }, turning.Reversed, 2},
		{"creeping", func(int) simulate.Turning { return simulate.Slow(3*sky.DegreePerHour, from) }, turning.Residual, 2},
	}
	if *sweep == 1 {
		tests = tests[2:4] // of these the first lights track
	}
	for i, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			d := develop(t)
			scene := simulate.Small(uint64(i))
			scene.HotPixels = 150
			field := simulate.NewField(scene)
			r := run{field, course, from, 3 * time.Minute, 8, turning.Direct, 0, func(i int, s *simulate.Shot) {
				dithered(uint64(i))(i, s)
				s.Turned, s.Trail = test.turns(i), i == 3 || i == 6
			}}
			var series turning.Series
			judge := turning.NewJudge(turning.DefaultLimits(field.Sensor.CornerPixels()), r.parity)
			var verdicts []turning.Verdict
			for n := range r.lights {
				header, stars := d.stars(field, r.shot(n))
				light := turning.Light{Start: *header.Start, Exposure: *header.Exposure}
				light.FieldAngle = course.FieldAngle(light.Middle())
				series, light.Compared = series.Next(stars)
				var v turning.Verdict
				judge, v = judge.Next(light)
				verdicts = append(verdicts, v)
			}
			last := verdicts[len(verdicts)-1]
			t.Logf("%s at %v ± %v, predicted %v", last.Kind, last.Rate, last.RateError, last.Predicted)
			assert.Equal(t, test.want, last.Kind)
			assert.Equal(t, test.alarm, firstAlarm(verdicts))
		})
	}
}
