package choose

import (
	"math"
	"time"

	"duskhand/plan/exposure"
	"duskhand/plan/kit"
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

// The sky of a site of which the kit does not say how dark it is and how clear its air: those of the paper that
// the Moon's light follows.
const (
	darkZenithMag = 21.587 // V magnitudes per square second of arc
	extinctionMag = scan.ExtinctionMag
)

// glow is the Moon at one sampled instant, and the sky that its light adds to.
type glow struct {
	direction   sky.Direction
	up          bool
	illuminated float64
	light       exposure.Moonlight // the place in the sky left open
	zenithMag   float64            // of the moonless sky
}

// glowOver returns the Moon at all samples of a scan.
func glowOver(s *scan.Sky, site kit.Site) []glow {
	zenith, extinction := site.SkyMagPerArcsec2, site.ExtinctionMagPerAirmass
	if zenith == 0 {
		zenith = darkZenithMag
	}
	if extinction == 0 {
		extinction = extinctionMag
	}
	all := make([]glow, len(s.Times()))
	for i, t := range s.Times() {
		moon := s.Frame().Moon(t)
		all[i] = glow{direction: moon.Direction(), up: moonUp(moon), illuminated: moon.Illuminated, zenithMag: zenith,
			light: exposure.Moonlight{PhaseAngle: exposure.PhaseAngle(moon), MoonAltitude: moon.Altitude, ExtinctionMagPerAirmass: extinction}}
	}
	return all
}

// worth returns how much of an hour at the zenith under a dark, moonless sky an hour in a direction makes up
// for, without moonlight, as scan.Height has it, and with a share of it: the Moon's light adds to the sky's.
//
// Error: that of the Moon's light, 8 to 23 %; see exposure.Moonlight.
func (g glow) worth(d sky.Direction, moonlit float64) (height, dark float64) {
	altitude := sky.Angle(math.Asin(math.Max(-1, math.Min(1, d.Z))))
	height = scan.Height(altitude)
	if !g.up || moonlit == 0 {
		return height, height
	}
	light := g.light
	light.Altitude, light.Separation = altitude, d.Separation(g.direction)
	own := exposure.DarkNanolamberts(g.zenithMag, light.ExtinctionMagPerAirmass, altitude)
	return height, height * own / (own + moonlit*light.Nanolamberts())
}
