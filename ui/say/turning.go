package say

import (
	"duskhand/checklist"
	"duskhand/checklist/subs/survey"
	"duskhand/checklist/subs/turning"
	"duskhand/sky"
	"duskhand/sky/words"
)

// Turning says how the field turns, longest first.
func Turning(t checklist.TurningBody) []string {
	sentence, _ := survey.TurningWords(t)
	rate := words.AnHourWithin(sky.Rate(t.RateDegPerH)*sky.DegreePerHour, sky.Rate(t.ErrorDegPerH)*sky.DegreePerHour, 2)
	brief := words.AnHourBrief(sky.Rate(t.RateDegPerH)*sky.DegreePerHour, 1)
	switch turning.Kind(t.Kind) {
	case turning.Steady:
		return []string{sentence, "The field holds still: " + rate, "still: " + brief}
	case turning.Off, turning.Reversed:
		return []string{sentence, "The field turns: look at the derotator.", "THE FIELD TURNS " + brief}
	case turning.Residual:
		if survey.AtOnce(t) {
			return []string{sentence, "The camera turned at one go.", "one step"}
		}
		return []string{sentence, "The field creeps by " + rate, "creeps: " + brief}
	}
	return []string{sentence, "can't tell yet"}
}
