package ui

import (
	"fmt"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/ui/facts"
)

// changeWords names the star that has taken the place of the second that was chosen, and why.
func changeWords(c facts.Change) string {
	why := "that was not found"
	if !c.Missed {
		switch c.Leaving.By {
		case plan.TooHigh:
			why = "that stands too high now"
		case plan.Obstructed:
			why = "that is behind the skyline now"
		default:
			why = "that stands too low now"
		}
	}
	if c.Now == "" {
		return fmt.Sprintf("No second star in the place of %s: %s.", c.Was, why)
	}
	return fmt.Sprintf("%s in the place of %s: %s.", c.Now, c.Was, why)
}

// changed says of the step to do that its star is another than the one chosen before; "" if it is not.
func (m Model) changed(s checklist.StepState) string {
	if m.stars.Change == nil || s.Settled() || !s.Names("star_2") {
		return ""
	}
	return changeWords(*m.stars.Change)
}

// followPair keeps to the pair that was chosen in the list while that is ranked anew. Who has chosen none has
// the first, as has who chose one that will not do any more.
func (m Model) followPair(before facts.Stars) Model {
	chosen := 0
	if m.pair > 0 && m.pair < len(before.Pairs) {
		was := before.Pairs[m.pair]
		for i, p := range m.stars.Pairs {
			if p.First.Star.ID == was.First.Star.ID && p.Second.Star.ID == was.Second.Star.ID {
				chosen = i
			}
		}
	}
	return m.choosePair(chosen)
}

// choosePair chooses a pair of the list; the checklist names its stars.
func (m Model) choosePair(i int) Model {
	m.pair, m.stars.Chosen = i, i
	return m
}
