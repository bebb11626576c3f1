package told

import (
	"strconv"
	"strings"

	"duskhand/checklist"
	"duskhand/sky"
)

// Words returns an action as it is said: what Action reads back as the same; ok is false for one that has no words.
func Words(a checklist.Action) (said string, ok bool) {
	switch a := a.(type) {
	case checklist.TurnOn:
		return strings.TrimSpace("derotator-on " + degreesIf(a.Angle)), true
	case checklist.TurnOff:
		return "derotator-off", true
	case checklist.Rewound:
		return strings.TrimSpace("rewound " + degreesIf(&a.To) + " " + degreesIf(a.From)), true
	case checklist.Read:
		return "read " + degreesIf(&a.Angle), true
	case checklist.StartSubs:
		return strings.TrimSpace("subs-started " + a.Filter), true
	case checklist.StopSubs:
		return "subs-stopped", true
	case checklist.ChooseTarget:
		return "target " + a.Target.Name, true
	case checklist.GuidingCalibrated:
		return "guiding-calibrated", true
	case checklist.GuidingOn:
		return "guiding-on", true
	case checklist.GuideChecked:
		if a.Yes {
			return "guide-check yes", true
		}
		return "guide-check no", true
	case checklist.GuidingOff:
		return "guiding-off", true
	case checklist.Recentred:
		return "recentred", true
	case checklist.DoStep:
		return "step-done " + a.Step, true
	}
	return "", false
}

// degreesIf prints an angle to the tenth, "" for none.
func degreesIf(a *sky.Angle) string {
	if a == nil {
		return ""
	}
	return strings.TrimSuffix(strconv.FormatFloat(a.Degrees(), 'f', 1, 64), ".0")
}
