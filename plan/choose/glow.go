package choose

import (
	"math"
	"time"

	"duskhand/plan/light"
	"duskhand/plan/scan"
	"duskhand/sky"
)

// Moon is what the Moon does while a target is up.
type Moon struct {
	Up          time.Duration // over the horizon
	Nearest     sky.Angle     // how near it comes to the target while up; 180° if it is not
	Illuminated float64       // share of its disc that is lit, 0 to 1, mean over the windows
	Rises, Sets sky.Event     // in a window
}

// skyOf is the night as one depth of darkness has it: samples, the Moon at each, and its light through each of the
// kit's filters.
type skyOf struct {
	scan *scan.Sky
	glow []glow
	lit  [][]light.Lit // by filter and sample
	dusk [][]float64   // what twilight adds to the sky, by filter and sample
}

// glow is the Moon at one sampled instant.
type glow struct {
	direction   sky.Direction
	up          bool
	illuminated float64
}

// skyOver samples the Moon at all samples of a scan.
func skyOver(s *scan.Sky, views []*light.View) skyOf {
	over := skyOf{scan: s, glow: make([]glow, len(s.Times())), lit: make([][]light.Lit, len(views)), dusk: make([][]float64, len(views))}
	for i := range over.lit {
		over.lit[i], over.dusk[i] = make([]light.Lit, len(s.Times())), make([]float64, len(s.Times()))
	}
	for i, t := range s.Times() {
		moon := s.Frame().Moon(t)
		over.glow[i] = glow{direction: moon.Direction(), up: moonUp(moon), illuminated: moon.Illuminated}
		sheds := light.Moonlight{PhaseAngle: light.PhaseAngle(moon), MoonAltitude: moon.Altitude}
		sun := s.Frame().Sun(t).Altitude
		for f, v := range views {
			over.lit[f][i], over.dusk[f][i] = v.Under(sheds), v.Twilit(sun)
		}
	}
	return over
}

// altitudeOf returns the altitude of a direction, as Horizontal would at more cost.
func altitudeOf(d sky.Direction) sky.Angle {
	return sky.Angle(math.Asin(math.Max(-1, math.Min(1, d.Z))))
}
