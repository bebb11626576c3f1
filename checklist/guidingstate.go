package checklist

import (
	"time"

	"duskhand/sky"
)

// Guiding is what was said of the guiding tonight. The steps of the checklist that say the same count when
// they are ticked.
type Guiding struct {
	On           bool
	Since        time.Time    // when it was said to be on or off last; zero if never
	Lost         *time.Time   // since when the guide star is lost; nil if it is not
	Calibrations []Stood      // of tonight, oldest first; the last one holds
	Checks       []GuideCheck // oldest first
}

// Calibration returns the calibration that guiding goes by; ok is false if none was made tonight.
func (g Guiding) Calibration() (last Stood, ok bool) {
	if len(g.Calibrations) == 0 {
		return Stood{}, false
	}
	return g.Calibrations[len(g.Calibrations)-1], true
}

// Stood is how the telescope stood at an instant at which its angle matters later. The stage's angle follows
// from the run, if one was open, or is where it was parked; else nobody knows it.
type Stood struct {
	At     time.Time
	Target *Target    // nil if none was chosen
	Run    int        // the open run, by its index in Night.Runs; −1 if none was open
	Parked *sky.Angle // where the stage stood while it was off; nil while it was on, or unknown
}

// GuideCheck is what a correction of the guiding was seen to do: Yes if it moved the star back.
type GuideCheck struct {
	Now, Calibrated Stood
	Yes             bool
}

// stood returns how the telescope stands.
func (n *Night) stood(at time.Time) Stood {
	s := Stood{At: at, Target: n.Target, Run: -1, Parked: n.Parked}
	if _, open := n.OpenRun(); open {
		s.Run = len(n.Runs) - 1
	}
	return s
}

// turnedSince tells whether the stage or the telescope has been sent elsewhere since: what was said of the
// guiding before need not hold any more.
func (n Night) turnedSince(t time.Time) bool {
	if n.DerotatorSince.After(t) {
		return true
	}
	if len(n.Runs) == 0 {
		return false
	}
	last := n.Runs[len(n.Runs)-1]
	return last.Start.After(t) || last.End.After(t)
}

// Steps of the program's list that say what an event says. Old journals have them alone.
const (
	stepCalibrate     = "calibrate-guiding"
	stepSeeCorrection = "see-correction"
	stepGuide         = "start-guiding"
	stepNoGuiding     = "stop-guiding"
	stepGuideOver     = "guiding-over"
)

// guidingByStep takes in what a ticked step says of the guiding.
func (n *Night) guidingByStep(id string, at time.Time) {
	switch id {
	case stepCalibrate:
		n.guidingCalibrated(struct{}{}, at)
	case stepSeeCorrection:
		n.guideChecked(GuideCheckBody{Back: true}, at)
	case stepGuide:
		n.guidingOn(struct{}{}, at)
	case stepNoGuiding, stepGuideOver:
		n.guidingOff(struct{}{}, at)
	}
}
