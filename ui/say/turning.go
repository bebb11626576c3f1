package say

import (
	"fmt"
	"math"
	"strings"

	"duskhand/checklist"
	"duskhand/checklist/subs/survey"
	"duskhand/checklist/subs/turning"
	"duskhand/sky"
	"duskhand/sky/words"
)

// Turning says how the field turns, longest first.
func Turning(t checklist.TurningBody) []string {
	sentence := TurningSentence(t)
	rate := words.AnHourWithin(sky.Rate(t.RateDegPerH)*sky.DegreePerHour, sky.Rate(t.ErrorDegPerH)*sky.DegreePerHour, 2)
	brief := words.AnHourBrief(sky.Rate(t.RateDegPerH)*sky.DegreePerHour, 1)
	switch turning.Kind(t.Kind) {
	case turning.Steady:
		return []string{sentence, "The field holds still: " + rate, "still: " + brief}
	case turning.Off:
		return []string{sentence, "The field turns as with the derotator off: see that it is on.", "The field turns: is the derotator on?", "THE FIELD TURNS " + brief}
	case turning.Reversed:
		return []string{sentence, "The stage turns the wrong way: see derotator.sense in the kit.", "The stage turns the wrong way: derotator.sense?", "THE FIELD TURNS " + brief}
	case turning.Residual:
		if survey.AtOnce(t) {
			return []string{sentence, "The camera turned at one go.", "one step"}
		}
		return []string{sentence, "The field creeps by " + rate, "creeps: " + brief}
	}
	return []string{sentence, "can't tell yet"}
}

// TurningSentence says what a light says of the derotator.
func TurningSentence(b checklist.TurningBody) string {
	rate := hourly(b.RateDegPerH)
	switch turning.Kind(b.Kind) {
	case turning.Steady:
		return fmt.Sprintf("The field holds still, to %s over %s; with the derotator off it would turn %s.", most(b), words.Count(b.Lights, "light"), hourly(b.PredictedDegPerH))
	case turning.Off:
		return fmt.Sprintf("The field turns %s, as it would with the derotator off: see that it is on.", rate)
	case turning.Reversed:
		return fmt.Sprintf("The field turns %s, twice what it would with the derotator off: its sense is wrong (derotator.sense in the kit).", rate)
	case turning.Residual:
		return residualSentence(b)
	}
	why := untold(b)
	if b.Alarm {
		return fmt.Sprintf("The field was turning, and nothing shows that it has stopped: %s.", why)
	}
	return fmt.Sprintf("Nothing to tell yet: %s.", why)
}

// untold says why a light tells nothing of the derotator. Errors and old journals have it in words.
func untold(b checklist.TurningBody) string {
	switch turning.Reason(b.Untold) {
	case turning.FirstLight:
		return "the first light has none to be compared with; the next one tells"
	case turning.NotLater:
		return "the light is not later than the one before"
	case turning.FewLights:
		return fmt.Sprintf("so far it turns %s, with the derotator off it would turn %s; a few more lights tell",
			words.AnHourWithin(perHour(b.RateDegPerH), perHour(max(0.1, b.ErrorDegPerH)), 1), words.AnHour(perHour(b.PredictedDegPerH), 1))
	case turning.SlowField:
		return fmt.Sprintf("the field itself turns only %s just now, too little to tell whether the derotator follows", words.AnHourBrief(perHour(b.PredictedDegPerH), 2))
	}
	return strings.TrimSuffix(b.Why, ".")
}

// Lineup says why a group of lights begins with one, or why that can't be compared; "" where neither is so.
func Lineup(p survey.Place) string {
	switch p.Why {
	case survey.CopyOfBefore:
		return "a copy of the light before, by its DATE-OBS"
	case survey.CameraTurned:
		return "the camera has been turned since the light before, by a rewind or by hand"
	case survey.AnotherField:
		return "the lights before it show another field"
	case survey.OtherObject:
		return "another object by its header"
	case survey.OtherSize:
		return "another size of picture"
	case survey.HoursLater:
		return "hours after the light before"
	case survey.NotCompared:
		return untold(p.Verdict)
	}
	return ""
}

// slowDegPerH is up to where a turning that is left is called slow: a corner of an ordinary chip moves by a few
// pixels in five minutes. Our choice.
const slowDegPerH = 2

// explanation says what explains that the field creeps.
func explanation(e checklist.ExplainedBody) string {
	degrees := func(x float64) sky.Angle { return sky.Angle(x) * sky.Degree }
	switch e.By {
	case checklist.ExplainedByTilt:
		return fmt.Sprintf("the axis tilt by %s toward azimuth %s would explain it (the kit or the night has %s toward %s): sight two stars again",
			words.Degrees(degrees(e.TiltDeg), 1), words.Direction(degrees(e.TowardDeg), 0), words.Degrees(degrees(e.KnownTiltDeg), 1), words.Direction(degrees(e.KnownTowardDeg), 0))
	case checklist.ExplainedByPivot:
		return fmt.Sprintf("it turns about a point %s off the middle: the guide star, if the guide telescope looks there", words.Degrees(degrees(e.OffDeg), 1))
	}
	return ""
}

func residualSentence(b checklist.TurningBody) string {
	if survey.AtOnce(b) {
		return fmt.Sprintf("The camera turned by %s between two lights: a rewind, a slip, or the derotator put right.",
			words.Degrees(sky.Angle(b.Explained.StepDeg)*sky.Degree, 1))
	}
	text := fmt.Sprintf("The field turns %s; with the derotator off it would turn %s", within(b), hourly(b.PredictedDegPerH))
	if math.Abs(b.RateDegPerH) < slowDegPerH {
		text = fmt.Sprintf("A slow %s is left", within(b))
	}
	switch {
	case b.Explained != nil:
		return text + ": " + explanation(*b.Explained) + "."
	case b.Why != "":
		return text + ": " + untold(b) + "."
	case math.Abs(b.RateDegPerH) < slowDegPerH:
		return text + "."
	}
	return text + ": see what the derotator does, and whether its cable or rotator slips."
}

// within prints a rate with its error, in as many decimals as the error allows; none is
// called smaller than the last of them.
func within(b checklist.TurningBody) string {
	decimals := 1
	if b.ErrorDegPerH < 0.1 && math.Abs(b.RateDegPerH) < 10 {
		decimals = 2
	}
	return words.AnHourWithin(perHour(b.RateDegPerH), perHour(max(b.ErrorDegPerH, math.Pow10(-decimals))), decimals)
}

// most prints how fast it may turn: the rate and two of its errors, rounded up.
func most(b checklist.TurningBody) string {
	return words.AnHour(perHour(max(0.01, math.Ceil(100*(math.Abs(b.RateDegPerH)+2*b.ErrorDegPerH))/100)), 2)
}

func hourly(degPerH float64) string { return words.AnHour(perHour(degPerH), 1) }

func perHour(degrees float64) sky.Rate { return sky.Rate(degrees) * sky.DegreePerHour }
