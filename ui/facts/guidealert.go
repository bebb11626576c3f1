package facts

import (
	"duskhand/checklist/advice"
	"duskhand/plan/guiding"
)

// GuidingAges is the alert of a calibration that no longer serves.
const GuidingAges AlertKind = "guiding"

// guidingAges warns while the calibration that guiding is by, or is about to be by, serves no longer.
func (r Run) guidingAges(do advice.Advice) Alert {
	a := Alert{Kind: GuidingAges}
	g, known := r.GuideNow()
	if !known || g.Least == guiding.Holds || !r.Log.Guiding.On && do.Why != advice.CalibrationOld {
		return a
	}
	a.Level = advice.Warning
	if g.Least == guiding.Diverges && r.Log.Guiding.On && r.Log.Subs != nil {
		a.Level = advice.Calling
	}
	return a
}
