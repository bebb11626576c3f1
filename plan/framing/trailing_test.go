package framing_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
)

func TestTrailByHand(t *testing.T) {
	// 15°/h for 60 s is 0.25° = 0.0043633 rad; at 2000 pixels 8.7266.
	rate := 15 * sky.DegreePerHour
	sub, ok := framing.LongestSubAtRate(-rate, 2000, 8.7266)
	require.True(t, ok)
	assert.InDelta(t, 60, sub.Seconds(), 0.001)
	_, ok = framing.LongestSubAtRate(0, 2000, 1)
	assert.False(t, ok, "a field that stands still never trails")
	_, ok = framing.LongestSubAtRate(rate, 0, 1)
	assert.False(t, ok, "nor does the centre")
}

func TestGuideStarOffTheCentreByHand(t *testing.T) {
	// 0.1° of turn about a guide star 1° away: 3600″ × 0.0017453 = 6.2832″.
	assert.InDelta(t, 6.2832, framing.GuideShift(0.1*sky.Degree, 1*sky.Degree).Arcseconds(), 0.0001)
	assert.InDelta(t, 3.1416, framing.GuideShiftPixels(sensor{PerPixel: 2 * sky.Arcsecond}, -0.1*sky.Degree, 1*sky.Degree), 0.0001)
	assert.Zero(t, framing.GuideShift(0.1*sky.Degree, 0), "a guide star at the centre costs nothing")
	assert.InDelta(t, 2, framing.GuideShift(180*sky.Degree, 1*sky.Degree).Degrees(), 1e-12, "half a turn carries it to the other side")
}

// Away from a reversal the sub is the one of the rate; across one it is longer, and the swing is what was
// allowed.
func TestLongestSubWithoutDerotation(t *testing.T) {
	course := exampleCourse(func(*kit.Kit) {})
	corner := framing.MainSensor(course.Kit).CornerPixels()
	span := eveningOf(course)
	sub, ok := framing.LongestSubStill(course, span, corner, 1)
	require.True(t, ok)
	atRate, ok := framing.LongestSubAtRate(course.FieldRate(span.From), corner, 1)
	require.True(t, ok)
	assert.InDelta(t, 1, sub.Seconds()/atRate.Seconds(), 0.01) // the rate changes by less in seconds
	turned := course.FieldAngle(span.From.Add(sub)) - course.FieldAngle(span.From)
	assert.InDelta(t, 1, math.Abs(turned.Radians())*corner, 0.001)
}

func TestASubAcrossAReversal(t *testing.T) {
	k := kit.Example()
	k.Site.Place.Latitude = 50 * sky.Degree
	night := plan.NewNight(k, exampleDate)
	// δ = 60° at latitude 50° culminates between zenith and pole, and passes azimuth 90° and 270° never; δ = 40°
	// south of the zenith crosses due east and west above the horizon.
	course := night.Course(kit.Target{Star: sky.Star{Place: sky.J2000{RA: 60 * sky.Degree, Dec: 40 * sky.Degree}}}, kit.Axis{})
	reversals := course.Reversals(course.Span)
	require.NotEmpty(t, reversals)
	start := reversals[0].Add(-10 * time.Minute)
	span := plan.Span{From: start, To: start.Add(2 * time.Hour)}
	const corner = 3757.5
	swing := (course.FieldAngle(reversals[0]) - course.FieldAngle(start)).Abs()
	allowed := swing.Radians() * corner * 1.5 // reached after the field has turned back past its start
	sub, ok := framing.LongestSubStill(course, span, corner, allowed)
	require.True(t, ok)
	assert.Greater(t, sub, 20*time.Minute, "the field goes and comes back")
	low, high := math.Inf(1), math.Inf(-1)
	for i := range 2001 { // the slow obvious way: the swing of χ, looked at 2001 times
		chi := float64(course.FieldAngle(start.Add(sub * time.Duration(i) / 2000)))
		low, high = min(low, chi), max(high, chi)
	}
	assert.InDelta(t, allowed, (high-low)*corner, allowed*1e-4)
	_, ok = framing.LongestSubStill(course, plan.Span{From: start, To: start.Add(12 * time.Minute)}, corner, allowed)
	assert.False(t, ok, "not reached in 12 minutes")
}
