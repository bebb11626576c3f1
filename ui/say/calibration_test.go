package say_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/words"
	"duskhand/ui/facts"
	"duskhand/ui/say"
)

// calibrated is a run of the example night, of a mount of one kind, calibrated as the run began.
func calibrated(kind kit.Corrections, minutes int, changes ...func(*kit.Kit)) facts.Run {
	k := kit.Example()
	for _, change := range changes {
		change(&k)
	}
	k.Guide.Corrections = kind
	k.Derotator.Min, k.Derotator.Max = -100*sky.Degree, 100*sky.Degree
	begun := time.Date(2026, time.December, 5, 11, 10, 0, 0, time.UTC)
	target := &checklist.Target{Name: k.Targets[0].Name, Star: k.Targets[0].Star}
	log := checklist.Night{Target: target, DerotatorOn: true, DerotatorSince: begun, Latest: begun,
		Anchor: &checklist.Anchor{At: begun, Angle: -90 * sky.Degree, Why: checklist.WhyOn}}
	log.Runs = []checklist.Run{{Start: begun, StartAngle: -90 * sky.Degree, Open: true, Target: target}}
	log.Guiding = checklist.Guiding{On: true, Since: begun, Calibrations: []checklist.Stood{{At: begun, Target: target, Run: 0}}}
	now := begun.Add(time.Duration(minutes) * time.Minute)
	return facts.For(k, plan.Date{Year: 2026, Month: time.December, Day: 5}, log, now, nil).At(now)
}

func TestWhatACalibrationIsWorthIsSaidAtAnyTime(t *testing.T) {
	assert.Empty(t, say.Calibration(facts.For(kit.Example(), plan.Date{Year: 2026, Month: time.December, Day: 5}, checklist.Night{}, time.Date(2026, 12, 5, 11, 0, 0, 0, time.UTC), nil).
		At(time.Date(2026, 12, 5, 11, 0, 0, 0, time.UTC))), "none was made")

	turns := calibrated(kit.TurnedCorrections, 60)
	assert.Equal(t, "0° off", say.CalibrationOff(turns))
	// Of 0.5 of the error corrected an exposure late √0.5 is left in the long run: the roots of λ² − λ + 0.5.
	assert.Equal(t, "The calibration is 0° off, its scale 1.00: each exposure leaves 0.71 of the error; it holds.", say.Calibration(turns))

	axes := calibrated(kit.AxesCorrections, 60)
	g, _ := axes.GuideNow()
	assert.NotZero(t, g.Aged.Angle)
	assert.Contains(t, say.Calibration(axes), "it holds until ")
	late := calibrated(kit.AxesCorrections, 300)
	assert.Contains(t, say.Calibration(late), "calibrate again")
	unknown := calibrated("", 300)
	assert.Contains(t, say.Calibration(unknown), " on a mount that moves its own axes as told; on another it holds")
}

func TestALookIsDueWhenTheCalibrationHoldsNoLonger(t *testing.T) {
	by := time.Date(2026, time.December, 5, 17, 0, 0, 0, time.UTC)
	plain := "Look again at " + words.Minute(by.Add(-kit.Example().Alarm.WarnBefore), kit.Example().Site.Zone)
	for kind, then := range map[kit.Corrections]string{
		kit.AxesCorrections: ", then calibrate again",
		"":                  " at least; see on later subs that the stars stay round", // it may be a mount that keeps the star
	} {
		run := calibrated(kind, 10)
		run.Log.Subs = &checklist.Subs{}
		g, ok := run.Guide()
		require.True(t, ok)
		require.True(t, g.Until.OK && g.Until.At.Before(by))

		ways, _ := say.Guiding(run)
		assert.Contains(t, ways[0], then)

		look := "Look again at " + words.Minute(g.Until.At.Add(-run.Kit.Alarm.WarnBefore), run.Kit.Site.Zone)
		if kind == "" {
			look = plain
		}
		voice := say.Voice{Run: run, Advice: advice.Advice{Do: advice.Wait, By: &by}}
		assert.Contains(t, voice.ToDo()[0], look)
	}
}
