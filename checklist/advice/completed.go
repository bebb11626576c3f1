package advice

import "duskhand/checklist"

// Completed returns an action with what the operator need not say because it is known: where the derotator
// stands when it is turned off, rewound or taken along to another target, and in which order subs are to come.
func (m Moment) Completed(a checklist.Action) checklist.Action {
	if m.Tonight == nil {
		return a
	}
	if said, ok := a.(checklist.StartSubs); ok && said.Filter == "" && said.Order == nil {
		said.Order = m.orderOf(m.SequenceFromNow(), m.Now)
		return said
	}
	if m.Anchor == nil {
		return a
	}
	angle := m.Angle
	switch said := a.(type) {
	case checklist.TurnOff:
		if said.Angle == nil {
			said.Angle = &angle
		}
		return said
	case checklist.Rewound:
		if said.From == nil {
			said.From = &angle
		}
		return said
	case checklist.ChooseTarget:
		if said.Angle == nil {
			said.Angle = &angle
		}
		return said
	}
	return a
}
