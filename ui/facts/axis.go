package facts

import (
	"fmt"
	"time"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/catalog"
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
	spread := fit.Spread
	return Learned{
		Action: checklist.MeasureAxis{Tilt: fit.Axis.Tilt, Toward: fit.Axis.Toward, Uncertainty: fit.Axis.Uncertainty, Spread: &spread,
			How: fmt.Sprintf("fit of %d stars, residual %.1f′", len(sights), fit.RMS.Arcminutes())},
		Words: fmt.Sprintf("axis from %d stars, residual %.1f′", len(sights), fit.RMS.Arcminutes()),
	}
}

// readingError is how finely a derotator's angle is read off its scale or screen (common practice).
const readingError = 0.1 * sky.Degree

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
	fit, err := t.Course.FitTilt(anchors, readingError)
	if err != nil {
		return Learned{Words: err.Error(), Problem: true}, true
	}
	if len(fit.Doubtful) > 0 {
		at := anchors[fit.Doubtful[0]].At.In(t.Kit.Site.Zone).Format("15:04")
		return Learned{Words: fmt.Sprintf("the reading of %s is far from what the others say; read it again, or undo it", at), Problem: true}, true
	}
	spread := fit.Spread
	return Learned{
		Action: checklist.MeasureAxis{Tilt: fit.Axis.Tilt, Toward: fit.Axis.Toward, Uncertainty: fit.Axis.Uncertainty, Spread: &spread,
			How: fmt.Sprintf("%d readings in one run", len(anchors))},
		Words: fmt.Sprintf("axis from %d readings", len(anchors)),
	}, true
}

// Changed says what a newly learned axis has done to the present limit, beside the facts before it.
func (t *Tonight) Changed(before *Tonight) string {
	now := axisWords(t.Axis) + spreadWords(t.Spread)
	if before == nil || t.Anchor == nil || !t.Limit.Early.OK || !t.Limit.Late.OK || !before.Limit.Early.OK || !before.Limit.Late.OK {
		return now
	}
	return fmt.Sprintf("%s; the limit's bounds are %s apart, %s before", now,
		apart(t.Limit), apart(before.Limit))
}

func axisWords(a kit.Axis) string {
	return fmt.Sprintf("tilt %.2f° toward azimuth %.0f° ± %.2f°", a.Tilt.Degrees(), a.Toward.Degrees(), a.Uncertainty.Degrees())
}

func spreadWords(s *plan.Spread) string {
	if s == nil {
		return ""
	}
	return fmt.Sprintf(" (one σ: %.2f° east, %.2f° north)", s.East.Degrees(), s.North.Degrees())
}

func apart(l plan.Limit) string {
	return l.Late.At.Sub(l.Early.At).Round(time.Second).String()
}
