package choose

import (
	"math"
	"time"

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

// darkZenith is the dark sky at the zenith in nanolamberts, 21.587 mag/arcsec² (Krisciunas & Schaefer 1991).
const darkZenith = 79.0

// glow is the Moon at one sampled instant, and the light that it sheds.
type glow struct {
	direction   sky.Direction
	up          bool
	illuminated float64
	light       float64 // I*·10^(−0.4·k·X(Zm)) of their eq. 15, nL at unit scattering
}

// glowOver returns the Moon at all samples of a scan.
func glowOver(s *scan.Sky) []glow {
	all := make([]glow, len(s.Times()))
	for i, t := range s.Times() {
		moon := s.Frame().Moon(t)
		g := glow{direction: moon.Direction(), illuminated: moon.Illuminated}
		if g.up = moonUp(moon); g.up {
			g.light = moonlight(g.illuminated) * math.Pow(10, -0.4*scan.ExtinctionMag*scan.LayerAirmass(moon.Altitude))
		}
		all[i] = g
	}
	return all
}

// moonlight is I*, eq. 20, with the phase angle that a lit share of the disc belongs to.
func moonlight(illuminated float64) float64 {
	phase := math.Acos(math.Max(-1, math.Min(1, 2*illuminated-1))) * 180 / math.Pi
	return math.Pow(10, -0.4*(3.84+0.026*phase+4e-9*math.Pow(phase, 4)))
}

// scattering is f(ρ), eq. 21 and, nearer than 10°, eq. 18 with its own aureole.
func scattering(apart sky.Angle) float64 {
	rho := math.Max(0.25, apart.Degrees())
	cos := apart.Cos()
	f := math.Pow(10, 5.36) * (1.06 + cos*cos)
	if rho < 10 {
		return f + 6.2e7/(rho*rho)
	}
	return f + math.Pow(10, 6.15-rho/40)
}

// worth returns how much of an hour at the zenith under a dark, moonless sky an hour in a direction makes up
// for, without moonlight, as scan.Height has it, and with a share of it: the Moon's light adds to the sky's.
//
// Source: Krisciunas & Schaefer 1991, PASP 103, 1033, eq. 2, 3, 15, 20, 21; error of the Moon's light 8 to
// 23 %, by them.
func (g glow) worth(d sky.Direction, moonlit float64) (height, dark float64) {
	altitude := sky.Angle(math.Asin(math.Max(-1, math.Min(1, d.Z))))
	height = scan.Height(altitude)
	if !g.up || moonlit == 0 {
		return height, height
	}
	x := scan.LayerAirmass(altitude)
	own := darkZenith * x * math.Pow(10, -0.4*scan.ExtinctionMag*(x-1))                                     // 2
	moon := scattering(d.Separation(g.direction)) * g.light * (1 - math.Pow(10, -0.4*scan.ExtinctionMag*x)) // 15
	return height, height * own / (own + moonlit*moon)
}
