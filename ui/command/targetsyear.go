package command

import (
	"context"
	"fmt"
	"io"
	"strings"

	"duskhand/plan/choose"
	"duskhand/ui/draw"
	"duskhand/ui/facts"
	"duskhand/ui/say"
)

// nightsOfAYear is how far ahead --year looks.
const nightsOfAYear = 365

// yearDocument is what targets --year --json prints.
type yearDocument struct {
	Example bool        `json:"example" doc:"true for the built-in example kit"`
	Site    string      `json:"site" doc:"its name in the kit"`
	Name    string      `json:"name" doc:"of the target"`
	Words   string      `json:"words" doc:"when it is best"`
	Best    *bestJSON   `json:"best" doc:"null when no night has usable time without the Moon"`
	Nights  []nightJSON `json:"nights" doc:"one after another"`
}

type bestJSON struct {
	Date  string `json:"date" doc:"of the best night"`
	First string `json:"first" doc:"of the nights around it that are nearly as good"`
	Last  string `json:"last" doc:"likewise"`
}

type nightJSON struct {
	Date     string  `json:"date" doc:"of the evening"`
	Dark     int64   `json:"dark_s" doc:"the Sun below -18 degrees"`
	Usable   int64   `json:"usable_s" doc:"of it the target can be used"`
	MoonFree int64   `json:"moon_free_s" doc:"of that the Moon is down"`
	Lit      float64 `json:"moon_illuminated" doc:"share of its disc at the middle of the night, 0 to 1"`
	Highest  float64 `json:"highest_deg" doc:"of the target then, airless; 0 when it is not up"`
}

func (p Program) writeYear(named string, asked targetsAsked) error {
	k, _, err := p.openKit(named)
	if err != nil {
		return err
	}
	target, err := k.FindTarget(asked.year)
	if err != nil {
		return wrongUsef("--year: %w", err)
	}
	date, err := dateOf(k, asked.on, p.Clock.Now())
	if err != nil {
		return err
	}
	tell, done := p.progress("nights computed")
	year, err := choose.YearOf(context.Background(), k, target, k.Axis, date, nightsOfAYear, tell)
	done()
	switch {
	case err != nil:
		return err
	case asked.asJSON:
		return writeJSON(p.Streams.Out, yearDocumentOf(year))
	}
	return writeYearText(p.out(), year)
}

func writeYearText(to io.Writer, year choose.Year) error {
	var out strings.Builder
	if year.Kit.Example {
		out.WriteString("EXAMPLE: the built-in kit, all equipment invented; make your own with: duskhand kit new\n\n")
	}
	fmt.Fprintf(&out, "%s at %s, %d nights from %s on\n", year.Target.Name, year.Kit.Site.Name, len(year.Nights), year.Nights[0].Date)
	fmt.Fprintf(&out, "Answer    %s\n\n", say.Year(year))
	nights, most := facts.CalendarOf(year)
	grid := draw.NewGrid(draw.CalendarWidth, draw.CalendarRows(nights))
	draw.Calendar(grid.Whole(), draw.Unicode, nights)
	for _, row := range draw.Lines(grid) {
		out.WriteString("  " + row + "\n")
	}
	fmt.Fprintf(&out, "\n  %s\n", say.YearLegend(most))
	_, err := io.WriteString(to, out.String())
	return err
}

func yearDocumentOf(year choose.Year) yearDocument {
	d := yearDocument{Example: year.Kit.Example, Site: year.Kit.Site.Name, Name: year.Target.Name, Words: say.Year(year), Nights: []nightJSON{}}
	if s, ok := year.Best(); ok {
		d.Best = &bestJSON{year.Nights[s.Best].Date.String(), year.Nights[s.First].Date.String(), year.Nights[s.Last].Date.String()}
	}
	for _, n := range year.Nights {
		d.Nights = append(d.Nights, nightJSON{n.Date.String(), whole(n.Dark), whole(n.Usable), whole(n.MoonFree), thousandths(n.Illuminated), rounded(n.Highest, 1)})
	}
	return d
}
