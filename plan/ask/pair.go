package ask

import (
	"fmt"

	"duskhand/plan"
	"duskhand/sky"
)

// pairQuestion is an alignment on two stars: how well it points at a target.
type pairQuestion struct {
	header
	Stars  [][]*float64 `json:"stars"`
	Target []*float64   `json:"target"`
	Sigma  *float64     `json:"sigma_arcmin"`
}

type pairAnswer struct {
	Separation float64 `json:"separation_deg"`
	Pointing   float64 `json:"pointing_arcmin"`
	Roll       float64 `json:"roll_arcmin"`
}

func (q *pairQuestion) answer(*sky.Frames) (any, error) {
	if len(q.Stars) != 2 {
		return nil, fmt.Errorf("\"stars\" holds %d places; give two, as [[41.5,120.3],[55.0,210.7]]: altitude and azimuth of each", len(q.Stars))
	}
	first, err := placeIn("stars[0]", q.Stars[0])
	if err != nil {
		return nil, err
	}
	second, err := placeIn("stars[1]", q.Stars[1])
	if err != nil {
		return nil, err
	}
	target, err := placeIn("target", q.Target)
	if err != nil {
		return nil, err
	}
	const least, most = 1e-6, 600 // arcmin: below and above it is no centring, and squares stay in range
	sigma, err := within("sigma_arcmin", q.Sigma, least, most, "rms of the centring, per axis")
	if err != nil {
		return nil, err
	}
	centring := sky.Angle(sigma) * sky.Arcminute
	covariance, err := plan.AttitudeCovariance(plan.Centring{Direction: first, Error: centring}, plan.Centring{Direction: second, Error: centring})
	if err != nil {
		return nil, fmt.Errorf("\"stars\": %w", err)
	}
	return pairAnswer{
		Separation: first.Separation(second).Degrees(),
		Pointing:   covariance.Pointing(target).Arcminutes(),
		Roll:       covariance.Roll(target).Arcminutes(),
	}, nil
}

// placeIn reads [altitude, azimuth].
func placeIn(name string, given []*float64) (sky.Direction, error) {
	if len(given) != 2 {
		return sky.Direction{}, fmt.Errorf("%q holds %d numbers; give two, [altitude, azimuth] in degrees", name, len(given))
	}
	alt, err := within(name+" altitude", given[0], -90, 90, "degrees")
	if err != nil {
		return sky.Direction{}, err
	}
	az, err := within(name+" azimuth", given[1], -360, 360, "degrees from north through east")
	if err != nil {
		return sky.Direction{}, err
	}
	return sky.Horizontal{Altitude: degrees(alt), Azimuth: degrees(az).Wrapped()}.Direction(), nil
}
