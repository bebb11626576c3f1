package advice_test

import (
	"testing"
	"time"
	_ "time/tzdata" // the example's zone, on computers without their own table

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// example is the example's night, 2026-12-05: NGC 2070 from dusk at 11:07 UTC on, NGC 1365 in the keyhole from 12:24 to
// 14:10 for some axis.
func example(t *testing.T, change func(*kit.Kit)) *model {
	k := kit.Example()
	k.Example = false
	if change != nil {
		change(&k)
	}
	return &model{t: t, kit: k, steps: checklist.Steps(), date: plan.Date{Year: 2026, Month: time.December, Day: 5}}
}

func utc(hour, minute int) time.Time { return time.Date(2026, 12, 5, hour, minute, 0, 0, time.UTC) }

func (n *model) advice(now time.Time) advice.Advice { return advice.Decide(n.at(now), n.steps) }

func degrees(x float64) *sky.Angle {
	a := sky.Angle(x) * sky.Degree
	return &a
}

func TestTheTelescopeIsDrivenOffBeforeACeilingThatStopsIt(t *testing.T) {
	for _, c := range []struct {
		name  string
		stops bool
		want  advice.Do
	}{{"something is in the way", true, advice.MoveAway}, {"it is only too fast there", false, advice.Wait}} {
		t.Run(c.name, func(t *testing.T) {
			n := example(t, func(k *kit.Kit) { k.Targets, k.Mount.CeilingStops = k.Targets[1:], c.stops })
			n.say(utc(11, 40), checklist.TurnOn{Angle: degrees(-5)})
			n.say(utc(11, 41), checklist.StartSubs{})
			early := n.at(utc(11, 42)).Window.Ceiling.Early
			require.True(t, early.OK)
			assert.NotEqual(t, advice.MoveAway, n.advice(early.At.Add(-11*time.Minute)).Do, "not before its time")
			a := n.advice(early.At.Add(-9 * time.Minute))
			assert.Equal(t, c.want, a.Do)
			if c.stops {
				assert.Equal(t, advice.Calling, a.Level)
				assert.Equal(t, early.At, *a.By)
				n.say(early.At.Add(-8*time.Minute), a.Offer)
				assert.Equal(t, checklist.TurnOff{}, n.advice(early.At.Add(-8*time.Minute)).Offer)
				n.say(early.At.Add(-7*time.Minute), checklist.TurnOff{})
				assert.NotEqual(t, advice.MoveAway, n.advice(early.At.Add(-7*time.Minute)).Do, "it is away")
			}
		})
	}
}

func TestSubsInTwilightAreSpokenAgainstAndNotOffered(t *testing.T) {
	n := example(t, nil)
	n.say(utc(11, 0), checklist.TurnOn{Angle: degrees(-16)})
	a := n.advice(utc(11, 0))
	assert.Equal(t, advice.Wait, a.Do)
	assert.Equal(t, advice.Twilight, a.Why)
	assert.Nil(t, a.Offer)
	n.say(utc(11, 1), checklist.StartSubs{})
	a = n.advice(utc(11, 2))
	assert.Equal(t, advice.StopSubs, a.Do)
	assert.Equal(t, advice.Twilight, a.Why)
	assert.Equal(t, advice.Warning, a.Level, "the person may insist")
	assert.NotEqual(t, advice.StopSubs, n.advice(utc(11, 8)).Do, "it is dark now")
}

func TestCloudIsWaitedFor(t *testing.T) {
	n := example(t, nil)
	n.say(utc(11, 10), checklist.TurnOn{Angle: degrees(-16)})
	n.say(utc(11, 11), checklist.CloudCame{})
	a := n.advice(utc(11, 12))
	assert.Equal(t, advice.Wait, a.Do)
	assert.Equal(t, advice.Cloud, a.Why)
	n.say(utc(11, 13), checklist.SkyCleared{})
	assert.Equal(t, advice.SubsOn, n.advice(utc(11, 14)).Do)
}

func TestTheAngleIsAskedForWhileNobodyKnowsIt(t *testing.T) {
	n := example(t, nil)
	n.say(utc(11, 10), checklist.TurnOn{})
	a := n.advice(utc(11, 11))
	assert.Equal(t, advice.SayAngle, a.Do)
	assert.Equal(t, advice.AngleUnknown, a.Why)
	n.say(utc(11, 12), checklist.Read{Angle: *degrees(-15)})
	assert.Equal(t, advice.SubsOn, n.advice(utc(11, 13)).Do)
}

// What was stopped just before the call is not started again for a sub or two.
func TestSubsThatWereStoppedAtTheCallAreNotOfferedAgain(t *testing.T) {
	n := example(t, nil)
	n.say(utc(11, 8), checklist.TurnOn{Angle: degrees(-16)})
	n.say(utc(11, 9), checklist.StartSubs{})
	call := n.at(utc(11, 10)).Call
	stopped := call.At.Add(10 * time.Second)
	due := n.advice(stopped)
	require.Equal(t, advice.Rewind, due.Do)
	require.Equal(t, checklist.StopSubs{}, due.Offer)
	n.say(stopped, due.Offer)
	a := n.advice(stopped)
	assert.Equal(t, advice.Rewind, a.Do)
	assert.Equal(t, checklist.Rewound{To: -16 * sky.Degree}, a.Offer)
}

// A hand-over keeps all of the loop: the target, the stage turned where that buys more, seen to turn, framed, guided.
func TestAHandOverKeepsTheWholeLoop(t *testing.T) {
	n := example(t, func(k *kit.Kit) { k.Targets[0].Share, k.Targets[1].Share = 1, 1 })
	var after []advice.Do
	var steps []string
	handed := false
	for now := utc(9, 0); now.Before(utc(18, 0)) && len(after) < 12; now = now.Add(30 * time.Second) {
		a := n.advice(now)
		if a.Offer == nil {
			continue
		}
		n.say(now, a.Offer)
		if _, to := a.Offer.(checklist.ChooseTarget); to && a.Do == advice.HandOver {
			handed = true
		}
		if handed && (len(after) == 0 || after[len(after)-1] != a.Do) {
			after = append(after, a.Do)
		}
		if handed {
			steps = append(steps, a.Step)
		}
		if handed && a.Do == advice.SubsOn {
			break
		}
	}
	require.NotEmpty(t, after, "a hand-over comes")
	assert.Contains(t, after, advice.GuidingOn)
	assert.Equal(t, advice.SubsOn, after[len(after)-1])
	for _, step := range []string{"go-to-target", "way-is-clear", "derotator-seen", "frame-it"} {
		assert.Contains(t, steps, step)
	}
	assert.True(t, n.log.Guiding.On)
}

func TestALostGuideStarAndAFailedCheckAreAnswered(t *testing.T) {
	n := example(t, nil)
	n.say(utc(11, 8), checklist.TurnOn{Angle: degrees(-16)})
	n.say(utc(11, 9), checklist.GuidingCalibrated{})
	n.say(utc(11, 9), checklist.GuidingOn{})
	n.say(utc(11, 10), checklist.StartSubs{})
	require.Equal(t, advice.Wait, n.advice(utc(11, 20)).Do)
	n.say(utc(11, 21), checklist.GuidingLost{})
	a := n.advice(utc(11, 22))
	assert.Equal(t, advice.GuidingOn, a.Do)
	assert.Equal(t, advice.Calling, a.Level)
	n.say(utc(11, 23), a.Offer)
	require.Equal(t, advice.Wait, n.advice(utc(11, 24)).Do)
	n.say(utc(11, 25), checklist.GuideChecked{Yes: false})
	a = n.advice(utc(11, 26))
	assert.Equal(t, advice.CalibrationOld, a.Why)
	assert.Equal(t, "calibrate-guiding", a.Step)
	n.say(utc(11, 27), a.Offer)
	assert.Equal(t, advice.Wait, n.advice(utc(11, 28)).Do)
}
