package say

import (
	"fmt"

	"duskhand/plan/supplies"
	"duskhand/sky/words"
)

// air says what the air does to the glass.
func air(d supplies.Dew) string {
	name := settling(d)
	switch d.Risk {
	case supplies.DewNow:
		return fmt.Sprintf("The air is saturated at %s: everything grows wet with %s; heat the glass, and look at it often.", words.Celsius(d.Air.TemperatureC, 1), name)
	case supplies.DewNear:
		return fmt.Sprintf("The dew point is %s, only %.1f K below the air: glass under a clear sky is colder than the air, and %s is near; heat it now.",
			words.Celsius(d.PointC, 1), d.MarginK, name)
	}
	return fmt.Sprintf("The dew point is %s, %.1f K below the air: the glass stays dry until the air has cooled to %s.",
		words.Celsius(d.PointC, 1), d.MarginK, words.Celsius(d.WarnBelowC(), 1))
}

// dewCall says in a few words what to do; "" while the glass stays dry.
func dewCall(d supplies.Dew) string {
	name := settling(d)
	switch d.Risk {
	case supplies.DewNow:
		return "the air is saturated and " + name + " settles: heat the glass, look at it often"
	case supplies.DewNear:
		return fmt.Sprintf("%s is near, the air is %.1f K above its dew point: heat the glass", name, d.MarginK)
	}
	return ""
}

// settling names what settles on the glass.
func settling(d supplies.Dew) string {
	if d.PointC < 0 {
		return "frost"
	}
	return "dew"
}
