package command

import (
	"time"

	"duskhand/plan/card"
	"duskhand/sky/words"
)

// cardDocument is what card --json prints.
type cardDocument struct {
	Example   bool             `json:"example" doc:"true for the built-in example kit"`
	Date      string           `json:"date" doc:"date of the evening"`
	At        string           `json:"at" doc:"instant that places of date and heights are for, UTC"`
	Local     string           `json:"local" doc:"the same on the kit's clock, with its offset"`
	Offset    float64          `json:"utc_offset_h" doc:"of the kit's clock then"`
	Summer    bool             `json:"summer_time" doc:"whether the kit's clock is put forward then"`
	Site      string           `json:"site" doc:"its name"`
	Latitude  coordinate       `json:"latitude" doc:"in the notations that people type"`
	Longitude coordinate       `json:"longitude" doc:"likewise"`
	Height    float64          `json:"elevation_m" doc:"metres"`
	Pole      cardStarJSON     `json:"pole_star" doc:"Polaris, or Sigma Octantis in the south: its height checks the site"`
	SunsetAz  *float64         `json:"sunset_az_deg" doc:"azimuth of the Sun's centre at sunset, null if it does not set"`
	Stars     []cardStarJSON   `json:"stars" doc:"to align on, in order; the third is to be sure"`
	Targets   []cardTargetJSON `json:"targets" doc:"of the kit, in order"`
	Sun       sunJSON          `json:"sun" doc:"its centre at -0.8333, -6, -12 and -18 degrees"`
	Moon      moonJSON         `json:"moon" doc:"the first of each in the night, upper limb"`
	Flats     flatsJSON        `json:"flats" doc:"when the sky overhead is right for flats"`
	Clock     *clockJSON       `json:"clock" doc:"the computer's clock, null where none was asked, as in a replay"`
}

type cardStarJSON struct {
	Name   string     `json:"name" doc:"as the catalogue or the kit has it"`
	J2000  [2]float64 `json:"j2000" doc:"right ascension and declination, degrees"`
	OfDate [2]float64 `json:"of_date" doc:"likewise, apparent: true equator and equinox of date"`
	Alt    float64    `json:"alt_deg" doc:"height as seen through air"`
	Az     float64    `json:"az_deg" doc:"azimuth"`
}

type cardTargetJSON struct {
	cardStarJSON
	Start *float64 `json:"derotator_start_deg" doc:"mechanical angle of the first run's start, null without a run"`
	End   *string  `json:"derotator_end" doc:"end of the travel that it is near: min, max or none"`
	From  *string  `json:"run_from" doc:"when that run begins"`
	To    *string  `json:"run_to" doc:"when its last sub is over"`
}

type flatsJSON struct {
	Evening []flatJSON `json:"evening" doc:"in the order in which to take them"`
	Morning []flatJSON `json:"morning" doc:"likewise"`
	Lacks   []string   `json:"lacks" doc:"keys of the kit without which the times are not known"`
}

type flatJSON struct {
	Filter string  `json:"filter" doc:"its name"`
	From   *string `json:"from" doc:"from when half the full well takes 1 to 15 s; null if not known"`
	To     *string `json:"to" doc:"until when"`
}

type clockJSON struct {
	Zone   string  `json:"zone" doc:"that the computer shows times in"`
	Offset float64 `json:"utc_offset_h" doc:"of that zone"`
	Fits   bool    `json:"zone_fits_longitude" doc:"whether a clock at the site can go so"`
	Sync   *bool   `json:"synchronised" doc:"whether the system takes its clock to be right; null where it does not say"`
}

func cardDocumentOf(s sheet) cardDocument {
	k := s.Night.Kit
	local := s.At.In(k.Site.Zone)
	_, offset := local.Zone()
	d := cardDocument{
		Example: k.Example, Date: s.Night.Date.String(), At: instant(s.At), Local: local.Round(time.Second).Format(time.RFC3339),
		Offset: float64(offset) / 3600, Summer: local.IsDST(), Site: k.Site.Name,
		Latitude: coordinateOf(k.Site.Place.Latitude, words.Latitudes()), Longitude: coordinateOf(k.Site.Place.Longitude, words.Longitudes()),
		Height: k.Site.Place.ElevationMetres, Pole: cardStarOf(s.Pole), Stars: []cardStarJSON{}, Targets: []cardTargetJSON{},
		Sun: sunOf(s.Night.Twilight), Moon: moonOf(s.Night),
		Flats: flatsJSON{flatsOf(s.Flats.Evening), flatsOf(s.Flats.Morning), append([]string{}, s.Flats.Lacks...)},
	}
	if s.SunSets.OK {
		azimuth := rounded(s.SunSets.Azimuth, 1)
		d.SunsetAz = &azimuth
	}
	for _, star := range s.Stars {
		d.Stars = append(d.Stars, cardStarOf(star))
	}
	for _, t := range s.Targets {
		d.Targets = append(d.Targets, cardTargetOf(t))
	}
	if c := s.clock; c.Asked {
		d.Clock = &clockJSON{Zone: c.ZoneName, Offset: c.Offset.Hours(), Fits: c.zoneFits()}
		if c.Known {
			d.Clock.Sync = &c.Sync
		}
	}
	return d
}

func cardStarOf(s card.Star) cardStarJSON {
	return cardStarJSON{Name: s.Name, J2000: [2]float64{rounded(s.J2000.RA, 4), rounded(s.J2000.Dec, 4)}, OfDate: degreesOfDate(s.OfDate),
		Alt: rounded(s.Place.Altitude, 1), Az: rounded(rounded10(s.Place.Azimuth), 1)}
}

func cardTargetOf(t card.Target) cardTargetJSON {
	j := cardTargetJSON{cardStarJSON: cardStarOf(t.Star)}
	if t.Any {
		start, end, from, to := rounded(t.Run.StartAngle, 1), t.End.String(), instant(t.Run.From), instant(t.Run.To)
		j.Start, j.End, j.From, j.To = &start, &end, &from, &to
	}
	return j
}

func flatsOf(times []card.FlatTime) []flatJSON {
	all := []flatJSON{}
	for _, t := range times {
		all = append(all, flatJSON{t.Filter, stamp(t.From), stamp(t.To)})
	}
	return all
}
