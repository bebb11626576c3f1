package plan

import "duskhand/sky"

// shown is the faintest star that a person finds with the Sun's centre at an altitude.
type shown struct {
	sun          sky.Angle
	faintestMagV float64
}

// shownInTwilight: the brightest stars appear by the end of civil twilight (Explanatory Supplement to the
// Astronomical Almanac, 1992, section 9.3), and astronomical twilight is the end of it all; the steps
// between are common practice, for a finder and a clear sky. While the Sun is up nobody looks for stars.
func shownInTwilight() []shown {
	return []shown{
		{sky.SunAtHorizon, -1.5}, {sky.CivilTwilight, 1}, {-9 * sky.Degree, 2},
		{sky.NauticalTwilight, 3.5}, {sky.AstronomicalTwilight, 6.5},
	}
}

// FaintestMagInTwilight returns the V magnitude of the faintest star that shows while the Sun's centre
// stands at an airless altitude: linear between −1.5 (none) at sunset, 1 at −6°, 2 at −9°, 3.5 at −12°
// and 6.5 (all) at −18°.
//
// Source: the Explanatory Supplement for the end of civil twilight; otherwise common practice.
func FaintestMagInTwilight(sun sky.Angle) float64 {
	steps := shownInTwilight()
	before := steps[0]
	if sun >= before.sun {
		return before.faintestMagV
	}
	for _, step := range steps[1:] {
		if sun >= step.sun {
			share := float64((before.sun - sun) / (before.sun - step.sun))
			return before.faintestMagV + share*(step.faintestMagV-before.faintestMagV)
		}
		before = step
	}
	return before.faintestMagV
}
