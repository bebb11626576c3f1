package say

import (
	"duskhand/plan"
	"duskhand/sky/words"
)

// WhyIdle says in words why nothing is exposed in a part of the dark.
func WhyIdle(i plan.Idle) string {
	switch i.Why {
	case plan.WindowClosed:
		return "the target can't be used: " + i.Bound.Text()
	case plan.TooFast:
		return "the field turns too fast for a run that a sub fits, from any start"
	case plan.TiltUnknown:
		return "no start is safe while the tilt is not known better; the tilt as believed would allow it"
	case plan.NotWorthIt:
		return "what a rewind would gain is less than it is worth (subs.worth_a_rewind_s)"
	case plan.BetterStart:
		return "a run that starts later gives more"
	case plan.GoalReached:
		return "all the wanted subs are taken"
	}
	return "too short for a run"
}

// BriefIdle is WhyIdle in two or three words.
func BriefIdle(i plan.Idle) string {
	switch i.Why {
	case plan.WindowClosed:
		return i.Bound.Text()
	case plan.TooFast:
		return "field too fast"
	case plan.TiltUnknown:
		return "tilt not known"
	case plan.NotWorthIt:
		return "not worth a rewind"
	case plan.BetterStart:
		return "later is better"
	case plan.GoalReached:
		return "all subs taken"
	}
	return "too short"
}

// EdgesOf prints what lies between the runs: from the minute that ends the run before to that from which the next can
// begin, as those are printed themselves, and the dark's own beginning and end as that is. Where one of all follows at
// once, the minute between the two is the same in both.
func EdgesOf(idle plan.Span, all []plan.Idle, dark []plan.Span, local words.Wall) (from, to string) {
	from, to = local.Minute(idle.From), local.MinuteFrom(idle.To)
	for _, next := range all {
		if next.From.Equal(idle.To) {
			to = local.Minute(idle.To)
		}
	}
	for _, d := range dark {
		if d.From.Equal(idle.From) {
			from = local.MinuteFrom(idle.From)
		}
		if d.To.Equal(idle.To) {
			to = local.Minute(idle.To)
		}
	}
	return from, to
}
