package turning_test

import (
	"flag"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs/testdata/simulate"
	"duskhand/checklist/subs/turning"
	"duskhand/plan"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// exampleCourse is the example's first target, Tarantula at Perth, for an axis of that tilt.
func exampleCourse(tilt, toward sky.Angle) *plan.Course {
	k := kit.Example()
	night := plan.NewNight(k, plan.Date{Year: 2026, Month: time.December, Day: 5})
	return night.Course(k.Targets[0], kit.Axis{Tilt: tilt, Toward: toward, Uncertainty: 3 * sky.Degree})
}

// run is lights of one run through all that matching and judging do.
type run struct {
	field    *simulate.Field
	course   *plan.Course
	from     time.Time
	exposure time.Duration
	lights   int
	parity   turning.Parity
	corner   float64 // pixels; the field's own when 0
	change   func(i int, s *simulate.Shot)
}

func (r run) shot(i int) simulate.Shot {
	s := simulate.Shot{Start: r.from.Add(time.Duration(i) * (r.exposure + 20*time.Second)), Exposure: r.exposure}
	if r.change != nil {
		r.change(i, &s)
	}
	return s
}

func (r run) verdicts() ([]turning.Verdict, turning.Judge) {
	var series turning.Series
	if r.corner == 0 {
		r.corner = r.field.Sensor.CornerPixels()
	}
	judge := turning.NewJudge(turning.DefaultLimits(r.corner), r.parity)
	var verdicts []turning.Verdict
	for i := range r.lights {
		s := r.shot(i)
		light := turning.Light{Start: s.Start, Exposure: s.Exposure}
		light.FieldAngle = r.course.FieldAngle(light.Middle())
		series, light.Compared = series.Next(r.field.Seen(s))
		var v turning.Verdict
		judge, v = judge.Next(light)
		verdicts = append(verdicts, v)
	}
	return verdicts, judge
}

// firstAlarm returns the index of the first light with the alarm, -1 if there is none.
func firstAlarm(verdicts []turning.Verdict) int {
	for i, v := range verdicts {
		if v.Alarm {
			return i
		}
	}
	return -1
}

// dithered moves every light by up to 15 pixels.
func dithered(seed uint64) func(int, *simulate.Shot) {
	r := random(seed)
	return func(_ int, s *simulate.Shot) {
		s.Moved = framing.Pixel{X: 30*r.Float64() - 15, Y: 30*r.Float64() - 15}
	}
}

// evening is when the example's target turns fast, found by looking; the first test shows the rate.
func evening(c *plan.Course) time.Time { return c.Dark[0].From.Add(30 * time.Minute) }

func TestVerdicts(t *testing.T) {
	course := exampleCourse(0, 0)
	from := evening(course)
	t.Logf("the field turns %v at the start and %v two hours later", course.FieldRate(from), course.FieldRate(from.Add(2*time.Hour)))
	off := simulate.Off(course, from)
	fromLight5 := from.Add(5 * 200 * time.Second)
	tests := []struct {
		name   string
		change func(int, *simulate.Shot)
		want   turning.Kind // of the last light
		alarm  int          // index of the light that must raise it, -1 for none
		perH   float64      // °/h, NaN for what the field does
	}{
		{"tracking", nil, turning.Steady, -1, 0},
		{"tracking, dithered", dithered(1), turning.Steady, -1, 0},
		{"off from the start", func(_ int, s *simulate.Shot) { s.Turned = off }, turning.Off, 2, math.NaN()},
		{"off from the sixth light on", func(_ int, s *simulate.Shot) { s.Turned = simulate.Off(course, fromLight5) }, turning.Off, 6, math.NaN()},
		{"reversed", func(_ int, s *simulate.Shot) { s.Turned = simulate.Reversed(course, from) }, turning.Reversed, 2, math.NaN()},
		// 0.5 pixels at this small chip's corner in a light: no harm, but seen.
		{"one degree an hour", func(_ int, s *simulate.Shot) { s.Turned = simulate.Slow(1*sky.DegreePerHour, from) }, turning.Residual, -1, 1},
		{"three degrees an hour the other way", func(_ int, s *simulate.Shot) { s.Turned = simulate.Slow(-3*sky.DegreePerHour, from) }, turning.Residual, 2, -3},
		{"a cloud gap while tracking", func(i int, s *simulate.Shot) {
			if i >= 4 && i < 8 {
				s.Cloud = 0.9999
			}
		}, turning.Steady, -1, 0},
		{"off through a cloud gap", func(i int, s *simulate.Shot) {
			s.Turned = simulate.Off(course, from.Add(5*200*time.Second))
			if i >= 6 && i < 9 {
				s.Cloud = 0.9999
			}
		}, turning.Off, 9, math.NaN()},
		{"one knock of a degree", func(_ int, s *simulate.Shot) {
			s.Turned = func(at time.Time) sky.Angle {
				if at.Before(fromLight5) {
					return 0
				}
				return sky.Degree
			}
		}, turning.Steady, -1, 0},
	}
	for i, test := range tests {
		for _, parity := range []turning.Parity{turning.Direct, turning.Flipped, turning.UnknownParity} {
			t.Run(test.name+map[turning.Parity]string{-1: ", rows from the top", 0: ", parity unknown", 1: ""}[parity], func(t *testing.T) {
				scene := simulate.Small(uint64(i))
				scene.TopDown = parity == turning.Flipped
				verdicts, _ := run{simulate.NewField(scene), course, from, 3 * time.Minute, 12, parity, 0, test.change}.verdicts()
				last := verdicts[len(verdicts)-1]
				t.Logf("%s at %v ± %v over %d lights, predicted %v; alarm at light %d", last.Kind, last.Rate, last.RateError, last.Lights, last.Predicted, firstAlarm(verdicts))
				assert.Equal(t, test.want, last.Kind, last.Why)
				assert.Equal(t, test.alarm, firstAlarm(verdicts))
				if !math.IsNaN(test.perH) {
					assert.InDelta(t, test.perH, last.Rate.DegreesPerHour(), 5*last.RateError.DegreesPerHour())
				}
				if last.Kind == turning.Off {
					share, ok := last.Share()
					require.True(t, ok)
					assert.InDelta(t, 1, share, 0.02)
					want := turning.Direct
					if scene.TopDown {
						want = turning.Flipped
					}
					assert.Equal(t, want, last.Parity, "as the turning itself shows")
				}
			})
		}
	}
}

// The same degree an hour on a chip whose corner is 3757 pixels off trails by 3.3 pixels in three minutes.
func TestOneDegreeAnHourOnALargeChip(t *testing.T) {
	course := exampleCourse(0, 0)
	from := evening(course)
	slow := run{simulate.NewField(simulate.Small(3)), course, from, 3 * time.Minute, 8, turning.Direct, 3757,
		func(_ int, s *simulate.Shot) { s.Turned = simulate.Slow(-1*sky.DegreePerHour, from) }}
	verdicts, _ := slow.verdicts()
	assert.Equal(t, 2, firstAlarm(verdicts), "the second light of which the step is known")
	last := verdicts[len(verdicts)-1]
	assert.Equal(t, turning.Residual, last.Kind)
	assert.InDelta(t, -1, last.Rate.DegreesPerHour(), 5*last.RateError.DegreesPerHour())
	assert.Less(t, last.RateError.DegreesPerHour(), 0.03) // 0.003° at both ends of 23 minutes
}

// sweep makes the long tests longer: by how many times they go their rounds.
var sweep = flag.Int("sweep", 1, "how many times as long the long tests take")

// Any night of the example's target, dithered, with honest jitter of the stage: tracking lights must never raise
// the alarm, and a derotator that stops or turns the wrong way must within two lights that show it.
func TestManyNights(t *testing.T) {
	course := exampleCourse(0, 0)
	nights := 8 * *sweep
	falsely, late, harmfulNights, told := 0, 0, 0, map[turning.Kind]int{}
	for night := range uint64(nights) {
		r := random(night)
		scene := simulate.Small(night)
		scene.LeastStars = 120
		scene.TopDown = r.IntN(2) == 1
		field := simulate.NewField(scene)
		from := course.Dark[0].From.Add(time.Duration(r.Float64() * float64(5*time.Hour)))
		exposure := time.Duration(30+r.IntN(270)) * time.Second
		parity := turning.Parity(r.IntN(3) - 1)
		if parity != turning.UnknownParity && (parity == turning.Flipped) != scene.TopDown {
			parity = -parity
		}
		clean := run{field, course, from, exposure, 14, parity, 0, jittery(r, nil)}
		verdicts, _ := clean.verdicts()
		for _, v := range verdicts {
			told[v.Kind]++
			assert.NotContains(t, []turning.Kind{turning.Off, turning.Reversed}, v.Kind, "night %d, exposure %v: %+v", night, exposure, v)
		}
		if at := firstAlarm(verdicts); at >= 0 {
			falsely++
			t.Errorf("night %d, exposure %v: alarm at light %d: %+v", night, exposure, at, verdicts[at])
		}
		if night%2 == 1 {
			continue // half of them are enough for what shows at once
		}
		begins := 1 + r.IntN(5)
		stop := from.Add(time.Duration(begins) * (exposure + 20*time.Second))
		for kind, turned := range map[turning.Kind]simulate.Turning{turning.Off: simulate.Off(course, stop), turning.Reversed: simulate.Reversed(course, stop)} {
			verdicts, _ := run{field, course, from, exposure, begins + 3, parity, 0, jittery(r, turned)}.verdicts()
			at := firstAlarm(verdicts)
			// A light is bad when its stars trail by a pixel at the corner; slower than that there is time.
			harmful := math.Abs(float64(course.FieldRate(stop)))*exposure.Seconds()*field.Sensor.CornerPixels() > 2.2
			if harmful && (at < begins || at > begins+1) {
				late++
				t.Errorf("night %d, %s from light %d on, exposure %v, field %v: alarm at light %d", night, kind, begins, exposure, course.FieldRate(stop), at)
			}
			if harmful {
				harmfulNights++
				assert.Equal(t, kind, verdicts[begins+2].Kind, "night %d", night)
			}
		}
	}
	assert.Greater(t, harmfulNights, nights/2, "of half as many nights, two ways each")
	t.Logf("%d clean nights of 14 lights, %d with a false alarm; %d bad ones, %d late or missed alarms; verdicts in clean nights: %v", nights, falsely, harmfulNights, late, told)
}

// jittery dithers and shakes the stage by 0.001°.
func jittery(r *rand.Rand, turned simulate.Turning) func(int, *simulate.Shot) {
	return func(_ int, s *simulate.Shot) {
		s.Moved = framing.Pixel{X: 40*r.Float64() - 20, Y: 40*r.Float64() - 20}
		shaken := sky.Angle(r.NormFloat64()) * 0.001 * sky.Degree
		s.Turned = func(at time.Time) sky.Angle {
			if turned != nil {
				return turned(at) + shaken
			}
			return shaken
		}
	}
}
