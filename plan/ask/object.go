package ask

import (
	"fmt"

	"duskhand/sky"
	"duskhand/sky/catalog"
)

type objectQuestion struct {
	header
	Name *string `json:"name"`
}

type objectAnswer struct {
	ID            string   `json:"id,omitempty"` // left out when the request has an id of its own, which goes there
	Designation   string   `json:"designation"`
	Names         []string `json:"names"`
	Kind          string   `json:"kind"`
	Type          string   `json:"type"`
	Constellation *string  `json:"constellation"`
	RA            float64  `json:"ra_deg"`
	Dec           float64  `json:"dec_deg"`
	PMRA          *float64 `json:"pm_ra_mas_yr"`
	PMDec         *float64 `json:"pm_dec_mas_yr"`
	Mag           *float64 `json:"mag"`
	Major         *float64 `json:"major_arcmin"`
	Minor         *float64 `json:"minor_arcmin"`
	PA            *float64 `json:"pa_deg"`
}

func (q *objectQuestion) answer(*sky.Frames) (any, error) {
	if q.Name == nil {
		return nil, fmt.Errorf("\"name\" is missing; give any name or number of a star or deep-sky object")
	}
	found, err := catalog.Find(*q.Name)
	if err != nil {
		return nil, err
	}
	id := found.ID
	if q.ID != nil {
		id = ""
	}
	return objectAnswer{
		ID: id, Designation: found.ID, Names: found.Names, Kind: found.Kind.String(), Type: found.Type,
		Constellation: textOrNull(found.Constellation),
		RA:            found.Star.Place.RA.Degrees(), Dec: found.Star.Place.Dec.Degrees(),
		PMRA: milliarcseconds(found.Star.Motion.RA), PMDec: milliarcseconds(found.Star.Motion.Dec),
		Mag: orNull(found.Magnitude), Major: orNull(found.MajorArcmin), Minor: orNull(found.MinorArcmin), PA: orNull(found.PositionAngleDeg),
	}, nil
}

func orNull(k catalog.Known) *float64 {
	if !k.OK {
		return nil
	}
	return &k.Value
}

func textOrNull(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}

// milliarcseconds of a year's motion, nil when the catalogue has none: no star stands exactly still.
func milliarcseconds(a sky.Angle) *float64 {
	if a == 0 {
		return nil
	}
	mas := float64(a / sky.MilliarcsecondPerYear)
	return &mas
}
