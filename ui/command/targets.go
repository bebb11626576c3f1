package command

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"time"

	"github.com/charmbracelet/x/ansi"
	"github.com/spf13/cobra"

	"duskhand/checklist/journal"
	"duskhand/plan"
	"duskhand/plan/choose"
	"duskhand/plan/kit"
	"duskhand/sky/catalog"
	"duskhand/ui/facts"
)

const targetsLong = `Ranks the kit's targets and all objects of the catalogue for one night, and says why each stands where
it does. Worth is the time that a target is up, times one share each for the derotator's turning, for
height, for moonlight, for its size on the chip, for what earlier nights of the journal have left to do,
and for how well the filters suit its light: hours at the zenith under a dark sky, without a rewind.
Height and moonlight are those of the filters that it would be taken through. In a night that is going
on only what is left of it counts.

--type is one of ` + "%s" + `.

With --year NAME the nights of one target for a year from the date on: each night's usable hours without the
Moon, and when it is best.

With --json one JSON document:
`

const targetsExamples = `  duskhand targets
  duskhand targets --type galaxy --fits --one-run
  duskhand targets --on 2026-12-24 --constellation Orion --least 3
  duskhand targets --year "NGC 2070"`

// targetsAsked is what the person said, as typed.
type targetsAsked struct {
	on, objectType, constellation, namePart, year string
	oneRun, fits, asJSON                          bool
	leastHours                                    float64
	top                                           int
}

// topShown is how many targets are listed when nothing is said.
const topShown = 10

func (p Program) targetsCommand(named *string) *cobra.Command {
	var asked targetsAsked
	cmd := &cobra.Command{
		Use:   "targets",
		Short: "Rank targets for a night, or the nights of a year for one",
		Long: fmt.Sprintf(targetsLong, ansi.Wordwrap(strings.Join(catalog.Types(), ", "), 90, "")) + helpOf[targetsDocument]() +
			"\n\nand with --year:\n" + helpOf[yearDocument](),
		Example: targetsExamples,
		Args:    noArguments,
		RunE: action(func(cmd *cobra.Command, _ []string) error {
			if cmd.Flags().Changed("year") {
				return p.writeYear(*named, asked)
			}
			return p.writeTargets(*named, asked, cmd.Flags().Changed("top"))
		}),
	}
	flags := cmd.Flags()
	flags.StringVar(&asked.on, "on", "", "the night that begins on the evening of `DATE`, as 2026-12-05")
	flags.StringVar(&asked.objectType, "type", "", "only objects of `TYPE`, as \"open cluster\"")
	flags.StringVar(&asked.constellation, "constellation", "", "only in `NAME`, as Ori or Orion")
	flags.StringVar(&asked.namePart, "name", "", "only with `PART` in one of the names")
	flags.BoolVar(&asked.oneRun, "one-run", false, "only what the derotator lasts through without a rewind")
	flags.BoolVar(&asked.fits, "fits", false, "only what fits the chip with room")
	numberVar(flags, &asked.leastHours, "least", 0, "only what is up for `HOURS` or more, as 2.5")
	flags.IntVar(&asked.top, "top", topShown, "list `N` targets; JSON lists all if not given")
	flags.StringVar(&asked.year, "year", "", "the year of the target `NAME`: one of the kit's, or any name in the catalogue")
	flags.BoolVar(&asked.asJSON, "json", false, "print JSON")
	for _, other := range []string{"type", "constellation", "name", "one-run", "fits", "least", "top"} {
		cmd.MarkFlagsMutuallyExclusive("year", other)
	}
	completeWith(cmd, "year", func(*cobra.Command) []string { return p.targetNames(*named) })
	completeWith(cmd, "type", func(*cobra.Command) []string { return catalog.Types() })
	return cmd
}

// picked reads what the list is limited to.
func (asked targetsAsked) picked() (facts.Picked, error) {
	picked := facts.Picked{NamePart: strings.TrimSpace(asked.namePart), OneRun: asked.oneRun, Fits: asked.fits}
	if asked.objectType != "" {
		at := slices.IndexFunc(catalog.Types(), func(t string) bool { return strings.EqualFold(t, strings.TrimSpace(asked.objectType)) })
		if at < 0 {
			return picked, wrongUsef("--type is %q; give one of %s", asked.objectType, strings.Join(catalog.Types(), ", "))
		}
		picked.Type = catalog.Types()[at]
	}
	if asked.constellation != "" {
		if picked.Constellation = facts.ConstellationNamed(strings.TrimSpace(asked.constellation)); picked.Constellation == "" {
			return picked, wrongUsef("--constellation is %q, and no object of the catalogue lies in one of that name; give the IAU's abbreviation or the Latin name, as Ori or Orion", asked.constellation)
		}
	}
	switch {
	case !(asked.leastHours >= 0 && asked.leastHours <= 24):
		return picked, wrongUsef("--least is %g hours; give 0 to 24", asked.leastHours)
	case asked.top < 1:
		return picked, wrongUsef("--top is %d; give 1 or more", asked.top)
	}
	picked.AtLeast = time.Duration(asked.leastHours * float64(time.Hour))
	return picked, nil
}

// rankedTargets is what the command prints.
type rankedTargets struct {
	facts.Ranking
	night *plan.Night
	shown int // of the choices
}

func (p Program) writeTargets(named string, asked targetsAsked, topGiven bool) error {
	ranked, err := p.rankTargets(named, asked)
	if err != nil {
		return err
	}
	ranked.shown = len(ranked.Choices)
	if !asked.asJSON || topGiven {
		ranked.shown = min(ranked.shown, asked.top)
	}
	if asked.asJSON {
		return writeJSON(p.Streams.Out, targetsDocumentOf(ranked))
	}
	return writeTargetsText(p.out(), ranked)
}

func (p Program) rankTargets(named string, asked targetsAsked) (rankedTargets, error) {
	picked, err := asked.picked()
	if err != nil {
		return rankedTargets{}, err
	}
	k, _, err := p.openKit(named)
	if err != nil {
		return rankedTargets{}, err
	}
	date, err := dateOf(k, asked.on, p.Clock.Now())
	if err != nil {
		return rankedTargets{}, err
	}
	night := plan.NewNight(k, date)
	q := facts.RankingQuestion{Date: date, Axis: k.Axis, Picked: picked}
	if now := p.Clock.Now(); !k.Example && asked.on == "" && len(night.Dark) > 0 && now.After(night.Dark[0].From) && now.Before(night.Span.To) {
		q.From = now.Truncate(time.Minute)
	}
	goals, err := p.goals(k, date)
	if err != nil {
		fmt.Fprintf(p.messages(), "duskhand: what earlier nights have left to do is not counted: %v\n", err)
	}
	tell, done := p.progress("targets looked at")
	ranking, err := facts.Rank(context.Background(), night, q, choose.Targets(night.Kit), goals, tell)
	done()
	return rankedTargets{Ranking: ranking, night: night}, err
}

// goals returns what earlier nights have left to do, by the journal if there is one.
func (p Program) goals(k kit.Kit, date plan.Date) (goals map[string]choose.Goal, err error) {
	if k.Example {
		return nil, nil
	}
	j, err := journal.OpenReader(p.journalPath())
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, j.Close()) }()
	events, err := j.Since(0)
	return facts.GoalsOf(k, events, date, p.Clock.Now()), err
}

// progress returns what tells a person at a terminal, each half second, how far a long computation has come, and
// what wipes that away.
func (p Program) progress(of string) (tell func(done, total int), done func()) {
	if !p.Streams.OutTerminal {
		return nil, func() {}
	}
	ticker, told := time.NewTicker(500*time.Millisecond), 0
	tell = func(done, total int) {
		select {
		case <-ticker.C:
			line := fmt.Sprintf("%d of %d %s", done, total, of)
			told = max(told, len(line))
			fmt.Fprintf(p.Streams.Err, "\r%-*s", told, line)
		default:
		}
	}
	return tell, func() {
		ticker.Stop()
		if told > 0 {
			fmt.Fprintf(p.Streams.Err, "\r%*s\r", told, "")
		}
	}
}
