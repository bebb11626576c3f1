package record

import (
	"slices"

	"duskhand/checklist"
	"duskhand/checklist/tally"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky/words"
)

// withCalibrations adds when the guiding was calibrated and where the derotator stood then, in the order of
// time. Ticked steps say it too.
func (l log) withCalibrations(mentions []Mention, sun *plan.Night, axis kit.Axis) []Mention {
	axis.Uncertainty = 0 // no bounds are asked for
	courseOf := func(t *checklist.Target) *plan.Course { return sun.Course(tally.Chosen(l.kit, l.night, t), axis) }
	for _, made := range l.night.Guiding.Calibrations {
		text := "guiding calibrated"
		if pose, known := l.night.PoseOf(made, courseOf); known {
			text += ", the derotator at " + words.Degrees(pose.Stage, 1)
		}
		mentions = append(mentions, Mention{At: made.At, Kind: "guiding", Text: text})
	}
	slices.SortStableFunc(mentions, func(a, b Mention) int { return a.At.Compare(b.At) })
	return mentions
}
