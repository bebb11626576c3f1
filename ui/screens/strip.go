package screens

import (
	"fmt"
	"time"

	"duskhand/plan"
	"duskhand/sky/words"
	"duskhand/ui/draw"
)

// Strip shows the night as one line.
func (s Status) Strip(area draw.Area) {
	span := s.Tonight.Span()
	v := draw.StripValues{From: span.From, To: span.To, Left: "dusk", Right: "dawn", Sun: s.Tonight.Sun(),
		Now: s.Now, Hours: s.hours(span)}
	for i, row := range s.Tonight.Rows() {
		v.Runs = append(v.Runs, draw.StripRun{From: row.From, To: row.To,
			Label: fmt.Sprintf("run %d", i+1), Rewound: row.Rewound})
	}
	for _, w := range s.Tonight.Windows {
		v.Notes = append(v.Notes, draw.Tick{At: w.From,
			Label: "usable " + words.MinuteFrom(w.From, s.Zone())})
	}
	if moon := s.Tonight.Night.Moonrise; moon.OK {
		v.Notes = append(v.Notes, draw.Tick{At: moon.At,
			Label: "Moon up " + words.Minute(moon.At, s.Zone())})
	}
	if moon := s.Tonight.Night.Moonset; moon.OK {
		v.Notes = append(v.Notes, draw.Tick{At: moon.At,
			Label: "Moon down " + words.Minute(moon.At, s.Zone())})
	}
	draw.NightStrip(area, s.Charset, v)
}

// hours are the full local hours in span.
func (s Status) hours(span plan.Span) []draw.Tick {
	zone := s.Zone()
	var ticks []draw.Tick
	first := span.From.In(zone).Truncate(time.Hour) // zones off by half an hour have their own full hours
	_, offset := span.From.In(zone).Zone()
	first = first.Add(-time.Duration(offset%3600) * time.Second)
	for at := first; at.Before(span.To); at = at.Add(time.Hour) {
		if !at.Before(span.From) {
			ticks = append(ticks, draw.Tick{At: at, Label: at.In(zone).Format("15")})
		}
	}
	return ticks
}
