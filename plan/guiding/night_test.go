package guiding_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/guiding"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// exampleRuns is the example night of a target with a stage of such travel either way.
func exampleRuns(t *testing.T, name string, travel sky.Angle) []guiding.Stretch {
	k := kit.Example()
	k.Derotator.Min, k.Derotator.Max = -travel, travel
	target, err := k.FindTarget(name)
	require.NoError(t, err)
	night := plan.NewNight(k, plan.Date{Year: 2026, Month: time.December, Day: 5})
	course := night.Course(target, k.Axis)
	var all []guiding.Stretch
	for _, run := range course.Schedule(plan.Start{At: night.Span.From}, plan.NewSequence(k.Subs)).Runs {
		all = append(all, guiding.Stretch{Course: course, Run: run})
	}
	require.NotEmpty(t, all)
	return all
}

func TestWhichRunsWantACalibration(t *testing.T) {
	runs := exampleRuns(t, "NGC 2070", 16*sky.Degree)
	require.Greater(t, len(runs), 2)
	turned := guiding.Calibrations(kit.TurnedCorrections, 0.5, runs)
	require.Len(t, turned, 1)
	assert.Equal(t, guiding.Calibration{At: runs[0].Run.From, Stage: runs[0].Run.StartAngle}, turned[0])

	axes := guiding.Calibrations(kit.AxesCorrections, 0.5, runs) // ±16° never leave 23° about the middle
	require.Len(t, axes, 1)
	assert.InDelta(t, 0, axes[0].Stage.Degrees(), 4, "the middle of the travel that it uses")

	onSky := guiding.Calibrations(kit.SkyCorrections, 0.5, runs) // a rewind by 30° turns the camera by as much
	held := 0
	for i, s := range runs {
		if len(onSky) > i-held && onSky[i-held].Run == i {
			assert.Equal(t, s.Run.From, onSky[i-held].At)
			continue
		}
		held++
		turnedBack := (s.Run.CameraAngle - runs[i-1].Run.CameraAngle).Signed().Abs()
		assert.Less(t, turnedBack, guiding.LateBound(0.5, 1)/2, "run %d goes on by the one before", i)
	}
	assert.Less(t, held, 2)
	assert.Equal(t, guiding.Again, onSky[1].Instead)
}

// Whatever the plan, between one calibration and the next the verdict is Holds.
func TestPlannedCalibrationsHoldThroughout(t *testing.T) {
	for _, kind := range kit.AllCorrections() {
		for _, gain := range []float64{0.3, 0.5, 0.7} {
			runs := exampleRuns(t, "NGC 2070", 80*sky.Degree)
			wanted := guiding.Calibrations(kind, gain, runs)
			require.NotEmpty(t, wanted)
			next, pose := 0, guiding.Pose{}
			for i, s := range runs {
				poses := guiding.Tracked(s.Course, plan.Anchor{At: s.Run.From, Angle: s.Run.StartAngle})
				for at := s.Run.From; !at.After(s.Run.To); at = at.Add(time.Second * 20) {
					for next < len(wanted) && wanted[next].Run == i && !wanted[next].At.After(at) {
						pose = guiding.PoseAt(s.Course, wanted[next].Stage, wanted[next].At)
						next++
					}
					near := next < len(wanted) && wanted[next].Run == i && wanted[next].At.Sub(at) < 2*time.Second
					aged := guiding.Since(kind, pose, poses(at))
					require.True(t, near || guiding.Judge(aged, gain) == guiding.Holds, "%s, gain %g, run %d, %s: %v", kind, gain, i, at, aged)
				}
			}
			require.Equal(t, len(wanted), next)
		}
	}
}
