package guiding

import (
	"time"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// PoseAt returns the pose of a telescope on a course's target at an instant, with the derotator at that
// mechanical angle, for the axis as known.
func PoseAt(c *plan.Course, stage sky.Angle, t time.Time) Pose {
	return Pose{Stage: stage, Camera: c.CameraAngle(stage, t), Altitude: c.AboutAxis(t), Declination: c.Target.Star.Place.Dec}
}

// Tracked returns the poses of a derotator that tracks from an anchor on.
func Tracked(c *plan.Course, anchor plan.Anchor) func(time.Time) Pose {
	return func(t time.Time) Pose { return PoseAt(c, c.Angle(anchor, t), t) }
}

// Stretch is one run of a plan and the course that it follows.
type Stretch struct {
	Course *plan.Course
	Run    plan.Run
}

func (s Stretch) poses() func(time.Time) Pose {
	return Tracked(s.Course, plan.Anchor{At: s.Run.From, Angle: s.Run.StartAngle})
}

// Calibration is a calibration that a plan wants: in which run (by its index), when, and at which mechanical
// angle of the derotator it is best made. Instead is what the one before would come to there; Holds for the
// first, which has none before.
type Calibration struct {
	Run     int
	At      time.Time
	Stage   sky.Angle
	Instead Verdict
}

// mostPerRun bounds the calibrations of one run. A high gain holds for 3° either way, of a travel of 720° at most.
const mostPerRun = 240

// Calibrations returns the calibrations that runs want, in order, if the night is guided by as few as the
// verdict Holds allows, on a mount of that kind.
//
// A mount that moves its own axes is best calibrated with the stage in the middle of the travel that the run
// will use: then neither end is off by more than half of it. (Own derivation.)
func Calibrations(kind kit.Corrections, gain float64, runs []Stretch) (wanted []Calibration) {
	var calibrated *Pose
	for i, s := range runs {
		from := s.Run.From
		for range mostPerRun {
			c, any := s.next(kind, gain, calibrated, from)
			if !any {
				break
			}
			c.Run = i
			pose := PoseAt(s.Course, c.Stage, c.At)
			calibrated, from = &pose, c.At
			wanted = append(wanted, c)
		}
	}
	return wanted
}

// next returns the first calibration that a run wants from an instant on, with the one that holds till then, nil
// for none.
func (s Stretch) next(kind kit.Corrections, gain float64, calibrated *Pose, from time.Time) (c Calibration, any bool) {
	if calibrated == nil {
		return s.best(kind, gain, from), true
	}
	end := s.holdsUntil(kind, gain, *calibrated, from)
	if !end.OK {
		return Calibration{}, false
	}
	c = s.best(kind, gain, end.At)
	c.Instead = Again
	if end.At.Equal(s.Run.From) {
		c.Instead = Judge(Since(kind, *calibrated, s.poses()(end.At)), gain)
	}
	return c, true
}

func (s Stretch) holdsUntil(kind kit.Corrections, gain float64, calibrated Pose, from time.Time) sky.Event {
	poses := s.poses()
	aged := func(t time.Time) Aged { return Since(kind, calibrated, poses(t)) }
	return HoldsUntil(aged, gain, from, s.Run.To)
}

// best returns the calibration that is to be made by an instant of the run: at its start if one in the middle
// of the travel holds for all of it, else at that instant as the stage stands.
func (s Stretch) best(kind kit.Corrections, gain float64, by time.Time) Calibration {
	if kind == kit.AxesCorrections {
		middle := s.middle()
		if !s.holdsUntil(kind, gain, PoseAt(s.Course, middle, s.Run.From), s.Run.From).OK {
			return Calibration{At: s.Run.From, Stage: middle}
		}
	}
	return Calibration{At: by, Stage: s.poses()(by).Stage}
}

// middle returns the middle of the travel that the run uses. Between its reversals the stage turns one way.
func (s Stretch) middle() sky.Angle {
	poses := s.poses()
	low, high := s.Run.StartAngle, s.Run.StartAngle
	for _, t := range append([]time.Time{s.Run.To}, s.Run.Reversals...) {
		stage := poses(t).Stage
		low, high = min(low, stage), max(high, stage)
	}
	return (low + high) / 2
}

// BestStage returns at which mechanical angle of the derotator a calibration for a run is best made: where it
// holds for all of the run if there is such a place, else where the run starts.
func BestStage(kind kit.Corrections, gain float64, s Stretch) sky.Angle {
	return s.best(kind, gain, s.Run.From).Stage
}
