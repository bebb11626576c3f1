package command

import (
	"strings"
	"time"

	"github.com/spf13/cobra"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/ui/facts"
)

const starsLong = `Ranks the pairs of stars to align on, by the pointing error to expect at the target and by the turn
about it, and the stars to focus on: those that are up, clear of the horizon profile, not to be mistaken
for a neighbour, and still fine a while later. Each pair is in the order to take them: the second is the
one to stay on for the focus, or the one nearer the target.

Without --at the instant is now, if it is night at the site, or else the nautical dusk of the evening.
--at takes RFC 3339, a local date and time, or with --on a time of day alone, as 21:05.

With --json one JSON document:
`

const starsExamples = `  duskhand stars
  duskhand stars --on 2026-12-05 --at 21:05 --target "NGC 1365"
  duskhand stars --json | jq '.pairs[0]'`

// chosenStars is what the command prints: the stars of one instant for one target.
type chosenStars struct {
	tonight *facts.Tonight
	stars   facts.Stars
}

func (p Program) starsCommand(named *string) *cobra.Command {
	var on, at, target string
	var asJSON bool
	cmd := &cobra.Command{
		Use:     "stars",
		Short:   "Choose two stars to align on, and one to focus on",
		Long:    starsLong + helpOf[starsDocument](),
		Example: starsExamples,
		Args:    noArguments,
		RunE: action(func(cmd *cobra.Command, _ []string) error {
			if !cmd.Flags().Changed("target") {
				target = everyTarget
			}
			chosen, err := p.chooseStars(*named, on, at, target)
			switch {
			case err != nil:
				return err
			case asJSON:
				return writeJSON(p.Streams.Out, starsDocumentOf(chosen))
			}
			return writeStarsText(p.out(), chosen)
		}),
	}
	cmd.Flags().StringVar(&on, "on", "", "the night that begins on the evening of `DATE`, as 2026-12-05")
	cmd.Flags().StringVar(&at, "at", "", "the instant `TIME`: RFC 3339, \"2026-12-05 21:05\", or 21:05 of that night")
	cmd.Flags().StringVar(&target, "target", "", "for the target `NAME`; the kit's first if not given")
	cmd.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	completeWith(cmd, "target", func(*cobra.Command) []string { return p.targetNames(*named) })
	return cmd
}

func (p Program) chooseStars(named, on, at, target string) (chosenStars, error) {
	k, _, err := p.openKit(named)
	if err != nil {
		return chosenStars{}, err
	}
	chosen := k.Targets[0]
	if target != everyTarget {
		if chosen, err = findTarget(k, target); err != nil {
			return chosenStars{}, err
		}
	}
	date, err := dateOf(k, on, p.Clock.Now())
	if err != nil {
		return chosenStars{}, err
	}
	instant, err := p.starsAt(k, date, on, at)
	if err != nil {
		return chosenStars{}, err
	}
	log := checklist.Night{Target: &checklist.Target{Name: chosen.Name, Star: chosen.Star}}
	tonight := facts.For(k, plan.DateOf(k.Site.Place, instant), log, instant, nil)
	return chosenStars{tonight, tonight.StarsAt(instant)}, nil
}

// starsAt returns the instant that was asked for, or the one at which a person would ask.
func (p Program) starsAt(k kit.Kit, date plan.Date, on, at string) (time.Time, error) {
	if at != "" {
		return timeOfNight(k, date, at)
	}
	night := plan.NewNight(k, date)
	now := p.Clock.Now()
	if !k.Example && on == "" && night.Frame.Sun(now).Altitude < sky.CivilTwilight {
		return now, nil
	}
	return duskOf(night), nil
}

// duskOf is when stars are first looked for.
func duskOf(night *plan.Night) time.Time {
	for _, dusk := range []sky.Event{night.Twilight.NauticalDusk, night.Twilight.CivilDusk, night.Twilight.Sunset} {
		if dusk.OK {
			return dusk.At
		}
	}
	return night.Span.From.Add(night.Span.Length() / 2) // a night without dusk: its middle
}

// timeOfNight reads an instant, or a time of day in the night of date: before noon it belongs to the
// morning after.
func timeOfNight(k kit.Kit, date plan.Date, text string) (time.Time, error) {
	clock, err := time.Parse("15:04", strings.TrimSpace(text))
	if err != nil {
		return parseAt(text, k.Site.Zone)
	}
	day := date.Day
	if clock.Hour() < 12 {
		day++
	}
	of := time.Date(date.Year, date.Month, day, 0, 0, 0, 0, time.UTC)
	return parseAt(of.Format(time.DateOnly)+" "+clock.Format("15:04"), k.Site.Zone)
}
