package ask

import (
	"time"

	"duskhand/sky"
)

// dayQuestion is a night at a site.
type dayQuestion struct {
	header
	Site *siteGiven `json:"site"`
	Date string     `json:"date"`
	DUT1 float64    `json:"dut1_s"`
}

func (q *dayQuestion) night(frames *sky.Frames) (frame *sky.Frame, noon time.Time, err error) {
	site, err := q.Site.site()
	if err != nil {
		return nil, noon, err
	}
	date, err := evening(q.Date)
	if err != nil {
		return nil, noon, err
	}
	offset, err := dut1(q.DUT1)
	if err != nil {
		return nil, noon, err
	}
	noon = sky.SolarNoon(site, date.Year, date.Month, date.Day)
	return frames.Around(site, noon.Add(12*time.Hour), offset), noon, nil
}

type twilightQuestion struct{ dayQuestion }

type twilightAnswer struct {
	Sunset           *string `json:"sunset"`
	CivilDusk        *string `json:"civil_dusk"`
	NauticalDusk     *string `json:"nautical_dusk"`
	AstronomicalDusk *string `json:"astronomical_dusk"`
	AstronomicalDawn *string `json:"astronomical_dawn"`
	NauticalDawn     *string `json:"nautical_dawn"`
	CivilDawn        *string `json:"civil_dawn"`
	Sunrise          *string `json:"sunrise"`
}

func (q *twilightQuestion) answer(frames *sky.Frames) (any, error) {
	frame, noon, err := q.night(frames)
	if err != nil {
		return nil, err
	}
	w := frame.Twilight(noon)
	return twilightAnswer{
		Sunset: stamp(w.Sunset), CivilDusk: stamp(w.CivilDusk), NauticalDusk: stamp(w.NauticalDusk),
		AstronomicalDusk: stamp(w.AstronomicalDusk), AstronomicalDawn: stamp(w.AstronomicalDawn),
		NauticalDawn: stamp(w.NauticalDawn), CivilDawn: stamp(w.CivilDawn), Sunrise: stamp(w.Sunrise),
	}, nil
}

type moonEventsQuestion struct{ dayQuestion }

type moonEventsAnswer struct {
	Rise *string `json:"rise"`
	Set  *string `json:"set"`
}

func (q *moonEventsQuestion) answer(frames *sky.Frames) (any, error) {
	frame, noon, err := q.night(frames)
	if err != nil {
		return nil, err
	}
	rise, set := frame.MoonEvents(noon)
	return moonEventsAnswer{stamp(rise), stamp(set)}, nil
}

// stamp prints an event as RFC 3339 to the millisecond, nil when it does not happen.
func stamp(e sky.Event) *string {
	if !e.OK {
		return nil
	}
	text := e.At.UTC().Format("2006-01-02T15:04:05.000Z07:00")
	return &text
}
