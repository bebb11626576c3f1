package advice_test

import (
	"time"

	"duskhand/checklist"
	"duskhand/plan/guiding"
	"duskhand/plan/kit"
)

// guided is the guiding of a simulated night as it really goes: by a calibration that ages as the mount's own kind has
// it, which the kit of these nights does not say.
type guided struct {
	corrects   kit.Corrections // "" as turned: then nothing ages
	calibrated *guiding.Pose
	runaway    int // how often guiding was begun that drives its star away
	lastly     time.Time
}

func (n *model) aged(now time.Time) (a guiding.Aged, ok bool) {
	if n.anchor == nil || n.guided.calibrated == nil {
		return guiding.Aged{}, false
	}
	return guiding.Since(n.guided.corrects, *n.guided.calibrated, guiding.Tracked(n.truth, *n.anchor)(now)), true
}

// truly is what the person says where the offer asks what was seen.
func (n *model) truly(now time.Time, offer checklist.Action) checklist.Action {
	n.guided.lastly = now
	if aged, ok := n.aged(now); ok && isCheck(offer) {
		return checklist.GuideChecked{Yes: aged.Angle.Cos() > 0}
	}
	return offer
}

func isCheck(a checklist.Action) bool {
	_, check := a.(checklist.GuideChecked)
	return check
}

// guides carries out what is said of the guiding.
func (n *model) guides(now time.Time, a checklist.Action) {
	switch a.(type) {
	case checklist.GuidingCalibrated:
		if n.anchor != nil {
			pose := guiding.Tracked(n.truth, *n.anchor)(now)
			n.guided.calibrated = &pose
		}
	case checklist.GuidingOn:
		if aged, ok := n.aged(now); ok && guiding.Judge(aged, n.kit.Guide.Gain) == guiding.Diverges {
			n.guided.runaway++
		}
	}
}
