package ui

import (
	"duskhand/checklist"
	"duskhand/ui/screens"
)

// likely is what the one key says: what is advised, or what the room that shows has of its own.
func (m Model) likely() screens.Offer {
	if m.night.Status.Tonight == nil {
		return screens.Offer{}
	}
	if room, has := m.room().(screens.Offerer); has {
		if offer, own := room.Offers(m.night.Status); own {
			return offer
		}
	}
	return m.night.Status.Advised()
}

// nextTarget is the action of going on to the kit's next target.
func (m Model) nextTarget() checklist.Action {
	targets := m.config.Kit.Targets
	chosen := targets[0]
	for i, target := range targets {
		if target.Name == m.night.Status.Tonight.Target.Name {
			chosen = targets[(i+1)%len(targets)]
		}
	}
	return checklist.ChooseTarget{Target: checklist.Target{Name: chosen.Name, Star: chosen.Star}}
}
