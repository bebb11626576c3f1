package facts_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/plan/kit"
	"duskhand/ui/say"
)

// An operator's own list need not have a step of calibrating; the advice then names none, in the middle of a run too.
func TestACalibrationThatNoStepAsksForIsSaidAllTheSame(t *testing.T) {
	n := &night{t: t, kit: kit.Example()}
	n.at(dusk.Add(-time.Minute), checklist.TurnOn{Angle: degrees(-16)})
	r := n.at(dusk.Add(time.Minute), checklist.StartSubs{})
	v := say.Voice{Run: r, Advice: advice.Advice{Do: advice.DoStep, Why: advice.CalibrationOld, Offer: checklist.GuidingCalibrated{}}}
	assert.Contains(t, v.ToDo()[0], "calibrate again")
}
