package command

import (
	"fmt"
	"math"
	"time"

	"github.com/spf13/cobra"

	"duskhand/checklist"
	"duskhand/checklist/subs/watch"
	"duskhand/plan"
	"duskhand/plan/supplies"
	"duskhand/ui/facts"
)

const budgetLong = `Says what the night asks for and what there is of it: how long the subs of a target should be through each
filter, what they take of the disk, whether the battery lasts from sunset to sunrise, and how near the dew
is. What the kit does not give takes away only the answers that need it, and is named.

Without --at the instant is the beginning of the target's first window, once guiding has settled. The dew
needs --temperature and --humidity, of the air beside the telescope. What is free is looked up at --folder,
or at the first of watch.folders of the kit.

With --json one JSON document:
`

const budgetExamples = `  duskhand budget
  duskhand budget --target "NGC 1365" --temperature 11.5 --humidity 85
  duskhand budget --star 7.5 --signal 30
  duskhand budget --folder /home/me/subs --json | jq .filters`

// budgetAsked is what the person said, as typed.
type budgetAsked struct {
	on, at, target, folder string
	temperatureC, humidity float64
	star, signalToNoise    float64
	asJSON                 bool
}

// budget is what the command prints.
type budget struct {
	run      facts.Run
	subs     facts.SubLengths
	supplies facts.Supplies
}

func (p Program) budgetCommand(named *string) *cobra.Command {
	var asked budgetAsked
	cmd := &cobra.Command{
		Use:     "budget",
		Short:   "Say how long subs should be, and whether disk and battery last",
		Long:    budgetLong + helpOf[budgetDocument](),
		Example: budgetExamples,
		Args:    noArguments,
		RunE: action(func(cmd *cobra.Command, _ []string) error {
			if !cmd.Flags().Changed("target") {
				asked.target = everyTarget
			}
			b, err := p.budget(*named, asked)
			switch {
			case err != nil:
				return err
			case asked.asJSON:
				return writeJSON(p.Streams.Out, budgetDocumentOf(b))
			}
			return writeBudgetText(p.out(), b)
		}),
	}
	flags := cmd.Flags()
	flags.StringVar(&asked.on, "on", "", "the night that begins on the evening of `DATE`, as 2026-12-05")
	flags.StringVar(&asked.at, "at", "", "the instant `TIME`: RFC 3339, \"2026-12-05 21:05\", or 21:05 of that night")
	flags.StringVar(&asked.target, "target", "", "for the target `NAME`; the kit's first if not given")
	flags.StringVar(&asked.folder, "folder", "", "the subs go to the folder at `PATH`")
	numberVar(flags, &asked.temperatureC, "temperature", math.NaN(), "of the air, `DEGREES` Celsius")
	numberVar(flags, &asked.humidity, "humidity", math.NaN(), "of the air, relative, in `PERCENT`")
	numberVar(flags, &asked.star, "star", math.NaN(), "how long a star of `MAGNITUDE` may be exposed before it burns out")
	numberVar(flags, &asked.signalToNoise, "signal", 0, "how many subs give this `RATIO` of signal to noise over a square second of arc")
	flags.BoolVar(&asked.asJSON, "json", false, "print JSON")
	for _, air := range []string{"temperature", "humidity", "star", "signal"} {
		flags.Lookup(air).DefValue = "0" // which the help leaves out; not given is not a number
	}
	completeWith(cmd, "target", func(*cobra.Command) []string { return p.targetNames(*named) })
	return cmd
}

// starWanted is the star's magnitude, nil if none was given.
func (asked budgetAsked) starWanted() *float64 {
	if math.IsNaN(asked.star) {
		return nil
	}
	return &asked.star
}

func (p Program) budget(named string, asked budgetAsked) (budget, error) {
	k, _, err := p.openKit(named)
	if err != nil {
		return budget{}, err
	}
	target := k.Targets[0]
	if asked.target != everyTarget {
		if target, err = findTarget(k, asked.target); err != nil {
			return budget{}, err
		}
	}
	date, err := dateOf(k, asked.on, p.Clock.Now())
	if err != nil {
		return budget{}, err
	}
	log := checklist.Night{Target: &checklist.Target{Name: target.Name, Star: target.Star}}
	at := plan.NewNight(k, date).Span.From
	if asked.at != "" {
		if at, err = timeOfNight(k, date, asked.at); err != nil {
			return budget{}, err
		}
		date = plan.DateOf(k.Site.Place, at)
	}
	run := facts.For(k, date, log, at, nil).At(at)
	folder := asked.folder
	if folder == "" && len(k.Watch.Folders) > 0 {
		folder = k.Watch.Folders[0]
	}
	b := budget{run: run, subs: run.SubLengthsFor(run.Target, asked.starWanted(), asked.signalToNoise), supplies: run.SuppliesAt(freeAt(folder))}
	return b, b.air(asked)
}

// air takes in what was said of it.
func (b *budget) air(asked budgetAsked) error {
	c, humidity := asked.temperatureC, asked.humidity
	if math.IsNaN(c) && math.IsNaN(humidity) {
		b.supplies.DewNone = "Dew: give the air's --temperature and --humidity to know how near it is."
		return nil
	}
	if math.IsNaN(c) || math.IsNaN(humidity) {
		return wrongUsef("--temperature and --humidity go together: the dew point needs both; give them as --temperature 11.5 --humidity 85")
	}
	dew, err := supplies.DewIn(supplies.Air{TemperatureC: c, HumidityPercent: humidity})
	if err != nil {
		return wrongUsef("--temperature, --humidity: %w", err)
	}
	b.supplies.Dew, b.supplies.DewOK, b.supplies.DewAt = dew, true, time.Time{}
	return nil
}

// freeAt looks up what the disk under a folder has left.
func freeAt(folder string) facts.Disk {
	if folder == "" {
		return facts.Disk{None: "Give --folder, or watch.folders in the kit, to know whether the disk holds them."}
	}
	free, err := watch.FreeBytes(folder)
	if err != nil {
		return facts.Disk{None: fmt.Sprintf("What is free at %s could not be found: %v.", folder, err)}
	}
	return facts.Disk{FreeBytes: int64(min(free, math.MaxInt64)), OK: true}
}
