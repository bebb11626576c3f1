package plan_test

import (
	"math"
	"math/rand/v2"
	"sort"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// The field's angle an hour after the run, over the ellipse of the fit and from its anchor: it holds the
// truth, and is narrower than over the circle believed before.
func TestRimHoldsTheAngleAhead(t *testing.T) {
	const seed, trials = 27, 60
	random := rand.New(rand.NewPCG(seed, 0))
	within := 0
	var narrower []float64
	for range trials {
		tr := anyTracked(random)
		start := plan.Anchor{At: tr.run.From}
		var readings []plan.Anchor
		for i := range 6 {
			at := tr.run.From.Add(tr.run.Length() * time.Duration(i) / 5)
			readings = append(readings, plan.Anchor{At: at, Angle: tr.truth.Angle(start, at) + readingError*sky.Angle(random.NormFloat64())})
		}
		fit, err := tr.believed.FitTilt(readings, readingError)
		require.NoError(t, err)
		ahead := tr.run.To.Add(time.Hour)
		truth := tr.truth.Angle(start, ahead)
		low, high := tr.ahead(fit.Anchor, ahead, fit.Spread.Rim(fit.Axis))
		const anchors = 3 * readingError / 2 // three standard errors of the anchor, which is good to half a reading's
		if truth >= low-anchors && truth <= high+anchors {
			within++
		}
		before := plan.Spread{East: 3 * sky.Degree / 2.4477, North: 3 * sky.Degree / 2.4477}.Rim(kit.Axis{})
		lowBefore, highBefore := tr.ahead(readings[5], ahead, before)
		narrower = append(narrower, float64((high-low)/(highBefore-lowBefore)))
	}
	sort.Float64s(narrower)
	t.Logf("seed %d: %d of %d within; the span an hour ahead is %.2f of what it was in the middle, %.2f at 90 %%", seed, within, trials, narrower[trials/2], narrower[trials*9/10])
	assert.GreaterOrEqual(t, within, trials*95/100, "seed %d", seed)
	assert.Less(t, narrower[trials/2], 0.5, "seed %d", seed)
}

// ahead returns the lowest and highest mechanical angle at an instant over axes, from one anchor.
func (tr tracked) ahead(anchor plan.Anchor, at time.Time, axes []kit.Axis) (low, high sky.Angle) {
	low, high = 1e9, -1e9
	b := tr.believed
	frame := sky.NewFrame(b.Kit.Site.Place, b.Span.From.Add(b.Span.Length()/2), b.Kit.Site.DUT1)
	for _, axis := range axes {
		course := plan.NewCourse(b.Kit, frame, plan.Span{From: tr.run.From, To: at}, b.Target, axis)
		angle := course.Angle(anchor, at)
		low, high = min(low, angle), max(high, angle)
	}
	return low, high
}

// Every axis of the rim is as likely as the next, 95 % inside it, by the covariance it was made from.
func TestRimIsTheEllipse(t *testing.T) {
	spread := plan.Spread{East: 0.2 * sky.Degree, North: 0.5 * sky.Degree, Correlation: 0.6}
	axis := kit.Axis{Tilt: 3 * sky.Degree, Toward: 40 * sky.Degree}
	e0, n0 := vector(axis.Tilt, axis.Toward)
	for _, rim := range spread.Rim(axis) {
		e, n := vector(rim.Tilt, rim.Toward)
		x, y := (e-e0)/0.2, (n-n0)/0.5
		// The quadratic form of a normal distribution; √5.9915 holds 95 % (χ² tables, 2 degrees of freedom).
		distance := math.Sqrt((x*x - 2*0.6*x*y + y*y) / (1 - 0.6*0.6))
		assert.InDelta(t, math.Sqrt(5.9915), distance, 0.001) // 2.4477 has four decimals
		assert.LessOrEqual(t, math.Hypot(e-e0, n-n0), spread.Radius().Degrees()*1.02)
	}
}

// The ellipse of a spread that is a circle bounds a limit as the circle of the same radius does.
func TestCourseWithinARoundSpreadIsTheCourseOfItsCircle(t *testing.T) {
	k := exampleKit()
	night := plan.NewNight(k, exampleDate)
	spread := plan.Spread{East: 0.5 * sky.Degree, North: 0.5 * sky.Degree}
	axis := k.Axis
	axis.Uncertainty = spread.Radius()
	anchor := plan.Anchor{At: night.Dark[0].From, Angle: k.Derotator.Min}
	circle := night.Course(k.Targets[0], axis).Limit(anchor, night.Span.To)
	ellipse := night.CourseWithin(k.Targets[0], axis, &spread).Limit(anchor, night.Span.To)
	// 2 s: the circle lies on the sphere, the ellipse in the plane of tilt vectors.
	assert.WithinDuration(t, circle.Early.At, ellipse.Early.At, 2*time.Second)
	assert.WithinDuration(t, circle.Late.At, ellipse.Late.At, 2*time.Second)

	narrow := plan.Spread{East: 0.05 * sky.Degree, North: 0.5 * sky.Degree, Correlation: 0.3}
	less := night.CourseWithin(k.Targets[0], axis, &narrow).Limit(anchor, night.Span.To)
	assert.Less(t, less.Late.At.Sub(less.Early.At), circle.Late.At.Sub(circle.Early.At))
}
