package turning_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs/testdata/simulate"
	"duskhand/checklist/subs/turning"
	"duskhand/sky"
)

// shortSubs are lights of 20 s, in which no star at this small corner trails by a pixel.
func shortSubs(seed uint64, lights int, turned simulate.Turning) ([]turning.Verdict, time.Time) {
	course := exampleCourse(0, 0)
	from := evening(course)
	field := simulate.NewField(simulate.Small(seed))
	r := run{field, course, from, 20 * time.Second, lights, turning.UnknownParity, 400,
		func(i int, s *simulate.Shot) {
			dithered(seed+uint64(i))(i, s)
			s.Turned = turned
		}}
	verdicts, _ := r.verdicts()
	return verdicts, from
}

// A derotator that stops is told from short subs as well, though no single one shows it.
func TestShortSubsTellWhatStandsStill(t *testing.T) {
	course := exampleCourse(0, 0)
	stop := evening(course).Add(5 * 40 * time.Second)
	for name, test := range map[string]struct {
		turned simulate.Turning
		want   turning.Kind
	}{
		"off from light 5":      {simulate.Off(course, stop), turning.Off},
		"reversed from light 5": {simulate.Reversed(course, stop), turning.Reversed},
		"off from the start":    {simulate.Off(course, evening(course)), turning.Off},
		"tracking":              {nil, turning.Steady},
		"two degrees an hour":   {simulate.Slow(2*sky.DegreePerHour, evening(course)), turning.Steady}, // it moves the corner by less than two pixels in all
	} {
		t.Run(name, func(t *testing.T) {
			verdicts, _ := shortSubs(3, 12, test.turned)
			for i, v := range verdicts[1:] {
				t.Logf("light %d: %s, %.2f ± %.2f°/h of %.2f over %d, alarm %v: %s", i+1, v.Kind, v.Rate.DegreesPerHour(), v.RateError.DegreesPerHour(),
					v.Predicted.DegreesPerHour(), v.Lights, v.Alarm, v.Why)
				assert.NotEqual(t, turning.SlowField, v.Why, "the error is small against what the field turns")
				if test.turned == nil {
					assert.False(t, v.Kind.Bad(), "light %d", i+1)
				}
			}
			last := verdicts[len(verdicts)-1]
			assert.Equal(t, test.want, last.Kind, last.Why)
			if test.want == turning.Off || test.want == turning.Reversed {
				assert.Equal(t, test.want, verdicts[9].Kind, "four lights later")
				assert.GreaterOrEqual(t, last.Lights, 3)
				share, _ := last.Share()
				assert.InDelta(t, map[turning.Kind]float64{turning.Off: 1, turning.Reversed: 2}[test.want], share, 0.02, "the lights before it stopped are left out")
				assert.Equal(t, turning.Direct, last.Parity)
			}
		})
	}
}

// A single turn of the camera is a step and no rate: the one of which the derotator is put right after standing.
func TestAStepIsNoRate(t *testing.T) {
	course := exampleCourse(0, 0)
	from := evening(course)
	right := from.Add(5 * 200 * time.Second)
	off := simulate.Off(course, from)
	knock := func(at time.Time) sky.Angle {
		if at.Before(right) {
			return 0
		}
		return 3 * sky.Degree
	}
	putRight := func(at time.Time) sky.Angle {
		if at.Before(right) {
			return off(at)
		}
		return 0
	}
	for name, turned := range map[string]simulate.Turning{"a knock": knock, "put right": putRight, "spinning": simulate.Slow(-90*sky.DegreePerHour, right.Add(-200*time.Second))} {
		t.Run(name, func(t *testing.T) {
			verdicts, _ := run{simulate.NewField(simulate.Small(4)), course, from, 3 * time.Minute, 8, turning.Direct, 0,
				func(_ int, s *simulate.Shot) { s.Turned = turned }}.verdicts()
			step, ok := verdicts[5].Step()
			switch name {
			case "a knock":
				require.True(t, ok, "%+v", verdicts[5])
				assert.InDelta(t, 3, step.Degrees(), 0.02)
				assert.False(t, verdicts[5].Alarm)
			case "spinning":
				assert.False(t, ok, "the second in a row: %+v", verdicts[5])
				assert.True(t, verdicts[5].Alarm)
			default: // four lights of standing still at the mean rate, less the fifth's own
				require.True(t, ok, "%+v", verdicts[5])
				assert.InDelta(t, -(off(from.Add(4*200*time.Second + 90*time.Second))).Degrees(), step.Degrees(), 0.02)
				assert.True(t, verdicts[5].Alarm, "nothing has shown yet that it tracks")
			}
			for _, v := range verdicts[6:] {
				_, ok = v.Step()
				assert.False(t, ok)
			}
		})
	}
}

// An axis that leans three degrees otherwise than believed turns the field of a derotator that tracks, wherever it
// leans to and however slowly the field itself turns; that is never told as Off or Reversed.
func TestShortSubsUnderAnUnknownTilt(t *testing.T) {
	believed, field := exampleCourse(0, 0), simulate.NewField(simulate.Small(7))
	for toward := sky.Angle(0); toward < 360*sky.Degree; toward += 360 * sky.Degree / sky.Angle(4**sweep) {
		truth := exampleCourse(3*sky.Degree, toward)
		for hour := 0; hour < 6; hour += 2 {
			from := believed.Dark[0].From.Add(time.Duration(hour) * time.Hour)
			verdicts, _ := run{field, believed, from, 20 * time.Second, 12, turning.UnknownParity, 400,
				func(_ int, s *simulate.Shot) { s.Turned = simulate.Mistaken(believed, truth, from) }}.verdicts()
			for i, v := range verdicts {
				assert.NotContains(t, []turning.Kind{turning.Off, turning.Reversed}, v.Kind, "toward %v, hour %d, light %d: %+v", toward, hour, i, v)
			}
		}
	}
}
