package say_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"duskhand/checklist"
	"duskhand/checklist/subs/survey"
	"duskhand/ui/say"
)

func TestWhatALightSaysOfTheDerotator(t *testing.T) {
	for _, test := range []struct {
		name string
		body checklist.TurningBody
		want string
	}{
		{"off", checklist.TurningBody{Kind: "off", Alarm: true, RateDegPerH: 17.2, ErrorDegPerH: 0.1, PredictedDegPerH: 17.3, Lights: 3},
			"The field turns 17.2° an hour, as it would with the derotator off: see that it is on."},
		{"reversed", checklist.TurningBody{Kind: "reversed", Alarm: true, RateDegPerH: -34.4, PredictedDegPerH: 17.2, Lights: 3},
			"The field turns 34.4° an hour, twice what it would with the derotator off: its sense is wrong (derotator.sense in the kit)."},
		{"slow", checklist.TurningBody{Kind: "residual", RateDegPerH: 0.91, ErrorDegPerH: 0.11, PredictedDegPerH: 17, Lights: 9, Why: "the axis tilt by 1.2° toward azimuth 210° would explain it"},
			"A slow 0.9° ± 0.1° an hour is left: the axis tilt by 1.2° toward azimuth 210° would explain it."},
		{"slow and not explained", checklist.TurningBody{Kind: "residual", RateDegPerH: 0.9, ErrorDegPerH: 0.02, Lights: 9},
			"A slow 0.90° ± 0.02° an hour is left."},
		{"some other rate", checklist.TurningBody{Kind: "residual", Alarm: true, RateDegPerH: 6, ErrorDegPerH: 0.2, PredictedDegPerH: -17, Lights: 4},
			"The field turns 6.0° ± 0.2° an hour; with the derotator off it would turn 17.0° an hour: see what the derotator does, and whether its cable or rotator slips."},
		{"a step", checklist.TurningBody{Kind: "residual", RateDegPerH: 262.5, ErrorDegPerH: 1.55, PredictedDegPerH: 12, Lights: 2, Explained: &checklist.ExplainedBody{By: checklist.ExplainedByStep, StepDeg: 0.6}},
			"The camera turned by 0.6° between two lights: a rewind, a slip, or the derotator put right."},
		{"the axis explains it", checklist.TurningBody{Kind: "residual", RateDegPerH: 0.91, ErrorDegPerH: 0.11, PredictedDegPerH: 17, Lights: 9,
			Explained: &checklist.ExplainedBody{By: checklist.ExplainedByTilt, TiltDeg: 1.2, TowardDeg: 210, KnownTiltDeg: 0.5, KnownTowardDeg: 180}},
			"A slow 0.9° ± 0.1° an hour is left: the axis tilt by 1.2° toward azimuth 210° would explain it (the kit or the night has 0.5° toward 180°): sight two stars again."},
		{"it turns about a star", checklist.TurningBody{Kind: "residual", RateDegPerH: 0.91, ErrorDegPerH: 0.11, PredictedDegPerH: 17, Lights: 9,
			Explained: &checklist.ExplainedBody{By: checklist.ExplainedByPivot, OffDeg: 1.24}},
			"A slow 0.9° ± 0.1° an hour is left: it turns about a point 1.2° off the middle: the guide star, if the guide telescope looks there."},
		{"steady", checklist.TurningBody{Kind: "steady", RateDegPerH: 0.004, ErrorDegPerH: 0.01, PredictedDegPerH: 17, Lights: 12},
			"The field holds still, to 0.03° an hour over 12 lights; with the derotator off it would turn 17.0° an hour."},
		{"too early", checklist.TurningBody{Kind: "cannot tell", Lights: 1, Untold: "first light"},
			"Nothing to tell yet: the first light has none to be compared with; the next one tells."},
		{"cloud during an alarm", checklist.TurningBody{Kind: "unknown", Alarm: true, Why: "cloud"},
			"The field was turning, and nothing shows that it has stopped: cloud."},
	} {
		t.Run(test.name, func(t *testing.T) {
			assert.Equal(t, test.want, say.TurningSentence(test.body))
		})
	}
}

func TestWhyNothingIsToldYet(t *testing.T) {
	b := checklist.TurningBody{Kind: "cannot tell", Lights: 3, RateDegPerH: 0.31, ErrorDegPerH: 0.04, PredictedDegPerH: 12.5}
	for why, want := range map[string]string{
		"few lights": "Nothing to tell yet: so far it turns 0.3° ± 0.1° an hour, with the derotator off it would turn 12.5° an hour; a few more lights tell.",
		"slow field": "Nothing to tell yet: the field itself turns only 12.50°/h just now, too little to tell whether the derotator follows.",
		"not later":  "Nothing to tell yet: the light is not later than the one before.",
	} {
		b.Untold = why
		assert.Equal(t, want, say.TurningSentence(b))
	}
}

func TestWhyAGroupOfLightsBegins(t *testing.T) {
	for why, want := range map[survey.Why]string{
		"": "", survey.CopyOfBefore: "a copy of the light before, by its DATE-OBS", survey.CameraTurned: "the camera has been turned since the light before, by a rewind or by hand",
		survey.AnotherField: "the lights before it show another field", survey.OtherObject: "another object by its header", survey.OtherSize: "another size of picture",
		survey.HoursLater: "hours after the light before", survey.NotCompared: "the first light has none to be compared with; the next one tells",
	} {
		assert.Equal(t, want, say.Lineup(survey.Place{Why: why, Verdict: checklist.TurningBody{Untold: "first light"}}))
	}
}
