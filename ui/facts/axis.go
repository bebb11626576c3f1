package facts

import (
	"fmt"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/frames/stage"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/catalog"
	"duskhand/sky/words"
)

// Learned is what the sights or readings of the night say of the mount's axis.
type Learned struct {
	Action  checklist.Action // the axis to note; nil when there is nothing to note
	Words   string           // what it changed, or why nothing can be learned
	Problem bool             // a star was probably misidentified, or a reading is doubtful
}

// suspectsTo is the faintest star that could have been taken for another in the alignment.
const suspectsTo = 3.0

// LearnFromSights fits the axis to the stars sighted so far; nothing is learned from fewer than two.
func (t *Tonight) LearnFromSights() Learned {
	sights := t.Log.Sights
	if len(sights) < 2 {
		return Learned{Words: "One star is noted; the second gives the axis."}
	}
	site := t.Kit.Site
	how := plan.Sighting{Air: sky.Air{PressureHPa: site.PressureHPa, TemperatureC: site.TemperatureC}, Error: t.Kit.Stars.Centring}
	if suspicion, wrong := plan.Misidentified(t.Night.Frame, sights, how, catalog.Stars(suspectsTo)); wrong {
		return Learned{Words: suspicion.Text(), Problem: true}
	}
	fit, err := plan.FitAxis(t.Night.Frame, sights, how)
	if err != nil {
		return Learned{Words: err.Error(), Problem: true}
	}
	spread := fit.Honest
	return Learned{
		Action: checklist.MeasureAxis{Tilt: fit.Axis.Tilt, Toward: fit.Axis.Toward, Uncertainty: fit.Axis.Uncertainty, Spread: &spread,
			How: fmt.Sprintf("fit of %d stars, residual %s, azimuth zero %s", len(sights), words.Arcminutes(fit.RMS, 1), words.Degrees(fit.AzimuthZero, 2))},
		Words: fmt.Sprintf("axis from %d stars, residual %s", len(sights), words.Arcminutes(fit.RMS, 1)),
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
		return Learned{Words: err.Error(), Problem: true}, true
	}
	if len(fit.Doubtful) > 0 {
		at := words.Minute(anchors[fit.Doubtful[0]].At, t.Kit.Site.Zone)
		return Learned{Words: fmt.Sprintf("the reading of %s is far from what the others say; read it again, or undo it", at), Problem: true}, true
	}
	spread := fit.Spread
	return Learned{
		Action: checklist.MeasureAxis{Tilt: fit.Axis.Tilt, Toward: fit.Axis.Toward, Uncertainty: fit.Axis.Uncertainty, Spread: &spread,
			How: fmt.Sprintf("%d readings in one run", len(anchors)), By: checklist.ByReadings},
		Words: fmt.Sprintf("axis from %d readings", len(anchors)),
	}, true
}

// Changed says what a newly learned axis has done to the present limit, beside the facts before it.
func (t *Tonight) Changed(before *Tonight, now time.Time) string {
	words := axisWords(t.Axis)
	if t.Log.Axis != nil && t.Log.Axis.How != "" {
		words += ", by " + t.Log.Axis.How
	}
	if before == nil {
		return words
	}
	call, ok := t.Call(now)
	was, had := before.Call(now)
	if !ok || !had || !call.Limit.Early.OK || !call.Limit.Late.OK || !was.Limit.Early.OK || !was.Limit.Late.OK {
		return words
	}
	return fmt.Sprintf("%s; the limit's bounds are %s apart, %s before", words, apart(call.Limit), apart(was.Limit))
}

func axisWords(a kit.Axis) string {
	return fmt.Sprintf("tilt %s toward azimuth %s ± %s", words.Degrees(a.Tilt, 2), words.Direction(a.Toward, 0), words.Degrees(a.Uncertainty, 2))
}

func apart(l plan.Limit) string { return words.ToSecond(l.Late.At.Sub(l.Early.At)) }

// farOff is how far a reading may lie from what was computed before it is told: several times what
// anybody misreads.
const farOff = 1 * sky.Degree

// ReadingOff says how far a reading lies from the angle that was computed for it; "" if they agree.
func (t *Tonight) ReadingOff(read sky.Angle, at time.Time) string {
	if t == nil || t.Anchor == nil {
		return ""
	}
	off := read - t.Course.Angle(*t.Anchor, at)
	if off.Abs() < farOff {
		return ""
	}
	return fmt.Sprintf("The reading is %s from what was computed: read it again, or undo it, unless the stage was moved", words.Degrees(off.Abs(), 1))
}
