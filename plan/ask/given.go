package ask

import (
	"fmt"
	"time"

	"duskhand/plan"
	"duskhand/sky"
)

// The objects that several questions share. Pointers tell what was left out from what is nought.

type siteGiven struct {
	Lat       *float64 `json:"lat_deg"`
	Lon       *float64 `json:"lon_deg"`
	Elevation float64  `json:"elevation_m"`
}

func (s *siteGiven) site() (sky.Site, error) {
	if s == nil {
		return sky.Site{}, fmt.Errorf("\"site\" is missing; give {\"lat_deg\":…, \"lon_deg\":…, \"elevation_m\":…}")
	}
	lat, err := within("site.lat_deg", s.Lat, -90, 90, "north +")
	if err != nil {
		return sky.Site{}, err
	}
	lon, err := within("site.lon_deg", s.Lon, -180, 360, "east +")
	if err != nil {
		return sky.Site{}, err
	}
	if _, err := within("site.elevation_m", &s.Elevation, -500, 9000, "metres"); err != nil {
		return sky.Site{}, err
	}
	return sky.Site{Latitude: degrees(lat), Longitude: degrees(lon).Signed(), ElevationMetres: s.Elevation}, nil
}

type starGiven struct {
	RA    *float64 `json:"ra_deg"`
	Dec   *float64 `json:"dec_deg"`
	PMRA  float64  `json:"pm_ra_mas_yr"`
	PMDec float64  `json:"pm_dec_mas_yr"`
}

func (s *starGiven) star() (sky.Star, error) {
	if s == nil {
		return sky.Star{}, fmt.Errorf("\"star\" is missing; give {\"ra_deg\":…, \"dec_deg\":…}, J2000")
	}
	ra, err := within("star.ra_deg", s.RA, -360, 360, "J2000, degrees and not hours")
	if err != nil {
		return sky.Star{}, err
	}
	dec, err := within("star.dec_deg", s.Dec, -90, 90, "J2000")
	if err != nil {
		return sky.Star{}, err
	}
	const fastest = 20000 // mas/yr; Barnard's star moves 10 400
	if _, err := within("star.pm_ra_mas_yr", &s.PMRA, -fastest, fastest, "milliarcseconds a year"); err != nil {
		return sky.Star{}, err
	}
	if _, err := within("star.pm_dec_mas_yr", &s.PMDec, -fastest, fastest, "milliarcseconds a year"); err != nil {
		return sky.Star{}, err
	}
	return sky.Star{
		Place:  sky.J2000{RA: degrees(ra).Wrapped(), Dec: degrees(dec)},
		Motion: sky.ProperMotion{RA: sky.Angle(s.PMRA) * sky.MilliarcsecondPerYear, Dec: sky.Angle(s.PMDec) * sky.MilliarcsecondPerYear},
	}, nil
}

type axisGiven struct {
	Tilt   float64 `json:"tilt_deg"`
	Toward float64 `json:"toward_az_deg"`
}

// axis returns tilt and direction; a missing axis is levelled.
func (g *axisGiven) axis() (tilt, toward sky.Angle, err error) {
	if g == nil {
		return 0, 0, nil
	}
	if _, err := within("axis.tilt_deg", &g.Tilt, 0, 90, "from the zenith"); err != nil {
		return 0, 0, err
	}
	if _, err := within("axis.toward_az_deg", &g.Toward, -360, 360, "from north through east"); err != nil {
		return 0, 0, err
	}
	return degrees(g.Tilt), degrees(g.Toward), nil
}

// The span of years within which the time scales and theories are good for what the README promises.
const firstYear, lastYear = 1950, 2100

func instant(text string) (time.Time, error) {
	t, err := time.Parse(time.RFC3339Nano, text)
	if err != nil {
		return time.Time{}, fmt.Errorf("\"utc\" is %q; give a time as 2026-12-05T12:44:07Z", text)
	}
	if t = t.UTC(); t.Year() < firstYear || t.Year() > lastYear {
		return time.Time{}, fmt.Errorf("\"utc\" is in %d; give a year from %d to %d", t.Year(), firstYear, lastYear)
	}
	return t, nil
}

func evening(text string) (plan.Date, error) {
	date, err := plan.ParseDate(text)
	if err != nil {
		return plan.Date{}, fmt.Errorf("\"date\": %w", err)
	}
	if date.Year < firstYear || date.Year > lastYear {
		return plan.Date{}, fmt.Errorf("\"date\" is in %d; give a year from %d to %d", date.Year, firstYear, lastYear)
	}
	return date, nil
}

func dut1(seconds float64) (time.Duration, error) {
	_, err := within("dut1_s", &seconds, -1, 1, "seconds, UT1 − UTC")
	return time.Duration(seconds * float64(time.Second)), err
}

// within checks one number against its range and says what it means.
func within(name string, value *float64, low, high float64, meaning string) (float64, error) {
	if value == nil {
		return 0, fmt.Errorf("%q is missing; give a number from %g to %g (%s)", name, low, high, meaning)
	}
	if *value < low || *value > high {
		return 0, fmt.Errorf("%q is %g; give a number from %g to %g (%s)", name, *value, low, high, meaning)
	}
	return *value, nil
}

func degrees(x float64) sky.Angle { return sky.Angle(x) * sky.Degree }
