package facts

import (
	"time"

	"duskhand/checklist"
	"duskhand/checklist/frames/stage"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/catalog"
)

// Learned is what the sights or readings of the night say of the mount's axis. One of the last four tells why nothing
// was learned; where none does, Action is the axis to note.
type Learned struct {
	Action checklist.Action
	From   int             // stars, or readings of one run
	By     checklist.FitBy // checklist.ByReadings, or "" for stars
	RMS    sky.Angle       // what the fit of the stars leaves
	First  bool            // it is the first star, and the second gives the axis
	Taken  *plan.Suspicion // a star was probably taken for another
	Doubt  *time.Time      // a reading of this instant is far from what the others say
	Failed error           // of the fit
}

// suspectsTo is the faintest star that could have been taken for another in the alignment.
const suspectsTo = 3.0

// LearnFromSights fits the axis to the stars sighted so far; nothing is learned from fewer than two.
func (t *Tonight) LearnFromSights() Learned {
	sights := t.Log.Sights
	if len(sights) < 2 {
		return Learned{First: true}
	}
	site := t.Kit.Site
	how := plan.Sighting{Air: sky.Air{PressureHPa: site.PressureHPa, TemperatureC: site.TemperatureC}, Error: t.Kit.Stars.Centring}
	if suspicion, wrong := plan.Misidentified(t.Night.Frame, sights, how, catalog.Stars(suspectsTo)); wrong {
		return Learned{Taken: &suspicion}
	}
	fit, err := plan.FitAxis(t.Night.Frame, sights, how)
	if err != nil {
		return Learned{Failed: err}
	}
	spread := fit.Honest
	return Learned{
		From: len(sights), RMS: fit.RMS,
		Action: checklist.MeasureAxis{Tilt: fit.Axis.Tilt, Toward: fit.Axis.Toward, Uncertainty: fit.Axis.Uncertainty, Spread: &spread,
			How: checklist.HowByStars(len(sights), fit.RMS, fit.AzimuthZero)},
	}
}

// LearnFromReadings fits the axis to the readings of the run that is going on, its start included, once
// there are three.
func (t *Tonight) LearnFromReadings() (Learned, bool) {
	run, open := t.Log.OpenRun()
	if !open || t.Anchor == nil || len(t.Log.Readings) < 2 {
		return Learned{}, false
	}
	anchors := []plan.Anchor{{At: run.Start, Angle: run.StartAngle}}
	for _, r := range t.Log.Readings {
		anchors = append(anchors, plan.Anchor{At: r.At, Angle: r.Angle})
	}
	fit, err := t.Course.FitTilt(anchors, stage.ReadingError)
	if err != nil {
		return Learned{Failed: err}, true
	}
	if len(fit.Doubtful) > 0 {
		return Learned{Doubt: &anchors[fit.Doubtful[0]].At}, true
	}
	spread := fit.Spread
	return Learned{
		From: len(anchors), By: checklist.ByReadings,
		Action: checklist.MeasureAxis{Tilt: fit.Axis.Tilt, Toward: fit.Axis.Toward, Uncertainty: fit.Axis.Uncertainty, Spread: &spread,
			How: checklist.HowByReadings(len(anchors)), By: checklist.ByReadings},
	}, true
}

// AxisChange is what a newly learned axis has done to the present limit.
type AxisChange struct {
	Axis   kit.Axis
	How    string        // it was learned, "" where that was not noted
	Apart  time.Duration // the limit's bounds, now
	Before time.Duration // and by the axis before
	Both   bool          // both are known
}

// Changed returns what a newly learned axis has done, beside the facts before it.
func (t *Tonight) Changed(before *Tonight, now time.Time) AxisChange {
	c := AxisChange{Axis: t.Axis}
	if t.Log.Axis != nil {
		c.How = t.Log.Axis.How
	}
	if before == nil {
		return c
	}
	call, ok := t.Call(now)
	was, had := before.Call(now)
	if !ok || !had || !call.Limit.Early.OK || !call.Limit.Late.OK || !was.Limit.Early.OK || !was.Limit.Late.OK {
		return c
	}
	c.Apart, c.Before, c.Both = apart(call.Limit), apart(was.Limit), true
	return c
}

func apart(l plan.Limit) time.Duration { return l.Late.At.Sub(l.Early.At) }

// farOff is how far a reading may lie from what was computed before it is told: several times what anybody misreads.
const farOff = 1 * sky.Degree

// ReadingOff returns how far a reading lies from the angle that was computed for it; ok is false if they agree, or
// nothing was computed.
func (t *Tonight) ReadingOff(read sky.Angle, at time.Time) (off sky.Angle, ok bool) {
	if t == nil || t.Anchor == nil {
		return 0, false
	}
	off = read - t.Course.Angle(*t.Anchor, at)
	return off, off.Abs() >= farOff
}
