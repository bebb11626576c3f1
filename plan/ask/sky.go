package ask

import (
	"fmt"
	"time"

	"duskhand/sky"
)

// sight is a star over a site at an instant: the ground of several questions.
type sight struct {
	header
	Site *siteGiven `json:"site"`
	UTC  string     `json:"utc"`
	Star *starGiven `json:"star"`
	DUT1 float64    `json:"dut1_s"`
}

// frame returns the frame around the instant, the instant and the star made ready.
func (s *sight) frame(frames *sky.Frames) (*sky.Frame, time.Time, sky.Fixed, error) {
	frame, at, err := frameAt(frames, s.Site, s.UTC, s.DUT1)
	if err != nil {
		return nil, at, sky.Fixed{}, err
	}
	star, err := s.Star.star()
	if err != nil {
		return nil, at, sky.Fixed{}, err
	}
	return frame, at, frame.Fix(star), nil
}

func frameAt(frames *sky.Frames, site *siteGiven, utc string, dut1Seconds float64) (*sky.Frame, time.Time, error) {
	place, err := site.site()
	if err != nil {
		return nil, time.Time{}, err
	}
	at, err := instant(utc)
	if err != nil {
		return nil, at, err
	}
	offset, err := dut1(dut1Seconds)
	if err != nil {
		return nil, at, err
	}
	return frames.Around(place, at, offset), at, nil
}

type placeQuestion struct{ sight }

type placeAnswer struct {
	Alt       float64 `json:"alt_deg"`
	Az        float64 `json:"az_deg"`
	RA        float64 `json:"ra_date_deg"`
	Dec       float64 `json:"dec_date_deg"`
	LAST      float64 `json:"last_deg"`
	HourAngle float64 `json:"hour_angle_deg"`
}

func (q *placeQuestion) answer(frames *sky.Frames) (any, error) {
	frame, at, star, err := q.frame(frames)
	if err != nil {
		return nil, err
	}
	seen, place := frame.Horizontal(star, at), frame.Apparent(star, at)
	return placeAnswer{
		Alt: seen.Altitude.Degrees(), Az: seen.Azimuth.Degrees(),
		RA: place.RA.Degrees(), Dec: place.Dec.Degrees(),
		LAST: frame.SiderealTime(at).Degrees(), HourAngle: frame.HourAngle(place, at).Degrees(),
	}, nil
}

type refractionQuestion struct {
	header
	Alt      *float64 `json:"alt_deg"`
	Pressure *float64 `json:"pressure_hpa"`
	Temp     *float64 `json:"temp_c"`
}

type refractionAnswer struct {
	Refraction float64 `json:"refraction_arcmin"`
}

func (q *refractionQuestion) answer(*sky.Frames) (any, error) {
	alt, err := within("alt_deg", q.Alt, -90, 90, "airless")
	if err != nil {
		return nil, err
	}
	pressure, err := within("pressure_hpa", q.Pressure, 0, 1100, "hPa, at the observer")
	if err != nil {
		return nil, err
	}
	temp, err := within("temp_c", q.Temp, -90, 60, "°C")
	if err != nil {
		return nil, err
	}
	air := sky.Air{PressureHPa: pressure, TemperatureC: temp}
	return refractionAnswer{air.Refraction(degrees(alt)).Arcminutes()}, nil
}

type rotationQuestion struct {
	sight
	Axis *axisGiven `json:"axis"`
}

type rotationAnswer struct {
	Chi  float64 `json:"chi_deg"`
	Rate float64 `json:"rate_deg_per_h"`
}

func (q *rotationQuestion) answer(frames *sky.Frames) (any, error) {
	frame, at, star, err := q.frame(frames)
	if err != nil {
		return nil, err
	}
	tilt, toward, err := q.Axis.axis()
	if err != nil {
		return nil, err
	}
	target, axis := frame.Direction(star, at), sky.MountAxis(tilt, toward)
	chi, ok := sky.FieldAngle(frame.Pole(), target, axis)
	rate, finite := sky.FieldRate(frame.Pole(), target, axis)
	if !ok || !finite {
		return nil, fmt.Errorf("the star stands within 1″ of a celestial pole or of the mount's axis, where there is no field angle; ask for another instant")
	}
	return rotationAnswer{chi.Degrees(), rate.DegreesPerHour()}, nil
}

type moonQuestion struct {
	header
	Site *siteGiven `json:"site"`
	UTC  string     `json:"utc"`
	DUT1 float64    `json:"dut1_s"`
}

type moonAnswer struct {
	Alt         float64 `json:"alt_deg"`
	Az          float64 `json:"az_deg"`
	RA          float64 `json:"ra_date_deg"`
	Dec         float64 `json:"dec_date_deg"`
	Illuminated float64 `json:"illuminated"`
	Distance    float64 `json:"distance_km"`
}

func (q *moonQuestion) answer(frames *sky.Frames) (any, error) {
	frame, at, err := frameAt(frames, q.Site, q.UTC, q.DUT1)
	if err != nil {
		return nil, err
	}
	moon := frame.Moon(at)
	return moonAnswer{
		Alt: moon.Altitude.Degrees(), Az: moon.Azimuth.Degrees(),
		RA: moon.Place.RA.Degrees(), Dec: moon.Place.Dec.Degrees(),
		Illuminated: moon.Illuminated, Distance: moon.DistanceKm,
	}, nil
}
