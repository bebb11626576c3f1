package exposure

import (
	"time"

	"duskhand/plan/kit"
	"duskhand/plan/light"
	"duskhand/sky"
)

// Sky is how bright the sky is at a place and instant, in V magnitudes per square second of arc: Dark without
// the Moon, Mag with it and with twilight. Twilight tells that the Sun is less than 18° down, and Sun how far it is.
type Sky struct {
	Dark, Mag                    float64
	Twilight                     bool
	Sun                          sky.Angle // altitude of its centre, airless
	MoonUp                       bool
	MoonAltitude, MoonSeparation sky.Angle // airless; from the place
	MoonLit                      float64   // share of the disc, 0 to 1
}

// Brightening returns by how many magnitudes Moon and twilight brighten the sky, never below 0.
func (s Sky) Brightening() float64 { return s.Dark - s.Mag }

// SkyAt returns how bright the sky is at a place (airless) at t, or the keys of the kit without which that is
// not known; there is no such thing below the horizon.
//
// Error: that of light.Moonlight and light.TwilightColours, and that of the site's brightness, which towns and the airglow move by some tenths
// from place to place and night to night.
func SkyAt(site kit.Site, frame *sky.Frame, place sky.Horizontal, t time.Time) Figure[Sky] {
	n := needs{{"site.sky_mag_per_arcsec2", site.SkyMagPerArcsec2}, {"site.extinction_mag_per_airmass", site.ExtinctionMagPerAirmass}}
	if place.Altitude <= 0 || len(n.lacks()) > 0 {
		return Figure[Sky]{Lacks: n.lacks()}
	}
	moon := frame.Moon(t)
	moonlight := moonlightAt(site, moon, place)
	sun := frame.Sun(t).Altitude
	dark := light.DarkNanolamberts(site.SkyMagPerArcsec2, site.ExtinctionMagPerAirmass, place.Altitude)
	return figure(Sky{
		Dark: light.MagPerArcsec2(dark), Mag: light.MagPerArcsec2(dark + moonlight.Nanolamberts() + twilightNanolamberts(sun)),
		Twilight: sun > sky.AstronomicalTwilight, Sun: sun,
		MoonUp: moon.Altitude > 0, MoonAltitude: moon.Altitude,
		MoonSeparation: moonlight.Separation, MoonLit: moon.Illuminated,
	}, n)
}

func twilightNanolamberts(sun sky.Angle) float64 {
	mag, _, ok := light.TwilightColours(sun)
	if !ok {
		return 0
	}
	return light.Nanolamberts(mag)
}

func moonlightAt(site kit.Site, moon sky.Moon, place sky.Horizontal) light.Moonlight {
	return light.Moonlight{
		PhaseAngle:              light.PhaseAngle(moon),
		MoonAltitude:            moon.Altitude,
		Altitude:                place.Altitude,
		Separation:              moon.Direction().Separation(place.Direction()),
		ExtinctionMagPerAirmass: site.ExtinctionMagPerAirmass,
	}
}
