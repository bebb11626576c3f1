package ui

import "duskhand/ui/keys"

// deriveStars chooses stars anew while a screen of stars shows, and until the derotator has been on, since the
// next step stands in the footer of every screen till then. It costs a millisecond, which the rest of the night
// need not pay.
func (m Model) deriveStars() Model {
	shown := m.screen == keys.StarsScreen || m.screen == keys.FocusScreen || m.screen == keys.StepsScreen
	if m.tonight == nil || !shown && !m.log.DerotatorSince.IsZero() {
		return m
	}
	before := m.stars
	m.stars = m.tonight.StarsAt(m.now)
	m = m.followPair(before)
	m.focusStar = min(m.focusStar, max(0, len(m.stars.Focus)-1))
	return m
}

// moved goes up or down the list of the screen.
func (m Model) moved(by int) Model {
	within := func(at, n int) int { return max(0, min(at+by, n-1)) }
	switch m.screen {
	case keys.StarsScreen:
		m = m.choosePair(within(m.pair, len(m.stars.Pairs))).deriveSteps()
	case keys.FocusScreen:
		m.focusStar = within(m.focusStar, len(m.stars.Focus))
	case keys.StepsScreen:
		m.step, m.wandered = within(m.step, len(m.steps)), true
	case keys.DecideScreen:
		if choices := m.decide.ranking.answer.Choices; m.isRanked() && len(choices) > 0 {
			m.decide.chosen = choices[within(m.decide.place, len(choices))].Target.Name
			m = m.deriveDecide()
		}
	case keys.SubsScreen:
		m.scroll = within(m.scroll, len(m.subs.facts.Ledger.Entries))
	case keys.NightScreen:
		m.scroll = within(m.scroll, len(m.tonight.Rows()))
	}
	return m
}
