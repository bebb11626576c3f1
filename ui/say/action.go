package say

import "duskhand/checklist"

// ActionWords names what a person would say, for the key that says it; "" for nothing.
func ActionWords(a checklist.Action) string {
	switch a := a.(type) {
	case checklist.StopSubs:
		return "subs stopped"
	case checklist.StartSubs:
		return "subs started"
	case checklist.Rewound:
		return "rewound to " + angleText(&a.To)
	case checklist.TurnOn:
		if a.Angle == nil {
			return "derotator on"
		}
		return "derotator on at " + angleText(a.Angle)
	case checklist.TurnOff:
		return "derotator off"
	case checklist.ChooseTarget:
		return "target " + a.Target.Name
	case checklist.GuidingCalibrated:
		return "guiding calibrated"
	case checklist.GuidingOn:
		return "guiding on"
	case checklist.GuideChecked:
		if a.Yes {
			return "star came back"
		}
		return "star went off"
	case checklist.GuidingOff:
		return "guiding off"
	case checklist.Recentred:
		return "re-centred"
	case checklist.CablesStraight:
		return "cables straight"
	case checklist.DoStep:
		return "done"
	}
	return ""
}
