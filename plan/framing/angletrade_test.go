package framing_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
)

func eveningOf(c *plan.Course) plan.Span {
	from := c.Span.From.Add(9 * time.Hour)
	return plan.Span{From: from, To: from.Add(6 * time.Hour)}
}

func TestWhicheverReadingGivesTheAngle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		course := exampleCourse(func(k *kit.Kit) {
			k.Derotator.Sense = rapid.SampledFrom([]int{-1, 1}).Draw(t, "sense")
			k.Derotator.Min = anyAngle(t, "min", -200, 50)
			k.Derotator.Max = k.Derotator.Min + anyAngle(t, "travel", 10, 400)
			k.Camera.AngleAtZero = anyAngle(t, "zero", -180, 180)
			k.Axis.Uncertainty = 0
		})
		d, span := course.Kit.Derotator, eveningOf(course)
		wanted := anyAngle(t, "wanted", 0, 360)
		alike := sky.Angle(rapid.SampledFrom([]float64{360, 180, 90}).Draw(t, "alike")) * sky.Degree
		choice := framing.ChooseAngle(course, wanted, alike, span)
		for _, s := range choice.Giving {
			require.InDelta(t, 0, framing.Off(s.CameraAngle, wanted, alike).Degrees(), 1e-9, "each gives the angle")
			require.Equal(t, s.Reading >= d.Min && s.Reading <= d.Max, s.Within)
		}
		expected := int(float64(d.Travel() / alike)) // at least so many fit, at most one more
		if choice.Possible() {
			require.GreaterOrEqual(t, len(choice.Giving), expected)
			require.LessOrEqual(t, len(choice.Giving), expected+1)
			require.Zero(t, int64(choice.Off.Degrees()*1e6))
		} else {
			require.Zero(t, expected, "with a travel of alike there is always one")
			require.Len(t, choice.Giving, 2)
			require.Less(t, choice.Giving[0].Reading-d.Min, d.Travel())
			// No reading comes nearer: the nearest is an end.
			for i := range 21 {
				reading := d.Min + d.Travel()*sky.Angle(i)/20
				off := framing.Off(course.CameraAngle(reading, span.From), wanted, alike)
				require.GreaterOrEqual(t, off.Abs()+1e-12, choice.Off.Abs())
			}
		}
		require.GreaterOrEqual(t, choice.Cost(), time.Duration(0))
	})
}

// The longest run of the example and a wanted angle, worked the slow way: the reading at the angle is found
// by trying, and its run by asking for it.
func TestChoiceAgreesWithTrying(t *testing.T) {
	course := exampleCourse(func(*kit.Kit) {})
	span := eveningOf(course)
	for _, reading := range []sky.Angle{-15 * sky.Degree, 0, 9 * sky.Degree} {
		choice := framing.ChooseAngle(course, course.CameraAngle(reading, span.From), 180*sky.Degree, span)
		require.True(t, choice.Possible())
		require.Len(t, choice.Giving, 1, "32° of travel hold one reading in 180°")
		assert.InDelta(t, reading.Degrees(), choice.Nearest.Reading.Degrees(), 1e-9)
		run := course.From(plan.Anchor{At: span.From, Angle: reading}, span.To)
		assert.WithinDuration(t, run.Until, choice.Nearest.Run.Until, 5*time.Millisecond) // roots to 1 ms
		assert.Equal(t, choice.Longest.Run.Until.Sub(run.Until).Round(time.Second), choice.Cost().Round(time.Second))
	}
}

func TestAFrameUpsideDownServesAsWell(t *testing.T) {
	course := exampleCourse(func(*kit.Kit) {})
	span := eveningOf(course)
	opposite := course.CameraAngle(3*sky.Degree, span.From) + 180*sky.Degree
	assert.True(t, framing.ChooseAngle(course, opposite, 180*sky.Degree, span).Possible())
	assert.False(t, framing.ChooseAngle(course, opposite, 360*sky.Degree, span).Possible(), "with the up that way round it can't be had")
}

func TestNearestAngleWhenTheWantedIsOutOfTravel(t *testing.T) {
	course := exampleCourse(func(*kit.Kit) {})
	span := eveningOf(course)
	d := course.Kit.Derotator
	beyond := course.CameraAngle(d.Max, span.From) - 5*sky.Degree // sense +1: a larger reading is a smaller angle
	choice := framing.ChooseAngle(course, beyond, 180*sky.Degree, span)
	require.False(t, choice.Possible())
	assert.Equal(t, d.Max, choice.Nearest.Reading)
	assert.InDelta(t, 5, choice.Off.Degrees(), 1e-9)
	assert.False(t, choice.Giving[0].Within || choice.Giving[1].Within)
	assert.InDelta(t, 180, (choice.Giving[1].Reading - choice.Giving[0].Reading).Abs().Degrees(), 1e-9)
	for _, s := range choice.Giving {
		assert.Equal(t, span.From, s.Run.Until, "nothing is promised for a reading that can't be had")
	}
}

func TestAStageThatStopsAtItsEndsOffersThem(t *testing.T) {
	course := exampleCourse(func(k *kit.Kit) { k.Derotator.StopsAnywhere = false })
	span := eveningOf(course)
	d := course.Kit.Derotator
	table := framing.AngleTable(course, span, sky.Degree)
	require.Len(t, table, 2)
	assert.Equal(t, d.Min, table[0].Reading)
	assert.Equal(t, d.Max, table[1].Reading)
	middle := framing.ChooseAngle(course, course.CameraAngle(2*sky.Degree, span.From), 180*sky.Degree, span)
	assert.False(t, middle.Possible())
	assert.Equal(t, d.Max, middle.Nearest.Reading, "2° is nearer to 16° than to −16°")
	end := framing.ChooseAngle(course, course.CameraAngle(d.Min+0.05*sky.Degree, span.From), 180*sky.Degree, span)
	assert.True(t, end.Possible(), "within a tenth of a degree of an end")
}

func TestTableRunsFromLimitToLimit(t *testing.T) {
	course := exampleCourse(func(k *kit.Kit) { k.Axis.Uncertainty = 0 })
	span := eveningOf(course)
	table := framing.AngleTable(course, span, 3*sky.Degree)
	require.Len(t, table, 12) // 32° in steps of at most 3°: eleven steps
	assert.Equal(t, course.Kit.Derotator.Min, table[0].Reading)
	assert.Equal(t, course.Kit.Derotator.Max, table[11].Reading)
	for i, s := range table {
		assert.True(t, s.Within)
		assert.InDelta(t, 0, Signed(s.CameraAngle-course.CameraAngle(s.Reading, span.From)), 1e-9)
		if i > 0 {
			assert.InDelta(t, 32.0/11, (s.Reading - table[i-1].Reading).Degrees(), 1e-9)
		}
	}
	longest := course.LongestRun(span.From, span.To)
	for _, s := range table {
		assert.False(t, s.Run.Until.After(longest.Until.Add(5*time.Millisecond)))
	}
}

func TestOffIsTheSmallestTurn(t *testing.T) {
	tests := []struct {
		name                       string
		angle, wanted, alike, want float64
	}{
		{"itself", 30, 30, 360, 0},
		{"across north", 350, 10, 360, -20},
		{"upside down", 200, 10, 180, 10},
		{"upside down counts in full turns", 200, 10, 360, -170},
		{"half-way, the closed end", 100, 10, 180, 90},
		{"half-way from the other side", 10, 100, 180, 90},
		{"a square chip", 100, 5, 90, 5},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			d := func(x float64) sky.Angle { return sky.Angle(x) * sky.Degree }
			assert.InDelta(t, test.want, framing.Off(d(test.angle), d(test.wanted), d(test.alike)).Degrees(), 1e-9)
		})
	}
}

// With a travel of 200° every run can coincide with the first; with the example's 32° most can't.
func TestCoincidingRunsCoincide(t *testing.T) {
	for _, travel := range []float64{32, 200, 380} {
		course := exampleCourse(func(k *kit.Kit) {
			k.Derotator.Min, k.Derotator.Max = 0, sky.Angle(travel)*sky.Degree
		})
		plain := course.Schedule(plan.Start{At: course.Span.From}, plan.NewSequence(course.Kit.Subs))
		same := framing.CoincidingRuns(course, course.Span.From, nil, nil, 180*sky.Degree, plan.NewSequence(course.Kit.Subs))
		require.NotEmpty(t, same.Runs, "travel %v°", travel)
		field := framing.SharedBy(framing.MainSensor(course.Kit), anglesOf(same.Runs), nil, framing.PlanePoint{})
		assert.InDelta(t, 1, field[len(field)-1].Common.Share, 1e-9, "all frames cover the same sky")
		assert.LessOrEqual(t, same.Exposed(), plain.Exposed()+time.Hour/6)
		for i, run := range same.Runs {
			assert.GreaterOrEqual(t, run.StartAngle, course.Kit.Derotator.Min)
			assert.LessOrEqual(t, run.StartAngle, course.Kit.Derotator.Max)
			assert.NotEmpty(t, run.Subs)
			if i > 0 {
				assert.False(t, run.From.Before(same.Runs[i-1].To), "one run after the other")
				assert.InDelta(t, 0, framing.Off(run.CameraAngle, same.Runs[0].CameraAngle, 180*sky.Degree).Degrees(), 1e-6)
			}
		}
		if travel >= 180 {
			assert.InDelta(t, plain.Exposed().Hours(), same.Exposed().Hours(), 0.5, "with the travel for it, it costs little")
		} else {
			assert.Less(t, same.Exposed(), plain.Exposed()*2/3, "32° out of 180° leave long waits")
		}
		t.Logf("travel %v°: %d runs, %v exposed, against %d runs, %v", travel, len(same.Runs), same.Exposed(), len(plain.Runs), plain.Exposed())
	}
}

func TestRewindsOfCoincidingRunsTakeTheirTime(t *testing.T) {
	course := exampleCourse(func(k *kit.Kit) { k.Derotator.Min, k.Derotator.Max = -10*sky.Degree, 80*sky.Degree+10*sky.Degree })
	at, wanted := 20*sky.Degree, course.CameraAngle(0, eveningOf(course).From)
	same := framing.CoincidingRuns(course, eveningOf(course).From, &at, &wanted, 90*sky.Degree, plan.NewSequence(course.Kit.Subs))
	require.NotEmpty(t, same.Rewinds)
	assert.Equal(t, at, same.Rewinds[0].FromAngle)
	assert.InDelta(t, 0, framing.Off(same.Runs[0].CameraAngle, wanted, 90*sky.Degree).Degrees(), 1e-6)
	require.GreaterOrEqual(t, len(same.Runs), 2, "100° of travel, and the field turns further")
	for _, r := range same.Rewinds {
		needed := course.RewindTime(r.FromAngle, r.ToAngle)
		assert.InDelta(t, needed.Seconds(), r.Turns.Seconds(), 0.001)
	}
}
