package say_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/checklist/frames/stage"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/ui/facts"
	"duskhand/ui/say"
)

func TestWhereAllIsTakenEachLengthSaysWhatCanBeDone(t *testing.T) {
	voice := say.Voice{Run: calibrated(kit.AxesCorrections, 10, func(k *kit.Kit) { k.Targets = k.Targets[:1] }), Key: func(string) string { return "t" },
		Advice: advice.Advice{Do: advice.Stow, Why: advice.GoalReached, Offer: checklist.TurnOff{}}}
	for _, way := range voice.ToDo() {
		assert.Contains(t, way, "derotator off")
		assert.Contains(t, way, "nother target")
	}
	run := calibrated(kit.AxesCorrections, 10)
	voice = say.Voice{Run: run, Key: voice.Key, Advice: advice.Advice{Do: advice.HandOver, Why: advice.GoalReached, Target: "NGC 1365", Angle: &run.Angle}}
	assert.Regexp(t, `^NGC 2070 is complete: NGC 1365 gives \d h \d+ min until \d\d:\d\d$`, voice.Label()[0])
	for _, way := range voice.ToDo() {
		assert.Contains(t, way, "Go to NGC 1365")
	}
}

// Where there is no room for the whole of an alert, the words between say more than the shortest.
func TestAnAlertIsSaidInEachOfItsLengths(t *testing.T) {
	run := calibrated(kit.AxesCorrections, 300)
	run.Log.Guiding.On, run.Log.Subs = true, &checklist.Subs{}
	for _, a := range say.Alerts(run, advice.Advice{}, facts.Subs{}) {
		if a.Kind != facts.GuidingAges {
			continue
		}
		ways := say.AlertWords(a)
		assert.Equal(t, say.Sentence(a.Words), ways[0])
		assert.Equal(t, a.Brief, ways[len(ways)-1])
	}
	zone := run.Kit.Site.Zone
	slip := say.Stage(stage.Finding{Kind: stage.Slipped, By: sky.Degree / 2, To: run.Now}, zone)
	assert.Len(t, slip, 3)
	assert.Contains(t, slip[1], "read its angle", "what 80 columns hold says what to do")
	assert.Less(t, len([]rune(slip[1])), 70)
}

// The one key says of the guiding what the sentence asks for, and no more.
func TestASentenceAsksForTheGuidingToBeStoppedWhereItEnds(t *testing.T) {
	run := calibrated(kit.AxesCorrections, 10)
	run.Log.Subs = &checklist.Subs{}
	for _, a := range []advice.Advice{
		{Do: advice.StopSubs, Why: advice.Limit}, {Do: advice.StopSubs, Why: advice.FieldTurns}, {Do: advice.StopSubs, Why: advice.GoalReached},
		{Do: advice.StopSubs, Why: advice.Twilight}, {Do: advice.StopSubs, Why: advice.WindowCloses}, {Do: advice.HandOver, Target: "M 81"},
		{Do: advice.Rewind, Angle: &run.Angle},
	} {
		voice := say.Voice{Run: run, Advice: a, Key: func(string) string { return "t" }}
		for _, way := range voice.ToDo() {
			asks := strings.Contains(way, "guiding")
			assert.Equal(t, voice.AsksGuidingOff(), asks, "%v %v: %s", a.Do, a.Why, way)
		}
	}
}
