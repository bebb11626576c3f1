package turning_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs"
	"duskhand/checklist/subs/testdata/simulate"
	"duskhand/checklist/subs/turning"
	"duskhand/plan"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// reversing is a target that culminates between zenith and east, so that its field stops and turns back while
// it is high: δ = 40° from latitude 50°.
func reversing() (*plan.Course, time.Time) {
	k := kit.Example()
	k.Site.Place.Latitude = 50 * sky.Degree
	night := plan.NewNight(k, plan.Date{Year: 2026, Month: time.December, Day: 5})
	target := kit.Target{Star: sky.Star{Place: sky.J2000{RA: 60 * sky.Degree, Dec: 40 * sky.Degree}}}
	course := night.Course(target, kit.Axis{Uncertainty: 3 * sky.Degree})
	return course, course.Reversals(course.Span)[0]
}

func TestThroughAReversal(t *testing.T) {
	course, reversal := reversing()
	from := reversal.Add(-50 * time.Minute)
	field := simulate.NewField(simulate.Small(5))
	t.Run("tracking", func(t *testing.T) {
		verdicts, _ := run{field, course, from, 3 * time.Minute, 30, turning.Direct, 0, dithered(2)}.verdicts()
		assert.Equal(t, -1, firstAlarm(verdicts))
		for i, v := range verdicts[1:] {
			assert.Contains(t, []turning.Kind{turning.Steady, turning.CannotTell}, v.Kind, "light %d", i+1)
		}
	})
	t.Run("off", func(t *testing.T) {
		verdicts, _ := run{field, course, from, 3 * time.Minute, 30, turning.UnknownParity, 0,
			func(_ int, s *simulate.Shot) { s.Turned = simulate.Off(course, from) }}.verdicts()
		kinds := map[turning.Kind]int{}
		at := firstAlarm(verdicts)
		for i, v := range verdicts {
			kinds[v.Kind]++
			if i >= at {
				assert.True(t, v.Alarm, "light %d: nothing has shown that it is over: %s %s", i, v.Kind, v.Why)
			}
			assert.NotEqual(t, turning.Steady, v.Kind, "light %d", i)
		}
		t.Logf("field %v at the start; alarm at light %d; %v", course.FieldRate(from), at, kinds)
		assert.Less(t, at, 5)
		assert.Equal(t, turning.Off, verdicts[len(verdicts)-1].Kind)
	})
}

// While the field itself hardly turns nothing can be said, and is not.
func TestAFieldThatStandsStillTellsNothing(t *testing.T) {
	course, reversal := reversing()
	field := simulate.NewField(simulate.Small(6))
	from := reversal.Add(-5 * time.Minute)
	for name, turned := range map[string]simulate.Turning{"tracking": nil, "off": simulate.Off(course, from)} {
		verdicts, _ := run{field, course, from, time.Minute, 7, turning.Direct, 0,
			func(_ int, s *simulate.Shot) { s.Turned = turned }}.verdicts()
		for i, v := range verdicts[1:] {
			assert.Equal(t, turning.CannotTell, v.Kind, "%s, light %d at %v, field %v", name, i+1, v.Rate, v.Predicted)
			assert.Equal(t, turning.SlowField, v.Why)
			assert.False(t, v.Alarm)
		}
	}
}

// After a rewind the angles are others, and the new run's judge compares with its own first light; a judge that
// is not told of the rewind takes it for a knock.
func TestAfterARewind(t *testing.T) {
	course := exampleCourse(0, 0)
	from := evening(course)
	field := simulate.NewField(simulate.Small(8))
	change := func(i int, s *simulate.Shot) {
		if i >= 5 {
			s.Turned = turnedBy(-95 * sky.Degree)
		}
	}
	verdicts, judge := run{field, course, from, 3 * time.Minute, 10, turning.Direct, 0, change}.verdicts()
	assert.Equal(t, -1, firstAlarm(verdicts))
	assert.Equal(t, turning.Steady, verdicts[9].Kind)
	turned := judge.Turned()
	last := turned[len(turned)-1]
	assert.InDelta(t, -95, last.Camera.Degrees(), 0.02)
	parity, ok := turning.ParityOf(*last.Moved, -95*sky.Degree, sky.Degree)
	assert.True(t, ok)
	assert.Equal(t, turning.Direct, parity)

	off := simulate.Off(course, from)
	again, _ := run{field, course, from, 3 * time.Minute, 6, turning.Direct, 0, func(_ int, s *simulate.Shot) {
		s.Turned = func(at time.Time) sky.Angle { return off(at) - 95*sky.Degree }
	}}.verdicts()
	assert.Equal(t, 2, firstAlarm(again), "a run that begins turned by a rewind")
	assert.Equal(t, turning.Off, again[5].Kind)
}

// A target that is changed without a word: after three lights that match nothing the series begins anew.
func TestSeriesBeginsAnewOnAnotherField(t *testing.T) {
	one := simulate.NewField(simulate.Small(1))
	scene := simulate.Small(2)
	scene.Centre.Dec += 20 * sky.Degree
	two := simulate.NewField(scene)
	var series turning.Series
	var c turning.Compared
	var fresh []bool
	for i := range 8 {
		field := one
		if i >= 3 {
			field = two
		}
		series, c = series.Next(field.Seen(shot(i)))
		fresh = append(fresh, c.Fresh)
		if i == 3 {
			assert.Error(t, c.Err)
		}
	}
	assert.Equal(t, []bool{true, false, false, false, false, true, false, false}, fresh)
	assert.NotNil(t, c.FromReference)
}

func TestSeriesWaitsForAClearFirstLight(t *testing.T) {
	field := simulate.NewField(simulate.Small(1))
	var series turning.Series
	series, c := series.Next(nil)
	assert.ErrorIs(t, c.Err, turning.TooFew{Second: true, Stars: 0})
	judge := turning.NewJudge(turning.DefaultLimits(600), turning.Direct)
	judge, v := judge.Next(turning.Light{Start: begin, Exposure: time.Minute, Compared: c})
	assert.Equal(t, turning.Unknown, v.Kind)
	assert.ErrorIs(t, v.Err, turning.TooFew{Second: true, Stars: 0})
	_, c = series.Next(field.Seen(shot(1)))
	assert.True(t, c.Fresh)
	_, v = judge.Next(turning.Light{Start: begin.Add(time.Minute), Exposure: time.Minute, Compared: c})
	assert.Equal(t, turning.CannotTell, v.Kind)
}

// Judges are values: what one light adds to a judge does not reach into another that was made from it.
func TestJudgesDoNotShare(t *testing.T) {
	light := func(i int, rotation sky.Angle) turning.Light {
		tr := turning.Transform{Rotation: rotation, RotationError: 0.001 * sky.Degree, Scale: 1}
		return turning.Light{Start: begin.Add(time.Duration(i) * time.Minute), Exposure: 50 * time.Second,
			FieldAngle: sky.Angle(i) * 0.25 * sky.Degree, Compared: turning.Compared{Fresh: i == 0, FromReference: &tr, FromPrevious: &tr}}
	}
	judge := turning.NewJudge(turning.DefaultLimits(1000), turning.Direct)
	for i := range 4 {
		judge, _ = judge.Next(light(i, 0))
	}
	one, _ := judge.Next(light(4, 0))
	before := one.Turned()
	judge.Next(light(4, 3*sky.Degree))
	assert.Equal(t, before, one.Turned())
	_, v := one.Next(light(4, 0))
	assert.Equal(t, turning.Unknown, v.Kind, "a light that is not later")
}

// A mount that stands 1.5° from where the derotator thinks makes the field creep, and the tilt is found; a
// derotator that is off is not explained by any tilt.
func TestTiltThatExplainsAResidual(t *testing.T) {
	believed, truth := exampleCourse(0, 0), exampleCourse(1.5*sky.Degree, 70*sky.Degree)
	from := evening(believed)
	field := simulate.NewField(simulate.Small(9))
	_, judge := run{field, believed, from, 3 * time.Minute, 30, turning.Direct, 3757, func(_ int, s *simulate.Shot) {
		s.Turned = simulate.Mistaken(believed, truth, from)
	}}.verdicts()
	tilt, err := turning.ExplainByTilt(believed, judge.Turned(), turning.Direct)
	require.NoError(t, err)
	was, is := sky.MountAxis(1.5*sky.Degree, 70*sky.Degree), sky.MountAxis(tilt.Axis.Tilt, tilt.Axis.Toward)
	t.Logf("tilt %v towards %v, %v from the true axis, which it says it knows to %v; rms %v; unique %t", tilt.Axis.Tilt, tilt.Axis.Toward, was.Separation(is), tilt.Axis.Uncertainty, tilt.RMS, tilt.Unique)
	assert.True(t, tilt.Explains)
	assert.LessOrEqual(t, tilt.Change.Degrees(), 1.6, "no more than the truth, and a tenth for noise")
	assert.LessOrEqual(t, was.Separation(is), tilt.Axis.Uncertainty, "the 95 % circle")
	found := exampleCourse(tilt.Axis.Tilt, tilt.Axis.Toward)
	turned := func(c *plan.Course) float64 {
		return (c.FieldAngle(from.Add(90*time.Minute)) - c.FieldAngle(from)).Degrees()
	}
	assert.InDelta(t, turned(truth), turned(found), 0.01, "the field of the found axis turns as the true one")
	if tilt.Unique {
		assert.Less(t, was.Separation(is).Degrees(), 0.75, "an axis that is the only one is near the true one")
	}
	_, err = turning.ExplainByTilt(believed, judge.Turned(), turning.UnknownParity)
	require.ErrorContains(t, err, "parity", "with the other parity another axis does as well")
	short, err := turning.ExplainByTilt(believed, judge.Turned()[:8], turning.Direct)
	require.NoError(t, err)
	assert.False(t, short.Unique, "in 24 minutes χ hardly bends, and a family of axes does as well")
	_, judge = run{field, believed, from, 3 * time.Minute, 20, turning.Direct, 0, func(_ int, s *simulate.Shot) {
		s.Turned = simulate.Off(believed, from)
	}}.verdicts()
	tilt, err = turning.ExplainByTilt(believed, judge.Turned(), turning.Direct)
	require.NoError(t, err)
	t.Logf("off: change %v, rms %v", tilt.Change, tilt.RMS)
	assert.False(t, tilt.Explains)
	_, err = turning.ExplainByTilt(believed, judge.Turned()[:2], turning.Direct)
	assert.ErrorContains(t, err, "three lights")
}

// A field that creeps about a guide star off the frame drifts, and the guide star is found; dithers alone are
// explained by nothing.
func TestPivotIsTheGuideStar(t *testing.T) {
	course := exampleCourse(0, 0)
	from := evening(course)
	scene := simulate.Small(10)
	scene.Pivot = framing.Pixel{X: 1500, Y: -700}
	slow := func(i int, s *simulate.Shot) {
		dithered(uint64(i))(i, s)
		s.Moved.X, s.Moved.Y = s.Moved.X/3, s.Moved.Y/3
		s.Turned = simulate.Slow(2*sky.DegreePerHour, from)
	}
	_, judge := run{simulate.NewField(scene), course, from, 3 * time.Minute, 20, turning.Direct, 0, slow}.verdicts()
	pivot, ok := turning.PivotOf(judge.Turned(), 499.5, 349.5)
	require.True(t, ok)
	t.Logf("pivot %.0f, %.0f ± %.0f; share %.2f", pivot.X, pivot.Y, pivot.Error, pivot.Share)
	assert.InDelta(t, 499.5+1500, pivot.X, 4*pivot.Error)
	assert.InDelta(t, 349.5-700, pivot.Y, 4*pivot.Error)
	assert.Less(t, pivot.Error, 200.0)
	assert.False(t, pivot.Explains(499.5, 349.5), "in an hour the arc hardly bends: an even drift would look the same")
	// The handbook's r·D: the drift over the run is what the framing says of a guide star so far off.
	turned := judge.Turned()
	last := turned[len(turned)-1]
	assert.InDelta(t, math.Hypot(1500, 700), pivot.Distance(499.5, 349.5), 4*pivot.Error)
	guided := framing.GuideShiftPixels(scene.Sensor, last.Camera, sky.Angle(math.Hypot(1500, 700))*scene.Sensor.PerPixel)
	dx, dy := last.Moved.MovedAt(499.5, 349.5)
	assert.InDelta(t, guided, math.Hypot(dx, dy), 15) // two dithers of up to 7 pixels

	scene.Pivot = framing.Pixel{}
	_, judge = run{simulate.NewField(scene), course, from, 3 * time.Minute, 20, turning.Direct, 0, slow}.verdicts()
	pivot, ok = turning.PivotOf(judge.Turned(), 499.5, 349.5)
	require.True(t, ok)
	assert.False(t, pivot.Explains(499.5, 349.5), "%+v", pivot)

	_, judge = run{simulate.NewField(scene), course, from, 3 * time.Minute, 20, turning.Direct, 0, dithered(4)}.verdicts()
	_, ok = turning.PivotOf(judge.Turned(), 499.5, 349.5)
	assert.False(t, ok, "a field that does not turn has no pivot")
}

// Lists that say nothing of noise and size match all the same.
func TestPlacesAloneAreEnough(t *testing.T) {
	field := simulate.NewField(simulate.Small(11))
	second := shot(1)
	second.Turned = turnedBy(0.5 * sky.Degree)
	bare := func(list []subs.Star) []subs.Star {
		var out []subs.Star
		for _, s := range list {
			out = append(out, subs.Star{X: s.X, Y: s.Y, Flux: s.Flux})
		}
		return out
	}
	got, err := turning.Match(bare(field.Seen(shot(0))), bare(field.Seen(second)))
	require.NoError(t, err)
	assert.InDelta(t, -0.5, got.Rotation.Degrees(), 5*got.RotationError.Degrees())
}
