package command

import (
	"fmt"
	"math"
	"strings"

	"duskhand/plan"
	"duskhand/plan/card"
	"duskhand/sky"
)

// sections returns the card in order: what is typed first stands first.
func (s sheet) sections() []section {
	all := []section{{"Time and place", append(s.timeRows(), s.placeRows()...)}}
	if rows := s.clock.rows(); len(rows) > 0 {
		all = append(all, section{"The computer's clock", rows})
	}
	return append(all, section{"Stars", s.starRows()}, section{"Targets", s.targetRows()}, section{"Night", s.nightRows()}, section{"Sky flats", s.flatRows()})
}

func (s sheet) timeRows() []row {
	zone := s.Night.Kit.Site.Zone
	_, offset := s.At.In(zone).Zone()
	return []row{
		{"for", dateAndTime(s.At, zone) + " local = " + s.At.UTC().Format("2006-01-02 15:04:05") + " UTC"},
		{"zone", fmt.Sprintf("%s, that is %+g h; %s", zoneWithOffset(s.At.In(zone)), float64(offset)/3600, summerTime(s.At, zone))},
	}
}

func (s sheet) placeRows() []row {
	place := s.Night.Kit.Site.Place
	lat, lon := coordinateOf(place.Latitude, "N", "S", 2), coordinateOf(place.Longitude, "E", "W", 3)
	rows := []row{
		{"latitude", strings.Join([]string{lat.DMS, lat.DM, lat.Letter}, " = ")},
		{"longitude", strings.Join([]string{lon.DMS, lon.DM, lon.Letter}, " = ")},
		{"height", fmt.Sprintf("%.0f m", place.ElevationMetres)},
		{"check", fmt.Sprintf("%s stands %s up, azimuth %s", s.Pole.Name, tenth(s.Pole.Place.Altitude), tenth(s.Pole.Place.Azimuth))},
	}
	if s.SunSets.OK {
		rows = append(rows, row{"check", fmt.Sprintf("the Sun sets at azimuth %s at %s on a flat horizon", tenth(s.SunSets.Azimuth), s.local.of(s.SunSets.At))})
	}
	return rows
}

func (s sheet) starRows() (rows []row) {
	for i, star := range s.Stars {
		rows = append(rows, placeRows(s.roles[i]+" "+star.Name, star)...)
	}
	if len(rows) == 0 {
		return []row{{"none", "no two stars will do at that time; duskhand stars says why"}}
	}
	cost := card.ClockCost(s.Stars[0].OfDate.Dec)
	width, height := s.Night.Kit.Field()
	leaves := math.Floor(float64(min(width, height)/2/cost)*10) / 10
	return append(rows, row{"clock", fmt.Sprintf("a minute wrong misses %s by %.0f′; %.1f min put it off the chip",
		s.Stars[0].Name, cost.Arcminutes(), leaves)})
}

// placeRows gives a place in both epochs, and where it stands.
func placeRows(label string, star card.Star) []row {
	return []row{
		{label, fmt.Sprintf("J2000 %s %s", rightAscension(star.J2000.RA), declination(star.J2000.Dec))},
		{"", fmt.Sprintf("of date %s %s, %s up, azimuth %s", rightAscension(star.OfDate.RA), declination(star.OfDate.Dec),
			degreesText(star.Place.Altitude.Degrees(), 0), degreesText(star.Place.Azimuth.Degrees(), 0))},
	}
}

func (s sheet) targetRows() (rows []row) {
	for _, t := range s.Targets {
		rows = append(rows, placeRows(t.Name, t.Star)...)
		text := "no run tonight"
		if t.Any {
			text = fmt.Sprintf("start at %s%s, %s; first run to %s", tenth(t.Run.StartAngle), endText(t.End), s.local.of(t.Run.From), s.local.of(t.Run.To))
		}
		rows = append(rows, row{"", text})
	}
	return rows
}

func endText(end plan.Side) string {
	switch end {
	case plan.MinLimit:
		return ", towards the lower end"
	case plan.MaxLimit:
		return ", towards the upper end"
	}
	return ", about the middle"
}

func (s sheet) nightRows() []row {
	sun := s.Night.Twilight
	rows := []row{
		{"sunset", s.local.event(sun.Sunset)},
		{"dusk", fmt.Sprintf("civil %s, nautical %s, dark %s", s.local.event(sun.CivilDusk), s.local.event(sun.NauticalDusk), s.local.event(sun.AstronomicalDusk))},
		{"dawn", fmt.Sprintf("dark until %s, sunrise %s", s.local.event(sun.AstronomicalDawn), s.local.event(sun.Sunrise))},
		{"Moon", moonText(s.Night, s.local)},
	}
	return rows
}

func (s sheet) flatRows() []row {
	f := s.Flats
	rows := []row{{"evening", flatText(f.Evening, s.local)}, {"morning", flatText(f.Morning, s.local)}}
	if len(f.Lacks) > 0 {
		return append(rows, row{"times", "need " + strings.Join(f.Lacks, ", ") + " in the kit"})
	}
	return append(rows, row{"exposure", fmt.Sprintf("%.0f to %.0f s, half full, overhead; times good to some minutes", card.ShortestFlat.Seconds(), card.LongestFlat.Seconds())})
}

// flatText gives the filters in order, with times where they are known.
func flatText(times []card.FlatTime, local localTimes) string {
	var parts []string
	for _, t := range times {
		text := t.Filter
		if t.From.OK && t.To.OK {
			text += fmt.Sprintf(" %s–%s", local.of(t.From.At), local.of(t.To.At))
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, ", ")
}

// degreesOfDate returns a place of date as the JSON has it.
func degreesOfDate(place sky.OfDate) [2]float64 {
	return [2]float64{rounded(place.RA, 4), rounded(place.Dec, 4)}
}
