package say_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/plan/kit"
	"duskhand/ui/say"
)

func TestWhereAllIsTakenEachLengthSaysWhatCanBeDone(t *testing.T) {
	voice := say.Voice{Run: calibrated(kit.AxesCorrections, 10, func(k *kit.Kit) { k.Targets = k.Targets[:1] }), Key: func(string) string { return "t" },
		Advice: advice.Advice{Do: advice.Stow, Why: advice.GoalReached, Offer: checklist.TurnOff{}}}
	for _, way := range voice.ToDo() {
		assert.Contains(t, way, "derotator off")
		assert.Contains(t, way, "nother target")
	}
	voice.Run = calibrated(kit.AxesCorrections, 10)
	for _, way := range voice.ToDo() {
		assert.Contains(t, way, "derotator off")
		assert.Contains(t, way, "NGC 1365", "the kit's other target gives hours yet")
	}
}
