package stage_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/frames/stage"
	"duskhand/plan"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// zero is the true angle of the camera at the derotator's reading 0, which the example's kit has as 0°.
const zero = 37 * sky.Degree

// story is a night in the making, and its truth.
type story struct {
	kit             kit.Kit
	truth, believed *plan.Course
	night           checklist.Night
}

func newStory() *story {
	k := kit.Example()
	k.Axis = kit.Axis{Uncertainty: 4 * sky.Degree}
	return &story{kit: k, truth: courseOf(kit.Axis{Tilt: 2 * sky.Degree, Toward: 310 * sky.Degree}), believed: courseOf(k.Axis)}
}

// light places one light of two minutes whose middle is at an instant, while the stage stands at m.
func (s *story) light(at time.Time, m sky.Angle) {
	sense := sky.Angle(s.kit.Derotator.Sense)
	angle := s.truth.OfJ2000(s.truth.FieldAngle(at) + zero - sense*m)
	centre := framing.Middle(s.truth.Target)
	start, exposure := at.Add(-time.Minute).UnixNano(), 120.0
	s.night.Arrived = append(s.night.Arrived, checklist.Arrived{SubArrivedBody: checklist.SubArrivedBody{OursNs: &start, ExposureS: &exposure,
		Placed: &checklist.PlacedBody{RADeg: centre.RA.Degrees(), DecDeg: centre.Dec.Degrees(), CameraAngleDeg: angle.Degrees(), AngleErrorDeg: 0.003, ScaleArcsec: 1}}})
}

// run tracks for an hour from a known angle, with a light every five minutes.
func (s *story) run(begins time.Time, m sky.Angle) {
	sense := sky.Angle(s.kit.Derotator.Sense)
	s.night.Runs = append(s.night.Runs, checklist.Run{Start: begins, StartAngle: m, End: begins.Add(time.Hour)})
	for t := begins.Add(2 * time.Minute); t.Before(begins.Add(58 * time.Minute)); t = t.Add(5 * time.Minute) {
		s.light(t, m+sense*(s.truth.FieldAngle(t)-s.truth.FieldAngle(begins)))
	}
}

func (s *story) fit() (stage.Fit, bool) {
	courses := make([]*plan.Course, len(s.night.Runs))
	for i := range courses {
		courses[i] = s.believed
	}
	return stage.FitNight(s.night, s.kit, courses, s.believed)
}

func off(fit stage.Fit, truth *plan.Course) sky.Angle {
	return sky.MountAxis(fit.JointFit.Axis.Tilt, fit.JointFit.Axis.Toward).Separation(sky.MountAxis(truth.Axis.Tilt, truth.Axis.Toward))
}

// A single run says neither the axis nor the zero, a few do, and a stage that stands before dark helps.
func TestRunsFromKnownAnglesTellAxisAndZero(t *testing.T) {
	s := newStory()
	_, ok := s.fit()
	assert.False(t, ok, "no light")
	s.run(from, 10*sky.Degree)
	fit, ok := s.fit()
	require.True(t, ok)
	assert.Nil(t, fit.Axis, "one start tells of zero and tilt together")
	assert.Nil(t, fit.Zero, "its σ is %v", fit.ZeroError)
	for i := 1; i < 5; i++ {
		s.run(from.Add(time.Duration(i)*75*time.Minute), sky.Angle(-15+10*i)*sky.Degree)
	}
	fit, ok = s.fit()
	require.True(t, ok)
	require.NotNil(t, fit.Axis)
	assert.Equal(t, checklist.ByFrames, fit.Axis.By)
	assert.Less(t, off(fit, s.truth).Degrees(), 1.0)
	assert.Equal(t, s.kit.Derotator.Sense, fit.Sense)

	for i := range 10 { // before dark, nobody knows where the stage stands
		s.light(from.Add(-40*time.Minute+time.Duration(i)*4*time.Minute), -70*sky.Degree)
	}
	before := fit.Spread.RMS()
	fit, ok = s.fit()
	require.True(t, ok)
	assert.Less(t, fit.Spread.RMS(), before*0.8)
	assert.Less(t, off(fit, s.truth).Degrees(), 0.5)
	require.NotNil(t, fit.Zero, "its σ is %v", fit.ZeroError)
	assert.InDelta(t, zero.Degrees(), fit.Zero.Angle.Degrees(), 4*fit.ZeroError.Degrees())
}

// What is known already, or was taken back, is not said again.
func TestOnlyNewsIsSaid(t *testing.T) {
	s := newStory()
	for i := range 5 {
		s.run(from.Add(time.Duration(i)*75*time.Minute), sky.Angle(-15+10*i)*sky.Degree)
	}
	fit, _ := s.fit()
	require.NotNil(t, fit.Axis)
	a := fit.Axis
	s.night.Axis = &checklist.Axis{Tilt: a.Tilt, Toward: a.Toward, Uncertainty: a.Uncertainty, Spread: a.Spread, By: a.By}
	fit, _ = s.fit()
	assert.Nil(t, fit.Axis)
	assert.Equal(t, a.Spread, &fit.Spread, "from the same prior: what the frames say is not counted twice")
	s.night.Axis, s.night.FitRefused = nil, true
	fit, _ = s.fit()
	assert.Nil(t, fit.Axis)
}

// Lights after a slip say nothing of where the stage stands.
func TestWhatComesAfterASlipIsLeftOut(t *testing.T) {
	s := newStory()
	for i := range 5 {
		s.run(from.Add(time.Duration(i)*75*time.Minute), sky.Angle(-15+10*i)*sky.Degree)
	}
	whole, _ := s.fit()
	lights := len(s.night.Arrived)
	for i := lights - 5; i < lights; i++ { // the last run slips by 6°
		p := *s.night.Arrived[i].Placed
		p.CameraAngleDeg += 6
		s.night.Arrived[i].Placed = &p
	}
	fit, ok := s.fit()
	require.True(t, ok)
	assert.Equal(t, whole.Lights-5, fit.Lights)
	assert.InDelta(t, off(whole, s.truth).Degrees(), off(fit, s.truth).Degrees(), 0.05)
}
