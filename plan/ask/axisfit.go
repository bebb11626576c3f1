package ask

import (
	"fmt"

	"duskhand/plan"
	"duskhand/sky"
)

// sightGiven is one star that was centred, and the mount's raw readouts.
type sightGiven struct {
	Star *starGiven `json:"star"`
	Alt  *float64   `json:"axis_alt_deg"`
	Az   *float64   `json:"axis_az_deg"`
	UTC  *string    `json:"utc"`
}

type axisFitQuestion struct {
	header
	Site   *siteGiven   `json:"site"`
	UTC    string       `json:"utc"`
	Sights []sightGiven `json:"sights"`
	DUT1   float64      `json:"dut1_s"`
}

type axisFitAnswer struct {
	Tilt     float64 `json:"tilt_deg"`
	Toward   float64 `json:"toward_az_deg"`
	Zero     float64 `json:"azimuth_zero_deg"`
	Residual float64 `json:"residual_arcmin"`
}

// answer fits the axis to airless readouts. The residual is the root mean square over the sights.
func (q *axisFitQuestion) answer(frames *sky.Frames) (any, error) {
	frame, at, err := frameAt(frames, q.Site, q.UTC, q.DUT1)
	if err != nil {
		return nil, err
	}
	var sights []plan.Sight
	for i, given := range q.Sights {
		sight, err := given.sight()
		if err != nil {
			return nil, fmt.Errorf("\"sights\", item %d: %w", i+1, err)
		}
		if given.UTC == nil {
			sight.At = at
		}
		sights = append(sights, sight)
	}
	fit, err := plan.FitAxis(frame, sights, plan.Sighting{})
	if err != nil {
		return nil, err
	}
	return axisFitAnswer{
		Tilt: fit.Axis.Tilt.Degrees(), Toward: fit.Axis.Toward.Degrees(),
		Zero: fit.AzimuthZero.Degrees(), Residual: fit.RMS.Arcminutes(),
	}, nil
}

// sight returns the sight, without an instant if none was given.
func (g sightGiven) sight() (plan.Sight, error) {
	star, err := g.Star.star()
	if err != nil {
		return plan.Sight{}, err
	}
	alt, err := within("axis_alt_deg", g.Alt, -90, 90, "as the mount's axis reads")
	if err != nil {
		return plan.Sight{}, err
	}
	az, err := within("axis_az_deg", g.Az, -3600, 3600, "as the mount's axis reads")
	if err != nil {
		return plan.Sight{}, err
	}
	sight := plan.Sight{Star: star, Readout: sky.Horizontal{Altitude: degrees(alt), Azimuth: degrees(az).Wrapped()}}
	if g.UTC != nil {
		sight.At, err = instant(*g.UTC)
	}
	return sight, err
}
