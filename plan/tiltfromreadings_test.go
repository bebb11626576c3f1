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

const readingError = 0.1 * sky.Degree // a scale with whole degrees, read by eye, or a stage that rounds

// tracked is a run that is tracked with an axis nobody knows: what is believed, what is true, and the span.
type tracked struct {
	believed, truth *plan.Course
	run             plan.Span
}

// anyTracked draws a run of one to two hours on a target 20° to 75° high, for an axis believed to be upright
// to 3° and anywhere within that.
func anyTracked(random *rand.Rand) tracked {
	between := func(low, high float64) sky.Angle { return sky.Angle(low+(high-low)*random.Float64()) * sky.Degree }
	k := exampleKit()
	k.Derotator.Sense = 1 - 2*random.IntN(2)
	for {
		k.Site.Place = sky.Site{Latitude: between(-60, 60), Longitude: between(-180, 180)}
		night := plan.NewNight(k, plan.Date{Year: 2026, Month: time.Month(1 + random.IntN(12)), Day: 1 + random.IntN(28)})
		target := kit.Target{Star: sky.Star{Place: sky.J2000{RA: between(0, 360), Dec: between(-80, 80)}}}
		from := night.Span.From.Add(6*time.Hour + time.Duration(random.Float64()*float64(8*time.Hour)))
		run := plan.Span{From: from, To: from.Add(time.Hour + time.Duration(random.Float64()*float64(time.Hour)))}
		axis := kit.Axis{Tilt: 3 * sky.Degree * sky.Angle(math.Sqrt(random.Float64())), Toward: between(0, 360)}
		fixed := night.Frame.Fix(target.Star)
		first, last := night.Frame.Horizontal(fixed, run.From).Altitude, night.Frame.Horizontal(fixed, run.To).Altitude
		if min(first, last) < 20*sky.Degree || max(first, last) > 75*sky.Degree {
			continue
		}
		truth := plan.NewCourse(k, night.Frame, night.Span, target, axis)
		believed := plan.NewCourse(k, night.Frame, night.Span, target, kit.Axis{Uncertainty: 3 * sky.Degree})
		return tracked{believed, truth, run}
	}
}

// read returns n readings over the run with errors of sigma.
func (tr tracked) read(random *rand.Rand, n int, sigma sky.Angle) []plan.Anchor {
	start := plan.Anchor{At: tr.run.From, Angle: sky.Angle(random.Float64()*200-100) * sky.Degree}
	var readings []plan.Anchor
	for i := range n {
		at := tr.run.From.Add(tr.run.Length() * time.Duration(i) / time.Duration(n))
		reading := tr.truth.Angle(start, at) + sigma*sky.Angle(random.NormFloat64())
		readings = append(readings, plan.Anchor{At: at, Angle: reading})
	}
	return readings
}

// off returns how far, in degrees, an axis is from the true one.
func (tr tracked) off(axis kit.Axis) float64 {
	return apart(axis.Tilt, axis.Toward, tr.truth.Axis.Tilt, tr.truth.Axis.Toward)
}

// The true axis lies inside the stated circle in at least 95 % of 300 runs, and the circle is no larger than
// it must be: half the errors are over a sixth of it.
func TestTiltFromReadingsHoldsTheTruth(t *testing.T) {
	const seed, trials = 21, 300
	random := rand.New(rand.NewPCG(seed, 0))
	within, better, doubted := 0, 0, 0
	var stated, ratios []float64
	for range trials {
		tr := anyTracked(random)
		fit, err := tr.believed.FitTilt(tr.read(random, 3+random.IntN(6), readingError), readingError)
		require.NoError(t, err)
		off, known := tr.off(fit.Axis), fit.Axis.Uncertainty.Degrees()
		require.LessOrEqual(t, known, 3.0001) // what was known before, and the rounding of 2.4477
		if off <= known {
			within++
		}
		if off < tr.off(tr.believed.Axis) {
			better++
		}
		doubted += len(fit.Doubtful)
		stated, ratios = append(stated, known), append(ratios, off/known)
	}
	sort.Float64s(stated)
	sort.Float64s(ratios)
	t.Logf("seed %d: %d of %d within the circle; nearer than before in %d; stated %.2f° in the middle (%.2f° to %.2f°); error over stated %.2f in the middle, %.2f at 95 %%; %d readings doubted",
		seed, within, trials, better, stated[trials/2], stated[trials/20], stated[trials*19/20], ratios[trials/2], ratios[trials*19/20], doubted)
	assert.GreaterOrEqual(t, within, trials*95/100, "seed %d", seed)
	assert.Greater(t, ratios[trials/2], 1.0/6, "seed %d: the circle is too wide", seed)
	assert.Greater(t, better, trials*6/10, "seed %d", seed)
	assert.LessOrEqual(t, doubted, trials/50, "seed %d: honest readings doubted", seed)
}

// Fine readings find the tilt itself: the model has the right signs, whatever sense and hemisphere.
func TestTiltFromFineReadings(t *testing.T) {
	const seed, trials = 22, 100
	random := rand.New(rand.NewPCG(seed, 0))
	var worst float64
	for i := range trials {
		tr := anyTracked(random)
		fit, err := tr.believed.FitTilt(tr.read(random, 12, 0), 1e-4*sky.Degree)
		require.NoError(t, err)
		off := tr.off(fit.Axis)
		// The prior draws a thousandth at the most where the readings are fine, and the circle says when not.
		require.Less(t, off, math.Max(0.01, fit.Axis.Uncertainty.Degrees()), "seed %d, trial %d", seed, i)
		if fit.Axis.Uncertainty < 0.05*sky.Degree {
			worst = math.Max(worst, off)
		}
	}
	t.Logf("seed %d: largest error where 0.05° is stated: %.5f°", seed, worst)
}

// aTracked is one run on the example's first target, Tarantula at Perth, for an axis of that tilt.
func aTracked(tilt, toward, uncertainty sky.Angle, from time.Time, length time.Duration) tracked {
	k := exampleKit()
	night := plan.NewNight(k, exampleDate)
	axis := kit.Axis{Tilt: tilt, Toward: toward}
	return tracked{
		believed: night.Course(k.Targets[0], kit.Axis{Uncertainty: uncertainty}),
		truth:    night.Course(k.Targets[0], axis),
		run:      plan.Span{From: from, To: from.Add(length)},
	}
}

// Across a reversal of the field the rate is small and the readings hardly change; the fit neither breaks
// nor claims.
func TestTiltAcrossAReversal(t *testing.T) {
	random := rand.New(rand.NewPCG(23, 0))
	checked := 0
	for checked < 20 {
		tr := anyTracked(random)
		if len(tr.truth.Reversals(tr.run)) == 0 {
			continue
		}
		checked++
		fit, err := tr.believed.FitTilt(tr.read(random, 6, readingError), readingError)
		require.NoError(t, err)
		assert.Less(t, fit.RMS, 3*readingError)
		assert.LessOrEqual(t, tr.off(fit.Axis), 1.3*fit.Axis.Uncertainty.Degrees()) // 20 of them: one may be out
	}
}

// Three readings in two minutes say nothing: the axis stays, and so does its uncertainty.
func TestPoorReadingsLeaveThePrior(t *testing.T) {
	start := time.Date(2026, 12, 5, 14, 0, 0, 0, time.UTC)
	tr := aTracked(2*sky.Degree, 200*sky.Degree, 3*sky.Degree, start, 2*time.Minute)
	fit, err := tr.believed.FitTilt(tr.read(rand.New(rand.NewPCG(1, 0)), 3, 0), readingError)
	require.NoError(t, err)
	assert.InDelta(t, 3, fit.Axis.Uncertainty.Degrees(), 0.01) // two minutes turn the field by a twentieth of the axis's 3°
	assert.Less(t, fit.Axis.Tilt.Degrees(), 0.05)
	assert.Equal(t, tr.believed.Axis, fit.Prior)
}

// One part of the tilt may be seen well while the other is not: the stated circle is that of the worse.
func TestCircleIsThatOfTheWorsePart(t *testing.T) {
	start := time.Date(2026, 12, 5, 14, 0, 0, 0, time.UTC)
	tr := aTracked(2*sky.Degree, 200*sky.Degree, 3*sky.Degree, start, 90*time.Minute)
	fit, err := tr.believed.FitTilt(tr.read(rand.New(rand.NewPCG(2, 0)), 6, readingError), readingError)
	require.NoError(t, err)
	assert.GreaterOrEqual(t, fit.Axis.Uncertainty, 2.4*max(fit.Spread.East, fit.Spread.North))
	assert.Less(t, fit.Axis.Uncertainty, 3*sky.Degree)
	assert.LessOrEqual(t, tr.off(fit.Axis), fit.Axis.Uncertainty.Degrees())
}

// An axis that is known exactly stays as it is.
func TestKnownAxisStays(t *testing.T) {
	start := time.Date(2026, 12, 5, 14, 0, 0, 0, time.UTC)
	tr := aTracked(0, 0, 0, start, 90*time.Minute)
	fit, err := tr.believed.FitTilt(tr.read(rand.New(rand.NewPCG(3, 0)), 5, readingError), readingError)
	require.NoError(t, err)
	assert.Less(t, fit.Axis.Tilt, 1*sky.Arcsecond)
	assert.Zero(t, fit.Axis.Uncertainty)
}

// Full circles between readings make no difference: a stage may count on or start again at 0.
func TestFullCirclesMakeNoDifference(t *testing.T) {
	start := time.Date(2026, 12, 5, 14, 0, 0, 0, time.UTC)
	tr := aTracked(3*sky.Degree, 100*sky.Degree, 3*sky.Degree, start, 90*time.Minute)
	readings := tr.read(rand.New(rand.NewPCG(4, 0)), 6, readingError)
	plain, err := tr.believed.FitTilt(readings, readingError)
	require.NoError(t, err)
	readings[2].Angle += sky.Turn
	readings[4].Angle -= sky.Turn
	turned, err := tr.believed.FitTilt(readings, readingError)
	require.NoError(t, err)
	assert.InDelta(t, plain.Axis.Tilt.Degrees(), turned.Axis.Tilt.Degrees(), 1e-6) // rounding of the circles
	assert.InDelta(t, plain.Axis.Uncertainty.Degrees(), turned.Axis.Uncertainty.Degrees(), 1e-6)
	assert.Empty(t, turned.Doubtful)
}

// The anchor of the fit is nearer to the truth than the last reading alone.
func TestAnchorIsBetterThanTheLastReading(t *testing.T) {
	const seed, trials = 26, 100
	random := rand.New(rand.NewPCG(seed, 0))
	var fitted, alone float64
	for range trials {
		tr := anyTracked(random)
		readings := tr.read(random, 8, 0)
		last := readings[7]
		for i := range readings {
			readings[i].Angle += readingError * sky.Angle(random.NormFloat64())
		}
		fit, err := tr.believed.FitTilt(readings, readingError)
		require.NoError(t, err)
		require.Equal(t, last.At, fit.Anchor.At)
		fitted += math.Pow((fit.Anchor.Angle - last.Angle).Degrees(), 2)
		alone += math.Pow((readings[7].Angle - last.Angle).Degrees(), 2)
	}
	t.Logf("seed %d: rms of the anchor %.3f°, of a reading %.3f°", seed, math.Sqrt(fitted/trials), math.Sqrt(alone/trials))
	assert.Less(t, fitted, alone, "seed %d", seed)
}

func BenchmarkFitTilt(b *testing.B) {
	tr := aTracked(2*sky.Degree, 200*sky.Degree, 3*sky.Degree, time.Date(2026, 12, 5, 14, 0, 0, 0, time.UTC), 90*time.Minute)
	readings := tr.read(rand.New(rand.NewPCG(6, 0)), 8, readingError)
	for b.Loop() {
		if _, err := tr.believed.FitTilt(readings, readingError); err != nil {
			b.Fatal(err)
		}
	}
}
