package command

import (
	"bytes"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"duskhand/plan/card"
	"duskhand/sky"
	"duskhand/sky/catalog"
	"duskhand/sky/words"
	"duskhand/ui/facts"
	"duskhand/ui/page"
	"duskhand/ui/theme"
)

const cardLong = `Prints what is typed into the mount's hand control and written on paper before a night: date, time, place in
the notations that people type, the stars to align on and the targets with their places of J2000 and of date,
the angle that the derotator starts from, dusk, Moon, and when the sky is right for flats. It checks the
computer's clock: its zone against the site, and whether the system says that it is right.

Places of date and heights are for --at; without it for now, if it is night at the site, or else for the
nautical dusk of the evening. --at takes what that of stars takes.

With --json one JSON document:
`

const cardExamples = `  duskhand card
  duskhand card --on 2026-12-05 --svg card.svg --paper
  duskhand card --json | jq -r '.stars[].of_date'`

func (p Program) cardCommand(named *string) *cobra.Command {
	var on, at string
	var asJSON bool
	var asked pageAsked
	cmd := &cobra.Command{
		Use:     "card",
		Short:   "Print the card for the mount's hand control",
		Long:    cardLong + helpOf[cardDocument](),
		Example: cardExamples,
		Args:    noArguments,
		RunE: action(func(cmd *cobra.Command, _ []string) error {
			sheet, err := p.card(*named, on, at)
			switch {
			case err != nil:
				return err
			case cmd.Flags().Changed("svg"):
				return p.writeCardPage(asked, sheet)
			case asked.paper:
				return wrongUsef("--paper goes with --svg FILE")
			case asJSON:
				return writeJSON(p.Streams.Out, cardDocumentOf(sheet))
			}
			_, err = fmt.Fprint(p.out(), sheet.text())
			return err
		}),
	}
	cmd.Flags().StringVar(&on, "on", "", "the night that begins on the evening of `DATE`, as 2026-12-05")
	cmd.Flags().StringVar(&at, "at", "", "the instant `TIME`: RFC 3339, \"2026-12-05 21:05\", or 21:05 of that night")
	cmd.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	cmd.Flags().StringVar(&asked.path, "svg", "", "write the card as a picture of one page to `FILE`, or to standard output for -")
	cmd.Flags().BoolVar(&asked.paper, "paper", false, "with --svg: for paper, dark on white, instead of red on black")
	cmd.Flags().BoolVar(&asked.force, "force", false, "with --svg: write over FILE")
	return cmd
}

// sheet is a card with what the computer says of its clock.
type sheet struct {
	card.Card
	roles []string // of the stars
	local words.Wall
	clock clockCheck
}

func (p Program) card(named, on, at string) (sheet, error) {
	chosen, err := p.chooseStars(named, on, at, everyTarget)
	if err != nil {
		return sheet{}, err
	}
	return p.sheetOf(chosen.tonight, chosen.stars), nil
}

// sheetOf is the card of a night, for the instant of the stars that were chosen.
func (p Program) sheetOf(tonight *facts.Tonight, chosen facts.Stars) sheet {
	var stars []catalog.Object
	k := tonight.Kit
	s := sheet{local: words.WallOf(tonight.Night.Span.From, tonight.Night.Span.To, k.Site.Zone)}
	if len(chosen.Pairs) > 0 {
		pair := chosen.Pairs[0]
		stars = append(stars, pair.First.Star, pair.Second.Star)
		s.roles = []string{"first star", "second star", "to be sure"}
		if check, ok := chosen.Check(0); ok {
			stars = append(stars, check.Star.Star)
		}
	}
	s.Card = card.Of(tonight.Night, chosen.At, stars, k.Targets, tonight.Axis)
	s.clock = checkClock(p.Clock.Machine(), k.Site, p.Clock.Now())
	return s
}

// cardOnScreen is the card that the screens show: for now at night, by day for the evening that comes.
func (p Program) cardOnScreen(tonight *facts.Tonight, now time.Time) page.Card {
	if tonight.Night.Frame.Sun(now).Altitude >= sky.CivilTwilight && now.Before(duskOf(tonight.Night)) {
		now = duskOf(tonight.Night)
	}
	return p.sheetOf(tonight, tonight.StarsAt(now)).page()
}

// row is one line of the card: what it is and what it says.
type row struct{ label, text string }

// section is a group of lines under a heading, which may be "".
type section struct {
	title string
	rows  []row
}

// text lays the card out for a terminal or a printer of letters.
func (s sheet) text() string {
	var out bytes.Buffer
	if s.Night.Kit.Example {
		out.WriteString("EXAMPLE: the built-in kit, all equipment invented; make your own with: duskhand kit new\n\n")
	}
	fmt.Fprintf(&out, "%s\n", s.title())
	for _, part := range s.sections() {
		out.WriteString("\n")
		if part.title != "" {
			out.WriteString(part.title + "\n")
		}
		var rows [][]string
		for _, r := range part.rows {
			rows = append(rows, []string{r.label, r.text})
		}
		writeColumns(&out, rows)
	}
	out.WriteString("\n" + sunCaution + "\n")
	return out.String()
}

const sunCaution = "Never point an unfiltered telescope or finder at the Sun."

func (s sheet) title() string {
	return fmt.Sprintf("Card for the night of %s, %s", s.Night.Date, s.Night.Kit.Site.Name)
}

func (p Program) writeCardPage(asked pageAsked, s sheet) error {
	ink := theme.DarkInk()
	if asked.paper {
		ink = theme.PrintInk()
	}
	var out bytes.Buffer
	if err := page.WriteCard(&out, ink, s.page()); err != nil {
		return err
	}
	return p.putPage(asked, out.Bytes())
}

// page is the card as lines under headings.
func (s sheet) page() page.Card {
	c := page.Card{Title: s.title(), Caution: sunCaution}
	if s.Night.Kit.Example {
		c.Example = "EXAMPLE: all of it invented"
	}
	for _, part := range s.sections() {
		rows := [][2]string{}
		for _, r := range part.rows {
			rows = append(rows, [2]string{r.label, r.text})
		}
		c.Sections = append(c.Sections, page.CardSection{Title: part.title, Rows: rows})
	}
	return c
}

// summerTime says whether the clock is put forward at an instant.
func summerTime(t time.Time, zone *time.Location) string {
	if t.In(zone).IsDST() {
		return "summer time holds"
	}
	return "summer time does not hold"
}
