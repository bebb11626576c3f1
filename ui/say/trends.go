package say

import (
	"fmt"

	"duskhand/checklist/subs/survey"
	"duskhand/sky/words"
	"duskhand/ui/facts"
)

// Hint says what the trends of the night suggest.
func Hint(h survey.Hint, r facts.Run) string {
	switch h.Kind {
	case survey.FocusDrifts:
		since := "since the first of these lights"
		if h.Focused {
			since = "since focusing"
		}
		colder := ""
		if by, known := r.WarmedSinceFocus(); known {
			colder = fmt.Sprintf(" (%+.1f K since)", by)
		}
		return fmt.Sprintf("stars are %s larger than at their best %s (%s): time to refocus?", words.Percent(h.Grown, 0), since, words.Arcseconds(h.HFD, 1)) + colder
	case survey.StarsMissing:
		return fmt.Sprintf("%s, where this run had %.0f: cloud, dew, or focus lost?", words.Count(h.Stars, "star"), h.Usual)
	case survey.SkyBrightens:
		return fmt.Sprintf("the sky is %.1f times as bright as at its darkest tonight: Moon, dawn, or cloud that is lit?", h.Brighter)
	}
	return ""
}

// Thermal says how the stars go with the temperature, longest first.
func Thermal(t survey.Thermal) []string {
	size, within := words.Arcseconds(t.PerKelvin.Abs(), 2), words.Arcseconds(t.Error, 2)
	span := fmt.Sprintf("%s between %s and %s", words.Count(t.Lights, "light"), words.Number(t.ColdestC, 0), words.Celsius(t.WarmestC, 0))
	if !t.Follows() {
		return []string{fmt.Sprintf("half-flux does not follow the temperature: %s ± %s a kelvin, %s", size, within, span),
			fmt.Sprintf("half-flux and temperature: no tie, ± %s a kelvin", within)}
	}
	way := "warmer"
	if t.PerKelvin < 0 {
		way = "colder"
	}
	return []string{fmt.Sprintf("half-flux grows by %s ± %s for each kelvin that it gets %s, %s", size, within, way, span),
		fmt.Sprintf("half-flux grows %s for each kelvin %s", size, way)}
}
