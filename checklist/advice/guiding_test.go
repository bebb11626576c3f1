package advice_test

import (
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/plan"
	"duskhand/plan/guiding"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// handedOver is the night of the field: calibrated with the stage at −55.7°, and at a hand-over sent to 100°.
func handedOver(t *testing.T, corrections kit.Corrections) *model {
	n := example(t, func(k *kit.Kit) {
		k.Derotator.Min, k.Derotator.Max = -100*sky.Degree, 170*sky.Degree
		k.Guide.Corrections = corrections
	})
	n.say(utc(11, 10), checklist.TurnOn{Angle: degrees(-55.7)})
	n.say(utc(11, 11), checklist.DoStep{Step: "derotator-seen"})
	n.say(utc(11, 12), checklist.GuidingCalibrated{})
	n.say(utc(11, 13), checklist.GuidingOn{})
	n.say(utc(11, 14), checklist.StartSubs{})
	n.say(utc(11, 30), checklist.StopSubs{})
	n.say(utc(11, 31), checklist.GuidingOff{})
	n.say(utc(11, 32), checklist.Rewound{To: 100 * sky.Degree})
	n.say(utc(11, 33), checklist.DoStep{Step: "derotator-seen"})
	n.say(utc(11, 34), checklist.Recentred{})
	return n
}

func TestACalibrationThatHasAgedIsNotGuidedBy(t *testing.T) {
	for _, c := range []struct {
		name        string
		corrections kit.Corrections
		do          advice.Do
		step        string
		offer       checklist.Action
	}{
		{"a mount that turns its corrections", kit.TurnedCorrections, advice.GuidingOn, "start-guiding", checklist.GuidingOn{}},
		{"a mount that moves its own axes", kit.AxesCorrections, advice.DoStep, "calibrate-guiding", checklist.GuidingCalibrated{}},
		{"a mount that moves on the sky", kit.SkyCorrections, advice.DoStep, "calibrate-guiding", checklist.GuidingCalibrated{}},
		{"a mount of which nobody knows", "", advice.DoStep, "see-correction", checklist.GuideChecked{Yes: true}},
	} {
		t.Run(c.name, func(t *testing.T) {
			n := handedOver(t, c.corrections)
			a := n.advice(utc(11, 35))
			assert.Equal(t, c.do, a.Do)
			assert.Equal(t, c.step, a.Step)
			assert.Equal(t, c.offer, a.Offer)
			n.say(utc(11, 36), a.Offer)
			after := n.advice(utc(11, 36))
			if c.do == advice.DoStep {
				assert.Equal(t, advice.CalibrationOld, a.Why)
				assert.Equal(t, advice.GuidingOn, after.Do, "asked once")
				return
			}
			assert.Equal(t, advice.SubsOn, after.Do)
		})
	}
}

func TestAStarThatWentOffIsAnsweredByACalibrationHoweverItIsSaid(t *testing.T) {
	for name, said := range map[string]checklist.Action{
		"by its own word":       checklist.GuideChecked{Yes: false},
		"as a step that failed": checklist.FailStep{Step: "see-correction", Note: "off it went"},
	} {
		t.Run(name, func(t *testing.T) {
			n := handedOver(t, "")
			n.say(utc(11, 36), said)
			a := n.advice(utc(11, 37))
			assert.Equal(t, "calibrate-guiding", a.Step)
			assert.Equal(t, checklist.GuidingCalibrated{}, a.Offer)
			n.say(utc(11, 38), a.Offer)
			kinds, slip := n.log.GuideKinds(n.kit, func(*checklist.Target) *plan.Course { return n.at(utc(11, 38)).Course })
			assert.Equal(t, []kit.Corrections{kit.AxesCorrections, kit.SkyCorrections}, kinds)
			assert.False(t, slip)
			assert.Equal(t, advice.GuidingOn, n.advice(utc(11, 39)).Do)
		})
	}
}

// A mount that moves its own axes: the stage turns away from the calibration while subs are taken.
func TestARunThatOutgrowsItsCalibrationSaysSo(t *testing.T) {
	n := example(t, func(k *kit.Kit) {
		k.Derotator.Min, k.Derotator.Max = -100*sky.Degree, 100*sky.Degree
		k.Guide.Corrections = kit.AxesCorrections
		k.Guide.Gain = 0.7
	})
	n.say(utc(11, 10), checklist.TurnOn{Angle: degrees(-90)})
	n.say(utc(11, 11), checklist.DoStep{Step: "derotator-seen"})
	n.say(utc(11, 12), checklist.GuidingCalibrated{})
	n.say(utc(11, 13), checklist.GuidingOn{})
	n.say(utc(11, 14), checklist.StartSubs{})
	n.say(utc(11, 20), checklist.DoStep{Step: "first-sub-good"})
	g, ok := n.at(utc(11, 21)).Guide()
	require.True(t, ok)
	require.True(t, g.Until.OK, "half of 28.5° is less than the run's turning")
	assert.Less(t, g.Radius, 1.0)
	assert.Equal(t, advice.Wait, n.advice(g.Until.At.Add(-2*time.Minute)).Do)
	a := n.advice(g.Until.At.Add(2 * time.Minute))
	assert.Equal(t, "calibrate-guiding", a.Step)
	assert.Equal(t, advice.Warning, a.Level)
	n.say(g.Until.At.Add(3*time.Minute), a.Offer)
	assert.Equal(t, advice.Wait, n.advice(g.Until.At.Add(4*time.Minute)).Do)
}

func TestWhatTheNextRewindAsksOfTheGuiding(t *testing.T) {
	n := example(t, func(k *kit.Kit) { k.Guide.Corrections = kit.SkyCorrections })
	n.say(utc(11, 10), checklist.TurnOn{Angle: degrees(-16)})
	n.say(utc(11, 12), checklist.GuidingCalibrated{})
	g, ok := n.at(utc(11, 13)).Guide()
	require.True(t, ok)
	assert.Equal(t, guiding.Holds, g.Verdict)
	require.NotNil(t, g.Next)
	assert.Equal(t, guiding.Again, g.Next.Verdict, "the camera angle of the next run is 33° away, half of the bound 23.5°")
	assert.InDelta(t, -16, g.Next.Stage.Degrees(), 0.5)
}

// Nights in which a person does what is advised on a mount of one kind, which nobody has told: what is settled is
// the mount's own kind, and no run is guided by a calibration that diverges on it.
func TestWhatIsAdvisedNeverSettlesOnTheWrongKind(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 11))
	lives := 24
	if testing.Short() {
		lives = 6
	}
	asked := 0
	for range lives {
		kind := kit.AllCorrections()[rng.IntN(3)]
		n, ok := randomNight(t, rng)
		if !ok {
			continue
		}
		n.guided.corrects = kind
		live(t, n)
		m := n.at(n.guided.lastly)
		kinds, _ := n.log.GuideKinds(n.kit, func(*checklist.Target) *plan.Course { return m.Course })
		assert.Contains(t, kinds, kind)
		assert.Zero(t, n.guided.runaway, "guiding that drives its star away, on a mount by %s", kind)
		asked += len(n.log.Guiding.Checks)
	}
	assert.Positive(t, asked, "it would be right never to ask, and useless")
}
