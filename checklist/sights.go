package checklist

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"duskhand/checklist/journal"
	"duskhand/plan"
	"duskhand/sky"
	"duskhand/sky/words"
)

// KindSighted is the event of a star centred on the camera while the mount's raw axis readouts were read.
const KindSighted = "sighted"

// SightedBody is the body of KindSighted: the star by its name in the catalogue and by its place (ICRF,
// J2000.0, with proper motion), and what the mount's axes showed, as read through air; both left out if nobody
// read them.
type SightedBody struct {
	Name          string   `json:"name"`
	RADeg         float64  `json:"ra_deg"`
	DecDeg        float64  `json:"dec_deg"`
	PMRAMasPerYr  float64  `json:"pm_ra_mas_per_yr,omitempty"`
	PMDecMasPerYr float64  `json:"pm_dec_mas_per_yr,omitempty"`
	AxisAltDeg    *float64 `json:"axis_alt_deg,omitempty"`
	AxisAzDeg     *float64 `json:"axis_az_deg,omitempty"`
}

// Sighted says that a star stands centred and what the mount's axes show.
type Sighted struct {
	Name    string
	Star    sky.Star
	Readout sky.Horizontal // raw: altitude and azimuth as the axes show them
	Unread  bool           // nobody read them: the star is centred, and the tilt learns nothing
}

func (a Sighted) event(Night, *time.Location) (string, any, error) {
	if err := finite("the readout", &a.Readout.Altitude, &a.Readout.Azimuth); err != nil {
		return "", nil, err
	}
	if a.Name == "" {
		return "", nil, errors.New("the star has no name; choose it in the list, then give the readouts")
	}
	if a.Readout.Altitude < -90*sky.Degree || a.Readout.Altitude > 90*sky.Degree {
		return "", nil, fmt.Errorf("an altitude of %s can't be; give the altitude axis first, then the azimuth", words.DegreesAsRead(a.Readout.Altitude))
	}
	place, motion := a.Star.Place, a.Star.Motion
	body := SightedBody{
		Name: a.Name, RADeg: place.RA.Degrees(), DecDeg: place.Dec.Degrees(),
		PMRAMasPerYr: float64(motion.RA / sky.MilliarcsecondPerYear), PMDecMasPerYr: float64(motion.Dec / sky.MilliarcsecondPerYear),
	}
	if !a.Unread {
		body.AxisAltDeg, body.AxisAzDeg = inDegrees(&a.Readout.Altitude), inDegrees(&a.Readout.Azimuth)
	}
	return KindSighted, body, nil
}

// Centred is a star that stood centred, by its name, and when that was said first.
type Centred struct {
	Star string
	At   time.Time
}

// WithReadout tells of a KindSighted event whether the mount's axes were read.
func WithReadout(e journal.Event) bool {
	body, ok := decode[SightedBody](e)
	return ok && body.AxisAltDeg != nil && body.AxisAzDeg != nil
}

// sighted adds a sight; one of the same star takes the place of the earlier one.
func (n *Night) sighted(body SightedBody, at time.Time) {
	s := plan.Sight{
		Name: body.Name, At: at,
		Star: sky.Star{
			Place: sky.J2000{RA: degrees(body.RADeg), Dec: degrees(body.DecDeg)},
			Motion: sky.ProperMotion{
				RA:  sky.Angle(body.PMRAMasPerYr) * sky.MilliarcsecondPerYear,
				Dec: sky.Angle(body.PMDecMasPerYr) * sky.MilliarcsecondPerYear,
			},
		},
	}
	if !slices.ContainsFunc(n.Centred, func(c Centred) bool { return c.Star == s.Name }) {
		n.Centred = append(slices.Clip(n.Centred), Centred{s.Name, at})
	}
	n.wentTo(s.Name, s.Star, at)
	if body.AxisAltDeg == nil || body.AxisAzDeg == nil {
		return
	}
	s.Readout = sky.Horizontal{Altitude: degrees(*body.AxisAltDeg), Azimuth: degrees(*body.AxisAzDeg)}
	kept := make([]plan.Sight, 0, len(n.Sights)+1)
	for _, earlier := range n.Sights {
		if earlier.Name != s.Name {
			kept = append(kept, earlier)
		}
	}
	n.Sights = append(kept, s)
}
