package sky

import (
	"math"
	"time"
)

// frameReach is how far from its middle a Frame's two nodes lie. Between them precession, nutation and
// the Earth's velocity are taken as linear, which leaves 0.006″ (the fortnightly nutation's bend).
const frameReach = 12 * time.Hour

// Frame carries places into the sky of one site for about a day around an instant. Making one costs
// some microseconds; a position within it one matrix product and a few trigonometric calls, without
// allocation. Use it within a day of its middle; at 24 h its error has grown to 0.03″.
type Frame struct {
	site Site
	earth

	sidereal       float64 // local apparent sidereal time at middle; radians
	sinLat, cosLat float64
	diurnal        float64   // the site's speed eastward, in units of light
	observer       Direction // km from the geocentre: X on the meridian at the equator, Z the pole
}

// earth is what of a Frame is the same for all sites: how the Earth stands, turns and moves around an instant.
type earth struct {
	middle time.Time

	toDate, toDatePerSecond      matrix
	velocity                     Direction
	velocityPerSecond            Direction
	greenwich, siderealPerSecond float64 // apparent sidereal time at Greenwich at middle, unnormalised, and its rate; radians
	nutationLong, obliquity      Angle
	sun                          Direction // to the Sun at middle, ICRF
	epochYears                   float64   // Julian years from J2000.0 to middle
}

// Fixed is a star or object made ready for one Frame: its ICRF direction at the frame's epoch, proper
// motion and the Sun's bending of light included (which change by less than 0.01″ in a night).
type Fixed struct{ direction Direction }

// NewFrame returns the frame of site around the instant middle, with UT1 = UTC + dut1.
func NewFrame(site Site, middle time.Time, dut1 time.Duration) *Frame {
	return newEarth(middle, dut1).over(site)
}

func newEarth(middle time.Time, dut1 time.Duration) *earth {
	before, after := orient(middle.Add(-frameReach), dut1), orient(middle.Add(frameReach), dut1)
	seconds := 2 * frameReach.Seconds()
	e := &earth{middle: middle}
	for i := range 3 {
		for j := range 3 {
			b, a := before.toDate[i][j], after.toDate[i][j]
			e.toDate[i][j], e.toDatePerSecond[i][j] = (a+b)/2, (a-b)/seconds
		}
	}
	e.velocity = before.velocity.Plus(1, after.velocity).scaled(0.5)
	e.velocityPerSecond = after.velocity.Plus(-1, before.velocity).scaled(1 / seconds)
	turned := earthTurn(before.siderealTime, after.siderealTime, 2*frameReach)
	e.siderealPerSecond = turned / seconds
	e.greenwich = float64(before.siderealTime) + turned/2
	e.nutationLong = (before.nutationLong + after.nutationLong) / 2
	e.obliquity = (before.obliquity + after.obliquity) / 2
	e.epochYears = daysTT(middle) / daysPerJulianYr
	sun, _ := e.sunOfDate(middle)
	e.sun = e.toDate.applyInverse(sun)
	return e
}

// over returns the frame of one site.
func (e *earth) over(site Site) *Frame {
	f := &Frame{site: site, earth: *e}
	f.sidereal = float64((Angle(e.greenwich) + site.Longitude).Wrapped())
	f.sinLat, f.cosLat = math.Sincos(float64(site.Latitude))
	f.observer = geocentric(site)
	f.diurnal = float64(SiderealRate) * f.observer.X / lightKmPerSecond
	return f
}

// earthTurn returns by how many radians the Earth has turned between two sidereal times known only to
// a whole turn.
func earthTurn(before, after Angle, elapsed time.Duration) float64 {
	expected := Angle(float64(SiderealRate) * elapsed.Seconds())
	return float64(expected + (after - before - expected).Signed())
}

// geocentric returns the site in km on the WGS84 ellipsoid, the meridian as X: ρ cos φ′ and ρ sin φ′
// of Meeus ch. 11, with the ellipsoid of today.
func geocentric(site Site) Direction {
	const equatorialKm, flattening = 6378.137, 1 / 298.257223563 // WGS84
	s, c := math.Sincos(float64(site.Latitude))
	e2 := flattening * (2 - flattening)
	n := equatorialKm / math.Sqrt(1-e2*s*s)
	h := site.ElevationMetres / 1000
	return Direction{X: (n + h) * c, Z: (n*(1-e2) + h) * s}
}

// Site returns the site of the frame.
func (f *Frame) Site() Site { return f.site }

// Middle returns the instant around which the frame was made.
func (f *Frame) Middle() time.Time { return f.middle }

// Fix makes star ready for the frame.
func (f *Frame) Fix(star Star) Fixed {
	d := star.Place.Direction()
	sinRA, cosRA := math.Sincos(float64(star.Place.RA))
	sinDec, cosDec := math.Sincos(float64(star.Place.Dec))
	east := Direction{-sinRA, cosRA, 0}
	north := Direction{-sinDec * cosRA, -sinDec * sinRA, cosDec}
	d = d.Plus(f.epochYears*float64(star.Motion.RA), east).Plus(f.epochYears*float64(star.Motion.Dec), north).Unit()
	return Fixed{f.bend(d)}
}

// bend applies the deflection of light by the Sun, 0.004″ at 90° from it. Within a degree of the Sun,
// where nobody may look, it is held to the value at one degree.
// Source: Explanatory Supplement to the Astronomical Almanac (1992), eq. 3.26-4.
func (f *Frame) bend(d Direction) Direction {
	const twiceSolarMassInAU = 1.97412574336e-8
	fromSun := f.sun.scaled(-1)
	cos := d.Dot(fromSun)
	const closest = 1.5e-4 // 1 − cos 1°
	return fromSun.Plus(-cos, d).scaled(twiceSolarMassInAU/math.Max(1+cos, closest)).Plus(1, d).Unit()
}

func (d Direction) scaled(k float64) Direction { return Direction{k * d.X, k * d.Y, k * d.Z} }
