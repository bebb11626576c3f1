package record_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"duskhand/checklist"
	"duskhand/plan/kit"
)

func TestCalibrationsOfTheGuidingAreTold(t *testing.T) {
	s := (&story{t: t}).say(0, checklist.GuidingCalibrated{}).say(1, checklist.Rewound{To: *deg(-16)}).
		say(2, checklist.DoStep{Step: "calibrate-guiding"}).say(3, checklist.TurnOn{}).say(4, checklist.WriteNote{Text: "calm air"}).
		say(3, checklist.GuidingCalibrated{}).say(63, checklist.GuidingLost{}).say(64, checklist.GuideChecked{Yes: true}).
		say(65, checklist.CloudCame{}).say(70, checklist.SkyCleared{})
	var got []string
	for _, m := range of(kit.Example(), s.night()).Nights[0].Mentions {
		got = append(got, m.At.Format("15:04 ")+m.Kind+": "+m.Text)
	}
	assert.Equal(t, []string{
		"11:10 guiding: guiding calibrated", // nobody knew the angle
		"11:12 guiding: guiding calibrated, the derotator at −16.0°",
		"11:13 guiding: guiding calibrated, the derotator at −16.0°",
		"11:14 note: calm air",
		"12:13 guiding: guide star lost",
		"12:14 guiding: guiding checked: the star came back",
		"12:15 cloud: cloud",
		"12:20 cloud: clear again",
	}, got)
}

// A mount that moves its own axes: the calibration is off by what the derotator has turned since.
func TestTheRecordSaysHowFarOffACalibrationWasWhenARunBegan(t *testing.T) {
	k := kit.Example()
	s := (&story{t: t}).say(0, checklist.TurnOn{Angle: deg(-16)}).say(1, checklist.GuidingCalibrated{}).say(60, checklist.Rewound{From: deg(-5), To: *deg(14)})
	mentioned := func() (texts []string) {
		for _, m := range of(k, s.night()).Nights[0].Mentions {
			texts = append(texts, m.Text)
		}
		return texts
	}
	k.Guide.Corrections = kit.AxesCorrections
	assert.Regexp(t, `^run 2 begins with the calibration (29|30)\.\d° off, its scale \d\.\d\d$`, mentioned()[1])
	k.Guide.Corrections = kit.TurnedCorrections
	assert.Len(t, mentioned(), 1, "its calibration never goes off")
	k.Guide.Corrections = ""
	assert.Contains(t, mentioned()[1], ", if the mount's corrections are by ")
}
