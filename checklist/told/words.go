package told

import (
	"strconv"
	"strings"

	"duskhand/checklist"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Words returns an action as it is said: what Line reads back as the same; ok is false for one that has no words.
func Words(a checklist.Action) (said string, ok bool) {
	switch a := a.(type) {
	case checklist.TurnOn:
		return strings.TrimSpace("derotator-on " + degreesIf(a.Angle)), true
	case checklist.Rewound:
		return strings.TrimSpace("rewound " + degreesIf(&a.To) + " " + degreesIf(a.From)), true
	case checklist.Read:
		return "read " + degreesIf(&a.Angle), true
	case checklist.StartSubs:
		return strings.TrimSpace("subs-started " + a.Filter), true
	case checklist.ChooseTarget:
		return strings.TrimSpace("target " + a.Target.Name + " " + degreesIf(a.Angle)), true
	case checklist.GuideChecked:
		if a.Yes {
			return "guide-check yes", true
		}
		return "guide-check no", true
	case checklist.Sighted:
		return sightedWords(a), true
	case checklist.FocusNow:
		return strings.TrimSpace("focused " + a.Star), a.TempC == nil
	case checklist.ReadTemperature:
		return "temperature " + figure(a.TempC), true
	case checklist.ReadHumidity:
		return "humidity " + figure(a.Percent), true
	case checklist.WriteNote:
		return "note " + a.Text, true
	case checklist.DoStep:
		return "step-done " + a.Step, true
	}
	return alone(a)
}

// alone is what says an action by its one word.
func alone(a checklist.Action) (said string, ok bool) {
	for _, e := range Events() {
		if e.most != 0 {
			continue
		}
		if same, err := e.action(kit.Kit{}, nil); err == nil && same == a {
			return e.Name, true
		}
	}
	return "", false
}

// sightedWords says which star was sighted, and what the axes showed where that was read.
func sightedWords(a checklist.Sighted) string {
	if a.Unread {
		return "sighted " + a.Name
	}
	return "sighted " + a.Name + " " + figure(a.Readout.Altitude.Degrees()) + " " + figure(a.Readout.Azimuth.Degrees())
}

// figure prints a number as it was read.
func figure(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// degreesIf prints an angle to the tenth, "" for none.
func degreesIf(a *sky.Angle) string {
	if a == nil {
		return ""
	}
	return strings.TrimSuffix(strconv.FormatFloat(a.Degrees(), 'f', 1, 64), ".0")
}
