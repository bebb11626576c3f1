package plan_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// watched is the example's first target with an axis that nobody knows, and lights that are placed to 0.005°.
type watched struct {
	truth, believed *plan.Course
	zero            sky.Angle
	random          *rand.Rand
	from            time.Time
	sigma           sky.Angle
}

func watch(seed uint64, tilt, toward, uncertainty sky.Angle) watched {
	k := exampleKit()
	night := plan.NewNight(k, plan.Date{Year: 2026, Month: time.December, Day: 5})
	believed := kit.Axis{Uncertainty: uncertainty}
	return watched{night.Course(k.Targets[0], kit.Axis{Tilt: tilt, Toward: toward}), night.Course(k.Targets[0], believed),
		37 * sky.Degree, rand.New(rand.NewPCG(seed, 1)), time.Date(2026, 12, 5, 13, 0, 0, 0, time.UTC), 0.005 * sky.Degree}
}

// camera is what a light shows when the stage stands at m.
func (w watched) camera(at time.Time, m sky.Angle) plan.CameraSeen {
	sense := sky.Angle(w.truth.Kit.Derotator.Sense)
	angle := w.truth.FieldAngle(at) + w.zero - sense*m
	return plan.CameraSeen{At: at, Camera: angle + w.sigma*sky.Angle(w.random.NormFloat64()), Error: w.sigma}
}

// still is a stage that stands at m, which nobody reads, with a light a minute.
func (w watched) still(m sky.Angle, lasting time.Duration) plan.StageSpan {
	s := plan.StageSpan{Course: w.believed, Still: true}
	for t := time.Duration(0); t <= lasting; t += time.Minute {
		s.Cameras = append(s.Cameras, w.camera(w.from.Add(t), m))
	}
	return s
}

// run is a run that tracks well from a known angle, with a light every ten minutes.
func (w watched) run(begins time.Time, m sky.Angle, lasting time.Duration) plan.StageSpan {
	s := plan.StageSpan{Course: w.believed, Readings: []plan.Anchor{{At: begins, Angle: m}}}
	stood := w.camera(begins, m)
	for t := time.Duration(0); t <= lasting; t += 10 * time.Minute {
		s.Cameras = append(s.Cameras, plan.CameraSeen{At: begins.Add(t), Camera: stood.Camera, Error: w.sigma})
	}
	return s
}

// runs begin so long after one another.
func (w watched) runs(n int, every time.Duration) (spans []plan.StageSpan) {
	for i := range n {
		spans = append(spans, w.run(w.from.Add(time.Duration(i)*every), sky.Angle(-20+5*i)*sky.Degree, every-10*time.Minute))
	}
	return spans
}

// misread gives each reading its error.
func (w watched) misread(spans []plan.StageSpan) []plan.StageSpan {
	for i := range spans {
		for j := range spans[i].Readings {
			spans[i].Readings[j].Angle += readingError * sky.Angle(w.random.NormFloat64())
		}
	}
	return spans
}

// bound returns the least root mean square of the tilt's two parts together that any unbiased estimator can leave
// (Cramér and Rao), from observations of θ, or of m, each at an instant and with a σ, beside the derivatives that the
// program takes. The two parts are known to before, and the zero to zeroError.
//
// Own derivation. The direction from the target s to the axis a is a's part across s, of the length of |a × s|. An
// axis moved by d turns it by s·(a × d)/|a × s|². Whether a stage stands (θ observed, m one unknown for all) or tracks
// (θ of a run as good as exact, m of its start read), an observation's row is (∂χ/∂east, ∂χ/∂north, 1), in which the
// last is the zero, or zero less s·m. The information is Σ row·rowᵀ/σ² with what was known before on its diagonal;
// the bound is the root of the first two elements on the diagonal of its inverse, added.
func (w watched) bound(before, zeroError sky.Angle, sigma sky.Angle, at ...time.Time) sky.Angle {
	information := mat.NewSymDense(3, nil)
	for i, v := range []sky.Angle{before, before, zeroError} {
		information.SetSym(i, i, 1/float64(v*v))
	}
	axis := sky.MountAxis(w.truth.Axis.Tilt, w.truth.Axis.Toward)
	east, north := sky.Horizontal{Azimuth: 90 * sky.Degree}.Direction(), sky.Horizontal{}.Direction()
	for _, t := range at {
		s := w.truth.Place(t).Direction()
		across := axis.Cross(s).Length()
		by := func(d sky.Direction) float64 { return s.Dot(axis.Cross(d)) / (across * across) }
		row := [3]float64{by(east), by(north), 1}
		for j := range row {
			for k := j; k < len(row); k++ {
				information.SetSym(j, k, information.At(j, k)+row[j]*row[k]/float64(sigma*sigma))
			}
		}
	}
	var covariance mat.Dense
	if covariance.Inverse(information) != nil {
		return sky.Angle(math.NaN())
	}
	return sky.Angle(math.Sqrt(covariance.At(0, 0) + covariance.At(1, 1)))
}

// instants are n, each so long after the one before.
func (w watched) instants(n int, every time.Duration) (at []time.Time) {
	for i := range n {
		at = append(at, w.from.Add(time.Duration(i)*every))
	}
	return at
}

// What each kind of observation leaves of a tilt that is known to 3° in each part: what the observations allow, and no
// more. That is 3°·√2 = 4.24° for three hours of tracking while the zero is unknown and 3.0° when it is known, for any
// target. For a stage that stands still and for the starts of runs it hangs on how the target goes: 0.46° for 45 min
// and 0.43° for five starts 80 min apart here, 0.33° for five that are 105 min apart.
func TestWhatObservationsLeaveOfTheTilt(t *testing.T) {
	const before, unknown, known = 3 * sky.Degree, math.Pi, 0.001 * sky.Degree
	w := watch(1, 2*sky.Degree, 300*sky.Degree, before*sky.Angle(math.Sqrt(-2*math.Log(0.05)))) // holds 95 %
	prior := plan.JointPrior{Axis: w.believed.Axis}
	exact := plan.JointPrior{Axis: w.believed.Axis, Zero: w.zero, ZeroError: known}
	tracked := []plan.StageSpan{w.run(w.from, 10*sky.Degree, 3*time.Hour)}
	for name, c := range map[string]struct {
		prior plan.JointPrior
		spans []plan.StageSpan
		bound sky.Angle
		about float64 // degrees: the bound, as a check of itself
	}{
		"three hours of tracking, the zero unknown": {prior, tracked, w.bound(before, unknown, readingError, w.from), 4.24},
		"the same, the zero known":                  {exact, tracked, w.bound(before, known, readingError, w.from), 3.00},
		"a stage that stands still for 45 min": {prior, []plan.StageSpan{w.still(10*sky.Degree, 45*time.Minute)},
			w.bound(before, unknown, w.sigma, w.instants(46, time.Minute)...), 0.46},
		"five starts of runs at known angles": {prior, w.runs(5, 80*time.Minute),
			w.bound(before, unknown, readingError, w.instants(5, 80*time.Minute)...), 0.43},
		"five starts that are further apart": {prior, w.runs(5, 105*time.Minute),
			w.bound(before, unknown, readingError, w.instants(5, 105*time.Minute)...), 0.33},
	} {
		t.Run(name, func(t *testing.T) {
			fit, err := plan.FitJoint(c.prior, c.spans, readingError)
			require.NoError(t, err)
			t.Logf("%.3f° left, bound %.3f°, zero ± %.2f°", fit.Spread.RMS().Degrees(), c.bound.Degrees(), fit.ZeroError.Degrees())
			assert.InDelta(t, c.about, c.bound.Degrees(), 0.01)
			// The fit takes its slopes where it thinks that the axis is, half a degree from where the bound takes them.
			assert.InEpsilon(t, c.bound.Degrees(), fit.Spread.RMS().Degrees(), 0.1)
		})
	}
}

// What the fit is off by, over many nights, is what the bound allows: it neither wastes observations nor boasts.
func TestTheJointFitReachesItsBound(t *testing.T) {
	const before = 3 * sky.Degree
	const nights = 60
	for name, c := range map[string]struct {
		spans func(w watched) []plan.StageSpan
		bound func(w watched) sky.Angle
	}{
		"a stage that stands still for 45 min": {
			func(w watched) []plan.StageSpan { return []plan.StageSpan{w.still(10*sky.Degree, 45*time.Minute)} },
			func(w watched) sky.Angle { return w.bound(before, math.Pi, w.sigma, w.instants(46, time.Minute)...) }},
		"five starts of runs at known angles": {
			func(w watched) []plan.StageSpan { return w.misread(w.runs(5, 80*time.Minute)) },
			func(w watched) sky.Angle {
				return w.bound(before, math.Pi, readingError, w.instants(5, 80*time.Minute)...)
			}},
	} {
		t.Run(name, func(t *testing.T) {
			var square float64
			for seed := range uint64(nights) {
				r := rand.New(rand.NewPCG(seed, 6))
				east, north := before*sky.Angle(r.NormFloat64()), before*sky.Angle(r.NormFloat64())
				tilt, toward := sky.Angle(math.Hypot(float64(east), float64(north))), sky.Angle(math.Atan2(float64(east), float64(north)))
				w := watch(seed, tilt, toward.Wrapped(), before*sky.Angle(math.Sqrt(-2*math.Log(0.05))))
				fit, err := plan.FitJoint(plan.JointPrior{Axis: w.believed.Axis}, c.spans(w), readingError)
				require.NoError(t, err)
				off := sky.MountAxis(tilt, toward).Separation(sky.MountAxis(fit.Axis.Tilt, fit.Axis.Toward))
				square += math.Pow(float64(off/c.bound(w)), 2)
			}
			// The mean of 60 squares of two parts, of which one takes nearly all, has a σ of √(2/60) = 0.18.
			ratio := math.Sqrt(square / nights)
			t.Logf("off by %.2f of the bound", ratio)
			assert.InDelta(t, 1, ratio, 0.27)
		})
	}
}

// The truth lies within the stated errors, and the sense is that of the observations.
func TestTheJointFitFindsTheTruth(t *testing.T) {
	var square, n float64
	for seed := range uint64(30) {
		r := rand.New(rand.NewPCG(seed, 2))
		w := watch(seed, sky.Angle(4*r.Float64())*sky.Degree, sky.Angle(360*r.Float64())*sky.Degree, 6*sky.Degree)
		spans := w.misread(append(w.runs(4, 80*time.Minute), w.still(15*sky.Degree, 20*time.Minute)))
		fit, err := plan.FitJoint(plan.JointPrior{Axis: w.believed.Axis}, spans, readingError)
		require.NoError(t, err)
		is, found := sky.MountAxis(w.truth.Axis.Tilt, w.truth.Axis.Toward), sky.MountAxis(fit.Axis.Tilt, fit.Axis.Toward)
		off := is.Separation(found)
		assert.Less(t, float64(off), 1.8*float64(fit.Spread.Radius()), "seed %d", seed) // 95 % are within one
		zero := float64((fit.Zero - w.zero).Signed() / fit.ZeroError)
		assert.Less(t, math.Abs(zero), 4.5, "seed %d", seed)
		square, n = square+zero*zero, n+1
		assert.Equal(t, w.truth.Kit.Derotator.Sense, fit.Sense)
		assert.Greater(t, fit.Against, plan.SenseSettled)
	}
	assert.InDelta(t, 1, math.Sqrt(square/n), 0.45, "the zero's error is as stated")
}

// A kit that has the sense wrong is told by the rewinds.
func TestAWrongSenseIsFound(t *testing.T) {
	w := watch(3, 1*sky.Degree, 100*sky.Degree, 3*sky.Degree)
	believed := *w.believed
	believed.Kit.Derotator.Sense = -believed.Kit.Derotator.Sense
	spans := w.runs(4, 80*time.Minute)
	for i := range spans {
		spans[i].Course = &believed
	}
	fit, err := plan.FitJoint(plan.JointPrior{Axis: w.believed.Axis}, spans, readingError)
	require.NoError(t, err)
	assert.Equal(t, w.truth.Kit.Derotator.Sense, fit.Sense)
	assert.Greater(t, fit.Against, plan.SenseSettled)
}

func TestNothingIsFittedToNothing(t *testing.T) {
	_, err := plan.FitJoint(plan.JointPrior{}, nil, readingError)
	assert.ErrorContains(t, err, "nothing can be fitted")
	_, err = plan.FitJoint(plan.JointPrior{}, nil, 0)
	assert.ErrorContains(t, err, "above 0")
	w := watch(5, sky.Degree, 0, 3*sky.Degree)
	fit, err := plan.FitJoint(plan.JointPrior{Axis: w.believed.Axis}, []plan.StageSpan{{Course: w.believed}, w.still(0, time.Minute)}, readingError)
	require.NoError(t, err)
	assert.False(t, math.IsNaN(float64(fit.Zero)))
}

// What ten minutes of a stage that stands would leave is foretold, and is what the bound allows.
func TestWhatAStandingStageWouldLeaveIsForetold(t *testing.T) {
	const before = 3 * sky.Degree
	w := watch(1, 0, 0, before*sky.Angle(math.Sqrt(-2*math.Log(0.05))))
	at := w.from.Add(2 * time.Hour)
	bound := w.bound(before, math.Pi, w.sigma, watched{from: at.Add(-plan.Standing)}.instants(11, time.Minute)...)
	left, ok := w.believed.AfterStanding(at)
	require.True(t, ok)
	t.Logf("%.2f° left of %.2f°; the bound is %.2f°", left.RMS().Degrees(), 3*math.Sqrt2, bound.Degrees())
	assert.InEpsilon(t, bound.Degrees(), left.RMS().Degrees(), 0.02)
	night := plan.NewNight(w.believed.Kit, plan.Date{Year: 2026, Month: time.December, Day: 5})
	_, ok = night.Course(w.believed.Target, kit.Axis{}).AfterStanding(at)
	assert.False(t, ok, "an axis that is known needs no telling")
}
