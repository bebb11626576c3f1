package command

import (
	"fmt"
	"strings"
	"time"

	"duskhand/plan"
	"duskhand/plan/card"
	"duskhand/sky"
	"duskhand/sky/words"
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
		{"for", words.DateSecond(s.At, zone) + " local = " + words.DateSecond(s.At, time.UTC) + " UTC"},
		{"zone", fmt.Sprintf("%s, that is %s; %s", words.ZoneWithOffset(s.At.In(zone)), words.OffsetHours(time.Duration(offset)*time.Second), summerTime(s.At, zone))},
	}
}

func (s sheet) placeRows() []row {
	place := s.Night.Kit.Site.Place
	lat, lon := coordinateOf(place.Latitude, words.Latitudes()), coordinateOf(place.Longitude, words.Longitudes())
	rows := []row{
		{"latitude", strings.Join([]string{lat.DMS, lat.DM, lat.Letter}, " = ")},
		{"longitude", strings.Join([]string{lon.DMS, lon.DM, lon.Letter}, " = ")},
		{"height", fmt.Sprintf("%.0f m", place.ElevationMetres)},
		{"check", fmt.Sprintf("%s stands %s up, azimuth %s", s.Pole.Name, words.Degrees(s.Pole.Place.Altitude, 1), words.Degrees(s.Pole.Place.Azimuth, 1))},
	}
	if s.SunSets.OK {
		rows = append(rows, row{"check", fmt.Sprintf("the Sun sets at azimuth %s at %s on a flat horizon", words.Degrees(s.SunSets.Azimuth, 1), s.local.Minute(s.SunSets.At))})
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
	leaves := time.Duration(float64(min(width, height)/2/cost) * float64(time.Minute)).Truncate(6 * time.Second)
	return append(rows, row{"clock", fmt.Sprintf("a minute wrong misses %s by %s; %s put it off the chip",
		s.Stars[0].Name, words.Arcminutes(cost, 0), words.ToSecond(leaves))})
}

// placeRows gives a place in both epochs, and where it stands.
func placeRows(label string, star card.Star) []row {
	return []row{
		{label, fmt.Sprintf("J2000 %s %s", words.RightAscension(star.J2000.RA), words.Declination(star.J2000.Dec))},
		{"", fmt.Sprintf("of date %s %s, %s up, azimuth %s", words.RightAscension(star.OfDate.RA), words.Declination(star.OfDate.Dec),
			words.Degrees(star.Place.Altitude, 0), words.Degrees(star.Place.Azimuth, 0))},
	}
}

func (s sheet) targetRows() (rows []row) {
	for _, t := range s.Targets {
		rows = append(rows, placeRows(t.Name, t.Star)...)
		text := "no run tonight"
		if t.Any {
			text = fmt.Sprintf("start at %s%s, %s; first run to %s", words.Degrees(t.Run.StartAngle, 1), endText(t.End), s.local.MinuteFrom(t.Run.From), s.local.Minute(t.Run.To))
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
		{"sunset", s.local.Event(sun.Sunset)},
		{"dusk", fmt.Sprintf("civil %s, nautical %s, dark %s", s.local.EventFrom(sun.CivilDusk), s.local.EventFrom(sun.NauticalDusk), s.local.EventFrom(sun.AstronomicalDusk))},
		{"dawn", fmt.Sprintf("dark until %s, sunrise %s", s.local.Event(sun.AstronomicalDawn), s.local.Event(sun.Sunrise))},
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
	return append(rows, row{"exposure", fmt.Sprintf("%s to %s, half full, overhead; times good to some minutes", words.Exposure(card.ShortestFlat), words.Exposure(card.LongestFlat))})
}

// flatText gives the filters in order, with times where they are known.
func flatText(times []card.FlatTime, local words.Wall) string {
	var parts []string
	for _, t := range times {
		text := t.Filter
		if t.From.OK && t.To.OK {
			text += fmt.Sprintf(" %s–%s", local.MinuteFrom(t.From.At), local.Minute(t.To.At))
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, ", ")
}

// degreesOfDate returns a place of date as the JSON has it.
func degreesOfDate(place sky.OfDate) [2]float64 {
	return [2]float64{rounded(place.RA, 4), rounded(place.Dec, 4)}
}
