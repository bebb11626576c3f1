package sky

import "time"

// Altitudes of the Sun's centre, airless, that divide day from night. Sunrise and sunset take 34′ of
// refraction and 16′ of semidiameter (Meeus ch. 15); the twilights are whole sixes by definition.
const (
	SunAtHorizon         = -0.8333 * Degree
	CivilTwilight        = -6 * Degree
	NauticalTwilight     = -12 * Degree
	AstronomicalTwilight = -18 * Degree
)

// Twilight holds the Sun's events of one night, noon to noon. Each may not happen.
type Twilight struct {
	Sunset, CivilDusk, NauticalDusk, AstronomicalDusk  Event
	AstronomicalDawn, NauticalDawn, CivilDawn, Sunrise Event
}

// sunStep is fine enough for Sample: the Sun's altitude turns twice a day.
const sunStep = 20 * time.Minute

// SolarNoon returns local mean solar noon at the site on a civil date: 12:00 UTC − longitude/15 h. A
// night is counted from it, for 24 h.
func SolarNoon(site Site, year int, month time.Month, day int) time.Time {
	hours := site.Longitude.Hours()
	return time.Date(year, month, day, 12, 0, 0, 0, time.UTC).Add(-time.Duration(hours * float64(time.Hour)))
}

// Twilight returns the events in the 24 h from noon.
//
// Error: what 2″ of the Sun's altitude are worth: 0.2 s at the equator, seconds where the Sun grazes.
func (f *Frame) Twilight(noon time.Time) Twilight {
	end := noon.Add(24 * time.Hour)
	curve := Sample(f.sunArc(noon, end).altitude, noon, end, sunStep)
	var w Twilight
	w.Sunset, w.Sunrise = fallAndRise(curve.Crossings(SunAtHorizon))
	w.CivilDusk, w.CivilDawn = fallAndRise(curve.Crossings(CivilTwilight))
	w.NauticalDusk, w.NauticalDawn = fallAndRise(curve.Crossings(NauticalTwilight))
	w.AstronomicalDusk, w.AstronomicalDawn = fallAndRise(curve.Crossings(AstronomicalTwilight))
	return w
}

// fallAndRise picks the first crossing downwards and the first upwards.
func fallAndRise(crossings []Crossing) (fall, rise Event) {
	for _, c := range crossings {
		switch {
		case c.Rising && !rise.OK:
			rise = Event{c.At, true}
		case !c.Rising && !fall.OK:
			fall = Event{c.At, true}
		}
	}
	return fall, rise
}

// moonStep is fine enough for Sample; the Moon costs ten times the Sun.
const moonStep = 40 * time.Minute

// MoonEvents returns the first rise and the first set in the 24 h from noon: the upper limb on a
// sea-level horizon with 34′ of refraction. Once a month there is none of either.
func (f *Frame) MoonEvents(noon time.Time) (rise, set Event) {
	const refraction = 34 * Arcminute
	limb := func(t time.Time) Angle {
		m := f.Moon(t)
		return m.Altitude + m.SemiDiameter() + refraction
	}
	set, rise = fallAndRise(Sample(limb, noon, noon.Add(24*time.Hour), moonStep).Crossings(0))
	return rise, set
}

// SunBelow returns when the Sun's centre, airless, first sinks below an altitude in the 24 h from noon, and when it
// first rises above it; with the same error as Twilight.
func (f *Frame) SunBelow(noon time.Time, level Angle) (sinks, rises Event) {
	end := noon.Add(24 * time.Hour)
	return fallAndRise(Sample(f.sunArc(noon, end).altitude, noon, end, sunStep).Crossings(level))
}

// SunLowest returns when the Sun stands lowest in the 24 h from noon, and how low, airless: the altitude to an
// arcsecond, the instant to a few seconds.
func (f *Frame) SunLowest(noon time.Time) (at time.Time, altitude Angle) {
	const aroundMidnight = 2 * time.Hour // mean and true solar midnight are a quarter of an hour apart at most
	midnight := noon.Add(12 * time.Hour)
	at = lowest(func(t time.Time) float64 { return float64(f.Sun(t).Altitude) }, midnight.Add(-aroundMidnight), midnight.Add(aroundMidnight))
	return at, f.Sun(at).Altitude
}
