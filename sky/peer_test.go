package sky_test

import (
	"math"
	"testing"
	"time"

	"github.com/soniakeys/meeus/v3/angle"
	"github.com/soniakeys/meeus/v3/base"
	"github.com/soniakeys/meeus/v3/coord"
	"github.com/soniakeys/meeus/v3/eqtime"
	"github.com/soniakeys/meeus/v3/moonphase"
	"github.com/soniakeys/meeus/v3/nutation"
	"github.com/soniakeys/meeus/v3/parallactic"
	"github.com/soniakeys/meeus/v3/precess"
	"github.com/soniakeys/meeus/v3/sidereal"
	"github.com/soniakeys/meeus/v3/solar"
	seasons "github.com/soniakeys/meeus/v3/solstice"
	"github.com/soniakeys/unit"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/sky"
)

// A peer of this package is the library that follows Meeus's chapters to the letter: other authors, other formulas,
// other series. What both say they must agree in, to what the shorter of the two series is good for.

// ttMinusUTC is what holds since 2017; Meeus's days are counted in Terrestrial (dynamical) Time.
const ttMinusUTC = 69184 * time.Millisecond

// julian returns t as a Julian date in TT.
func julian(t time.Time) float64 {
	return 2451545 + t.Add(ttMinusUTC).Sub(time.Date(2000, 1, 1, 12, 0, 0, 0, time.UTC)).Hours()/24
}

// instant undoes julian, to a millisecond.
func instant(jde float64) time.Time {
	days := jde - 2451545
	return time.Date(2000, 1, 1, 12, 0, 0, 0, time.UTC).Add(time.Duration(days * 24 * float64(time.Hour))).Add(-ttMinusUTC)
}

// anyYear draws one of the years that the program is for.
func anyYear(t *rapid.T) time.Time {
	return time.Unix(rapid.Int64Range(1483228800, 2208988800).Draw(t, "instant, 2017 to 2040"), 0).UTC()
}

// anyPeerSite draws a place anywhere but within two degrees of a pole, where azimuths mean little.
func anyPeerSite(t *rapid.T) sky.Site {
	return sky.Site{
		Latitude:  sky.Angle(rapid.Float64Range(-88, 88).Draw(t, "latitude")) * sky.Degree,
		Longitude: sky.Angle(rapid.Float64Range(-180, 180).Draw(t, "longitude")) * sky.Degree,
	}
}

// anyPlace draws a place of date that is not within two degrees of a pole.
func anyPeerPlace(t *rapid.T) sky.OfDate {
	return sky.OfDate{
		RA:  sky.Angle(rapid.Float64Range(0, 359.99).Draw(t, "right ascension")) * sky.Degree,
		Dec: sky.Angle(rapid.Float64Range(-88, 88).Draw(t, "declination")) * sky.Degree,
	}
}

// Meeus ch. 12. His sidereal time counts UT, with the IAU 1982 series: 0.05 s to 2040 from today's.
func TestSiderealTimeOfAPeer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := anyYear(t)
		ut := julian(at.Add(-ttMinusUTC))
		want := sky.Angle(sidereal.Apparent(ut).Angle().Rad())
		got := sky.NewFrame(sky.Site{}, at, 0).SiderealTime(at)
		require.InDelta(t, 0, (got - want).Signed().Arcseconds(), 0.75)
	})
}

// Meeus ch. 13, eq. 13.5 and 13.6: he counts longitude west and azimuth from the south.
func TestAltitudeAndAzimuthOfAPeer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at, site, place := anyYear(t), anyPeerSite(t), anyPeerPlace(t)
		frame := sky.NewFrame(site, at, 0)
		greenwich := unit.TimeFromRad((frame.SiderealTime(at) - site.Longitude).Wrapped().Radians())
		A, h := coord.EqToHz(unit.RA(place.RA), unit.Angle(place.Dec), unit.Angle(site.Latitude), unit.Angle(-site.Longitude), greenwich)
		want := sky.Horizontal{Altitude: sky.Angle(h), Azimuth: sky.Angle(A) + 180*sky.Degree}
		got := frame.HorizontalOf(place, at)
		// Both in the arithmetic of float64; his arcsine loses half of its digits near the zenith.
		require.Less(t, got.Direction().Separation(want.Direction()).Arcseconds(), 0.01)
	})
}

// Meeus ch. 14, eq. 14.1: the parallactic angle by declination, latitude and hour angle.
func TestFieldAngleOfAPeer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at, site, place := anyYear(t), anyPeerSite(t), anyPeerPlace(t)
		frame := sky.NewFrame(site, at, 0)
		target := frame.HorizontalOf(place, at).Direction()
		q := parallactic.ParallacticAngle(unit.Angle(site.Latitude), unit.Angle(place.Dec), unit.HourAngle(frame.HourAngle(place, at)))
		chi, ok := sky.FieldAngle(frame.Pole(), target, sky.MountAxis(0, 0))
		if !ok {
			t.Skip("at the zenith")
		}
		near := math.Max(target.Cross(sky.MountAxis(0, 0)).Length(), 1e-4) // it magnifies what rounding does
		require.InDelta(t, 0, (chi - sky.Angle(q)).Signed().Arcseconds(), 0.001/near)
	})
}

// Meeus ch. 25, lower accuracy: 0.01°, which is 36″.
func TestSunOfAPeer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := anyYear(t)
		α, δ := solar.ApparentEquatorial(julian(at))
		want := sky.OfDate{RA: sky.Angle(α.Rad()), Dec: sky.Angle(δ)}
		got := sky.NewFrame(sky.Site{}, at, 0).SunPlace(at)
		require.Less(t, got.Direction().Separation(want.Direction()).Arcseconds(), 36.0)
	})
}

// Meeus ch. 27: at the equinoxes the Sun's right ascension is 0 h and 12 h, at the solstices 6 h and 18 h. His mean
// formulas with their periodic terms are good for a minute of time, in which the Sun goes 2.5″.
func TestSeasonsOfAPeer(t *testing.T) {
	for _, season := range []struct {
		name string
		of   func(int) float64
		ra   sky.Angle
		side float64 // of the equator, north +; the Sun is as far from it as the ecliptic leans
	}{
		{"March equinox", seasons.March, 0, 0},
		{"June solstice", seasons.June, 6 * sky.Hour, 1},
		{"September equinox", seasons.September, 12 * sky.Hour, 0},
		{"December solstice", seasons.December, 18 * sky.Hour, -1},
	} {
		t.Run(season.name, func(t *testing.T) {
			for year := 2017; year <= 2040; year++ {
				at := instant(season.of(year))
				sun := sky.NewFrame(sky.Site{}, at, 0).SunPlace(at)
				assert.InDelta(t, 0, (sun.RA - season.ra).Signed().Arcseconds(), 10, "%d", year)
				leans := season.side * sky.Angle(nutation.MeanObliquity(julian(at))).Arcseconds()
				assert.InDelta(t, leans, sun.Dec.Arcseconds(), 13, "%d: nutation 9.9″, his minute 2.5″", year)
			}
		})
	}
}

// Meeus ch. 28: apparent less mean solar time. Local mean noon is SolarNoon, so the Sun's hour angle then is that.
func TestEquationOfTimeOfAPeer(t *testing.T) {
	for month := time.January; month <= time.December; month++ {
		site := sky.Site{Latitude: 50 * sky.Degree, Longitude: sky.Angle(30*int(month)-180) * sky.Degree}
		noon := sky.SolarNoon(site, 2026, month, 11)
		frame := sky.NewFrame(site, noon, 0)
		want := sky.Angle(eqtime.ESmart(julian(noon)))
		got := frame.HourAngle(frame.SunPlace(noon), noon)
		// Smart's formula leaves out terms of some seconds of time.
		assert.InDelta(t, want.Degrees(), got.Degrees(), 10*15./3600, "11 %s", month)
	}
}

// Meeus ch. 49: at new and full Moon the longitudes differ by 0° and 180°, so the disc is dark or full but for the
// Moon's latitude (5.3° at most: 0.2 %) and a degree of parallax; at the quarters half of it is lit but for the parallax of
// the Sun (0.15°) and the Moon's own (1° is 0.9 %).
func TestPhasesOfAPeer(t *testing.T) {
	for _, phase := range []struct {
		name   string
		of     func(float64) float64
		lit    float64
		within float64
	}{
		{"new", moonphase.New, 0, 0.0045},
		{"first quarter", moonphase.First, 0.5, 0.012},
		{"full", moonphase.Full, 1, 0.0045},
		{"last quarter", moonphase.Last, 0.5, 0.012},
	} {
		t.Run(phase.name, func(t *testing.T) {
			for year := 2024.0; year < 2032; year += 0.37 {
				at := instant(phase.of(year))
				moon := sky.NewFrame(sky.Site{Latitude: -32 * sky.Degree, Longitude: 141 * sky.Degree}, at, 0).Moon(at)
				assert.InDelta(t, phase.lit, moon.Illuminated, phase.within, "%s", at)
			}
		})
	}
}

// The Moon's disc has 29.4′ to 33.5′ from the Earth's centre (Meeus ch. 55); an observer with it overhead is nearer by
// the Earth's radius, a sixtieth.
func TestSizesOfTheMoon(t *testing.T) {
	least, most := math.Inf(1), 0.0
	for day := range 400 {
		at := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, day)
		moon := sky.NewFrame(sky.Site{}, at, 0).Moon(at)
		if moon.Altitude < 0 {
			continue // seen through the Earth it would be farther than from its centre
		}
		width := 2 * moon.SemiDiameter().Arcminutes()
		least, most = math.Min(least, width), math.Max(most, width)
	}
	assert.Greater(t, least, 29.2)
	assert.Less(t, least, 30.0, "apogees differ little")
	assert.Less(t, most, 34.1)
	assert.Greater(t, most, 33.0)
}

// Meeus ch. 17: his eq. 17.1, an arccosine, and its mend for small angles, a haversine.
func TestSeparationOfAPeer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := anyPeerPlace(t), anyPeerPlace(t)
		want := sky.Angle(angle.SepHav(unit.Angle(a.RA), unit.Angle(a.Dec), unit.Angle(b.RA), unit.Angle(b.Dec)))
		require.InDelta(t, want.Arcseconds(), a.Direction().Separation(b.Direction()).Arcseconds(), 0.01)
	})
	for _, c := range []struct {
		name                 string
		ra1, dec1, ra2, dec2 float64 // degrees
		want, within         float64 // degrees
		source               string
	}{
		{"Arcturus and Spica", 213.9154, 19.1825, 201.2983, -11.1614, 32.7930, 0.00005, "Meeus, ex. 17.a"},
		{"a star and itself", 83.822, -5.391, 83.822, -5.391, 0, 0, "definition"},
		{"the poles", 10, 90, 200, -90, 180, 1e-12, "definition"},
		{"a tenth of an arcsecond along the equator", 0, 0, 0.1 / 3600, 0, 0.1 / 3600, 1e-14, "definition; an arccosine would give 0"},
		{"across 0 h", 359.5, 0, 0.5, 0, 1, 1e-12, "definition"},
		{"Aldebaran and Antares, nearly opposite", 68.980, 16.509, 247.352, -26.432, 169.9624, 0.0001, "Meeus eq. 17.1 by hand"},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := sky.OfDate{RA: sky.Angle(c.ra1) * sky.Degree, Dec: sky.Angle(c.dec1) * sky.Degree}.Direction()
			b := sky.OfDate{RA: sky.Angle(c.ra2) * sky.Degree, Dec: sky.Angle(c.dec2) * sky.Degree}.Direction()
			assert.InDelta(t, c.want, a.Separation(b).Degrees(), c.within, c.source)
			assert.Equal(t, a.Separation(b), b.Separation(a))
		})
	}
}

// Precession of a peer (Meeus ch. 21, IAU 1976), without nutation and aberration, which move a place by 20.7″ and
// 19.0″ at most (ch. 22 and 23). With the proper motion of a fast star, the two drift apart if ours were counted wrongly.
func TestPrecessionOfAPeer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at, place := anyYear(t), anyPeerPlace(t)
		motion := sky.ProperMotion{
			RA:  sky.Angle(rapid.Float64Range(-5000, 5000).Draw(t, "motion, RA")) * sky.MilliarcsecondPerYear,
			Dec: sky.Angle(rapid.Float64Range(-5000, 5000).Draw(t, "motion, Dec")) * sky.MilliarcsecondPerYear,
		}
		from := &coord.Equatorial{RA: unit.RA(place.RA), Dec: unit.Angle(place.Dec)}
		ra := unit.HourAngle(float64(motion.RA) / place.Dec.Cos())
		to := precess.Position(from, &coord.Equatorial{}, 2000, base.JDEToJulianYear(julian(at)), ra, unit.Angle(motion.Dec))
		want := sky.OfDate{RA: sky.Angle(to.RA), Dec: sky.Angle(to.Dec)}
		frame := sky.NewFrame(sky.Site{}, at, 0)
		got := frame.Apparent(frame.Fix(sky.Star{Place: sky.J2000(place), Motion: motion}), at)
		// 200″ a year near the pole of 5″ motions: a curved way that he counts straight in right ascension.
		curved := 0.5 * math.Pow(5*40/206265., 2) * math.Abs(math.Tan(float64(place.Dec))) * 206265 * 2
		require.Less(t, got.Direction().Separation(want.Direction()).Arcseconds(), 41+curved)
	})
}
