package ui

// deriveStars chooses stars anew while a screen of stars shows: that costs a millisecond, which the other
// screens need not pay.
func (m Model) deriveStars() Model {
	if m.tonight == nil || m.screen != starsScreen && m.screen != focusScreen && m.screen != stepsScreen {
		return m
	}
	m.stars = m.tonight.StarsAt(m.now)
	m.pair = min(m.pair, max(0, len(m.stars.Pairs)-1))
	m.focusStar = min(m.focusStar, max(0, len(m.stars.Focus)-1))
	return m
}

// moved goes up or down the list of the screen.
func (m Model) moved(by int) Model {
	within := func(at, n int) int { return max(0, min(at+by, n-1)) }
	switch m.screen {
	case starsScreen:
		m.pair = within(m.pair, len(m.stars.Pairs))
	case focusScreen:
		m.focusStar = within(m.focusStar, len(m.stars.Focus))
	case stepsScreen:
		m.step, m.wandered = within(m.step, len(m.steps)), true
	case decideScreen:
		if choices := m.decide.ranking.answer.Choices; m.isRanked() && len(choices) > 0 {
			m.decide.chosen = choices[within(m.decide.place, len(choices))].Target.Name
			m = m.deriveDecide()
		}
	case subsScreen:
		m.scroll = within(m.scroll, len(m.subs.facts.Ledger.Entries))
	case nightScreen:
		m.scroll = within(m.scroll, len(m.tonight.Rows()))
	}
	return m
}
