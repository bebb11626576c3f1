package say

import (
	"fmt"
	"math"

	"duskhand/checklist"
	"duskhand/checklist/subs/survey"
	"duskhand/checklist/subs/turning"
)

// Turning says how the field turns, longest first.
func Turning(t checklist.TurningBody) []string {
	sentence, _ := survey.TurningWords(t)
	rate := fmt.Sprintf("%.2f° ± %.2f° an hour", math.Abs(t.RateDegPerH), t.ErrorDegPerH)
	brief := fmt.Sprintf("%.1f°/h", math.Abs(t.RateDegPerH))
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
