package survey_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/subs"
	"duskhand/checklist/subs/arrival"
	"duskhand/checklist/subs/survey"
	"duskhand/checklist/subs/testdata/simulate"
	"duskhand/checklist/subs/turning"
	"duskhand/sky"
)

// seen is the i-th light's frame with its stars as a good measurement finds them, without the way over a file.
func (n *night) seen(i int, change func(*simulate.Shot)) arrival.Frame {
	s := n.shot(i)
	if change != nil {
		change(&s)
	}
	stars := n.field.Seen(s)
	end := s.Start.Add(s.Exposure)
	return arrival.Frame{File: arrival.File{Path: s.Start.Format("150405.fits"), Size: 1, Changed: end.Add(2 * time.Second)}, Seen: end.Add(5 * time.Second), Late: 2 * time.Second,
		Header:   subs.Header{Start: &s.Start, Exposure: &s.Exposure, Filter: "L", Kind: subs.Light, BinX: 1, BinY: 1, Width: 1000, Height: 700},
		Measured: &subs.Measured{Stars: stars, Count: len(stars), HFD: 2.8, Elongation: 1, Background: 800, Noise: 12}}
}

// A rewind begins another comparison and raises no alarm, and from it the survey learns how the pixels lie: what
// turns after it has a sign.
func TestARewindIsNoTurningAndTellsTheParity(t *testing.T) {
	for name, topDown := range map[string]bool{"rows from the bottom": false, "rows from the top": true} {
		t.Run(name, func(t *testing.T) {
			n := newNight(t, 5, func(s *simulate.Scene) { s.TopDown = topDown })
			for i := range 4 {
				n.take(n.shot(i))
			}
			// From 15° to −15°: the camera's position angle grows by −sense·(−30°) = 30°, and by what χ did in the
			// minute of the rewind, in which the derotator stood still.
			rewound := n.from.Add(4*cadence - 5*time.Second)
			n.run(rewound, -15*sky.Degree)
			known := n.log.Runs[0]
			turned := n.course.CameraAngle(-15*sky.Degree, rewound) - n.course.CameraAngle(known.StartAngle, known.Start)
			creep := simulate.Slow(3*sky.DegreePerHour, n.from.Add(7*cadence))
			for i := 4; i < 12; i++ {
				s := n.shot(i)
				s.Turned = func(at time.Time) sky.Angle { return turned + creep(at) }
				n.take(s)
			}
			require.NotNil(t, n.got[4].Turning)
			assert.Equal(t, string(turning.CannotTell), n.got[4].Turning.Kind, "the first of its run")
			for i := range 8 {
				assert.False(t, n.got[i].Turning.Alarm, "light %d", i)
			}
			assert.Equal(t, string(turning.Steady), n.got[6].Turning.Kind)
			last := n.got[11].Turning
			assert.True(t, last.Alarm)
			assert.InDelta(t, 3, last.RateDegPerH, 0.1, "positive through east, whichever way the rows run")
		})
	}
}

func TestWhatIsNotJudged(t *testing.T) {
	n := newNight(t, 6, nil)
	for i := range 3 {
		n.hand(n.seen(i, nil))
	}
	before := *n.got[2].Turning
	require.Equal(t, string(turning.Steady), before.Kind)
	reset := func(f *arrival.Frame, change func(*arrival.Frame)) arrival.Frame { change(f); return *f }
	for name, change := range map[string]func(*arrival.Frame){
		"a dark":              func(f *arrival.Frame) { f.Header.Kind = subs.Dark; f.Measured = nil },
		"a flat":              func(f *arrival.Frame) { f.Header.Kind = subs.Flat },
		"an unreadable one":   func(f *arrival.Frame) { f.Unread, f.Measured = "it is cut short", nil },
		"under a new name":    func(f *arrival.Frame) { f.Was = n.got[2].Path },
		"before all runs":     func(f *arrival.Frame) { start := n.from.Add(-time.Hour); f.Header.Start = &start },
		"a copy of one":       func(f *arrival.Frame) { *f = n.seen(1, nil); f.Path, f.Changed = "copy.fits", f.Changed.Add(time.Hour) },
		"with no list at all": func(f *arrival.Frame) { f.Measured = nil },
	} {
		f := n.seen(3, nil)
		_, body := n.survey.Next(reset(&f, change), n.log, n.course)
		assert.Nil(t, body.Turning, name)
	}
	_, body := n.survey.Next(n.seen(3, nil), n.log, nil)
	assert.Nil(t, body.Turning, "without a course")
	log := n.log
	log.Runs = append([]checklist.Run{}, n.log.Runs...)
	log.Runs[0].Open, log.Runs[0].End = false, n.from.Add(3*cadence+time.Minute)
	_, body = n.survey.Next(n.seen(3, nil), log, n.course)
	assert.Nil(t, body.Turning, "the rewind came during the exposure")
	_, body = n.survey.Next(n.seen(3, nil), n.log, n.course)
	require.NotNil(t, body.Turning, "an ordinary one still is")
	assert.Equal(t, string(turning.Steady), body.Turning.Kind)
	assert.NotNil(t, body.Measured)
}

// A light that comes late changes nothing for those after it.
func TestALateLight(t *testing.T) {
	n := newNight(t, 7, nil)
	off := func(s *simulate.Shot) { s.Turned = simulate.Off(n.course, n.from) }
	for _, i := range []int{0, 1, 3} {
		n.hand(n.seen(i, off))
	}
	late := n.hand(n.seen(2, off))
	assert.Equal(t, string(turning.Unknown), late.Turning.Kind)
	assert.True(t, late.Turning.Alarm, "what was known is not taken back")
	next := n.hand(n.seen(4, off))
	assert.Equal(t, string(turning.Off), next.Turning.Kind)
	assert.Equal(t, 3, next.Turning.Lights, "of five lights the late one does not count, nor the first, within which it may have begun")
}

// A program that is started again knows the frames of the journal, and judges from its first new light on.
func TestAfterARestart(t *testing.T) {
	n := newNight(t, 8, nil)
	for i := range 4 {
		n.hand(n.seen(i, nil))
	}
	assert.Equal(t, n.got[2].Path, survey.Known(n.log)[2].Path)
	n.survey = survey.New(n.kit)
	off := func(s *simulate.Shot) { s.Turned = simulate.Off(n.course, n.from.Add(4*cadence)) }
	assert.Equal(t, string(turning.CannotTell), n.hand(n.seen(4, off)).Turning.Kind)
	assert.False(t, n.hand(n.seen(5, off)).Turning.Alarm)
	assert.True(t, n.hand(n.seen(6, off)).Turning.Alarm)
}

// An undo of a rewind goes back to a run that was followed before; a survey is a value, so the old one is as it was.
func TestSurveysAreValues(t *testing.T) {
	n := newNight(t, 9, nil)
	for i := range 3 {
		n.hand(n.seen(i, nil))
	}
	before := n.survey
	next := n.seen(3, nil)
	_, one := before.Next(next, n.log, n.course)
	before.Next(n.seen(3, func(s *simulate.Shot) { s.Turned = func(time.Time) sky.Angle { return sky.Degree } }), n.log, n.course)
	_, again := before.Next(next, n.log, n.course)
	assert.Equal(t, one, again)
	assert.Equal(t, 4, again.Turning.Lights)
}

// While the parity is not known one axis explains a creeping field as well as another, and a guide star far off
// as well as a drift: nothing is said of either.
func TestACreepingFieldIsNotExplainedByGuesses(t *testing.T) {
	n := newNight(t, 10, nil)
	k := n.kit
	truth := n.course
	k.Axis.Tilt, k.Axis.Toward, k.Axis.Uncertainty = k.Axis.Tilt+1.5*sky.Degree, k.Axis.Toward+40*sky.Degree, 3*sky.Degree
	believed := courseOf(k)
	n.course = believed
	var body checklist.SubArrivedBody
	for i := range 20 {
		body = n.hand(n.seen(i, func(s *simulate.Shot) { s.Turned = simulate.Mistaken(believed, truth, n.from) }))
	}
	assert.Equal(t, string(turning.Residual), body.Turning.Kind)
	assert.Nil(t, body.Turning.Explained)
	assert.Empty(t, body.Turning.Why)
}

// A camera that turns once between two lights is told by how much, and calls for nobody.
func TestAStepIsToldByItsAngle(t *testing.T) {
	n := newNight(t, 12, nil)
	var body checklist.SubArrivedBody
	for i := range 6 {
		body = n.hand(n.seen(i, func(s *simulate.Shot) {
			if i == 5 {
				s.Turned = func(time.Time) sky.Angle { return 4 * sky.Degree }
			}
		}))
	}
	require.True(t, survey.AtOnce(*body.Turning))
	assert.InDelta(t, 4, body.Turning.Explained.StepDeg, 0.05)
	assert.False(t, body.Turning.Alarm)
}

// A light that was placed says which way the pixels lie, and with it which way the camera turned before: no rewind
// is needed. A program that is started again knows it from the night.
func TestAPlacedLightTellsTheParity(t *testing.T) {
	n := newNight(t, 11, func(s *simulate.Scene) { s.Sensor.Mirrored = true })
	creeps := func(s *simulate.Shot) { s.Turned = simulate.Slow(3*sky.DegreePerHour, n.from) }
	for i := range 3 {
		n.hand(n.seen(i, creeps))
	}
	assert.Negative(t, n.got[2].Turning.RateDegPerH, "as if it were not mirrored")
	light := n.seen(3, creeps)
	light.Placed = &checklist.PlacedBody{Mirrored: true}
	assert.InDelta(t, 3, n.hand(light).Turning.RateDegPerH, 0.1)
	assert.InDelta(t, 3, n.hand(n.seen(4, creeps)).Turning.RateDegPerH, 0.1)
	n.survey = survey.New(n.kit)
	n.hand(n.seen(5, creeps))
	assert.InDelta(t, 3, n.hand(n.seen(6, creeps)).Turning.RateDegPerH, 0.2)
}
