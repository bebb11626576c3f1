package session

import (
	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist/advice"
	"duskhand/plan"
)

// What it costs that the axis is not known better, found in the background, once for each plan.

// pricing is the plan that was asked about last.
type pricing struct {
	asked advice.Pricing
	open  bool // the answer has not come yet
}

// priceAxis has the price of the plan found if nobody has asked for it yet. One answer is waited for at a time.
func (m Session) priceAxis() (Session, tea.Cmd) {
	t := m.Status.Tonight
	if t == nil || m.pricing.open {
		return m, nil
	}
	of := t.Pricing()
	if of == m.pricing.asked {
		return m, nil
	}
	if !of.OfSameAxis(m.pricing.asked) {
		m.Status.Price = plan.Price{}
	}
	m.pricing = pricing{of, true}
	return m, func() tea.Msg { return pricedMsg{of, t.Price()} }
}

// priced takes the answer, unless the axis is another by now.
func (m Session) priced(msg pricedMsg) Session {
	m.pricing.open = false
	if m.Status.Tonight != nil && m.Status.Tonight.Pricing().OfSameAxis(msg.of) {
		m.Status.Price = msg.price
	}
	return m
}
