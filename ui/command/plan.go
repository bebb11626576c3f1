package command

import (
	"errors"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"duskhand/plan"
	"duskhand/plan/choose"
	"duskhand/plan/kit"
	"duskhand/plan/share"
	"duskhand/plan/worth"
	"duskhand/sky/catalog"
)

const planLong = `Prints the plan of one night: Sun and Moon, the windows in which each target can be used and why they
open and close, what the Moon takes through each filter, the runs of the derotator with their limits,
the rewinds between them, and how many subs fit. Times are local to the kit's zone; UTC is marked. Each
target is planned as if it had the night to itself; with --divide, or when two targets of the kit have a
share, the night is divided among them: the order and the hand-overs that give each its share with the
fewest rewinds. A night that is never dark, or a target that can't be used, is an answer like any other.

Early and late are the bounds of a limit over all that the mount's axis may be, by axis.uncertainty_deg of
the kit; each run ends before its early bound. What of the dark is neither run nor rewind is said with its
reason, and what it costs that the axis is not known better.

The date is that of the evening; without --on it is that of the night going on, or from sunrise on of the
next, and for the built-in example 2026-12-05.

With --json one JSON document, times UTC as RFC 3339, null for what does not happen:
`

const planExamples = `  duskhand plan
  duskhand plan --on 2026-12-05 --target "Tarantula Nebula"
  duskhand plan --divide
  duskhand plan --svg tonight.svg
  duskhand plan --json | jq '.targets[0].runs[0].limit.early'`

// everyTarget stands for no --target, which an empty name does not: that may be a slip in a script.
const everyTarget = "\x00"

// planned is one night with the plan of each target.
type planned struct {
	night   *plan.Night
	path    string // of the kit file, "" for the example
	targets []plannedTarget
	divided *share.Share  // nil when each target has the night to itself
	moons   *choose.Night // what the Moon does to the targets
}

type plannedTarget struct {
	target kit.Target
	course *plan.Course
	runs   plan.Schedule
	price  plan.Price // of not knowing the axis; none in a divided night
}

func (p Program) planCommand(named *string) *cobra.Command {
	var on, target string
	var asJSON, divide bool
	var page pageAsked
	cmd := &cobra.Command{
		Use:     "plan",
		Short:   "Print the night's plan as text or JSON",
		Long:    planLong + documentHelp(),
		Example: planExamples,
		Args:    noArguments,
		RunE: action(func(cmd *cobra.Command, _ []string) error {
			if !cmd.Flags().Changed("target") {
				target = everyTarget
			}
			night, err := p.plan(*named, on, target)
			if err == nil && (divide || target == everyTarget && shares(night.night.Kit)) {
				err = night.divide(divide)
			}
			switch {
			case err != nil:
				return err
			case cmd.Flags().Changed("svg"):
				return p.writePage(page, night)
			case page.paper:
				return wrongUsef("--paper goes with --svg FILE")
			case asJSON:
				return writePlanJSON(p.Streams.Out, night)
			}
			return writePlanText(p.out(), night)
		}),
	}
	cmd.Flags().StringVar(&on, "on", "", "the night that begins on the evening of `DATE`, as 2026-12-05")
	cmd.Flags().StringVar(&target, "target", "", "only the target `NAME`: one of the kit's, or any name in the catalogue")
	cmd.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	cmd.Flags().BoolVar(&divide, "divide", false, "divide the night among the targets, evenly if the kit gives them no shares")
	cmd.Flags().StringVar(&page.path, "svg", "", "write the night's chart and the field as a picture to `FILE`, or to standard output for -")
	cmd.Flags().BoolVar(&page.paper, "paper", false, "with --svg: for paper, dark on white, instead of red on black")
	cmd.Flags().BoolVar(&page.force, "force", false, "with --svg: write over FILE")
	completeWith(cmd, "target", func(*cobra.Command) []string { return p.targetNames(*named) })
	return cmd
}

// plan plans the night of each target.
func (p Program) plan(named, on, target string) (planned, error) {
	result, err := p.courses(named, on, target)
	for i, t := range result.targets {
		result.targets[i] = planTarget(result.night, t.course, t.target)
	}
	return result, err
}

// planTarget plans one target that has the night to itself.
func planTarget(night *plan.Night, course *plan.Course, target kit.Target) plannedTarget {
	start, sequence := plan.Start{At: night.Span.From}, worth.Sequence(night, target)
	return plannedTarget{target, course, course.Schedule(start, sequence), course.Price(start, sequence)}
}

// courses returns the night and where each target stands in it, with nothing planned yet.
func (p Program) courses(named, on, target string) (planned, error) {
	k, path, err := p.openKit(named)
	if err != nil {
		return planned{}, err
	}
	date, err := dateOf(k, on, p.Clock.Now())
	if err != nil {
		return planned{}, err
	}
	targets := k.Targets
	if target != everyTarget {
		one, err := findTarget(k, target)
		if err != nil {
			return planned{}, err
		}
		targets = []kit.Target{one}
	}
	result := planned{night: plan.NewNight(k, date), path: path}
	result.moons = choose.NewNight(result.night, k.Axis, nil)
	for _, t := range targets {
		result.targets = append(result.targets, plannedTarget{target: t, course: result.night.Course(t, k.Axis)})
	}
	return result, nil
}

// shares tells whether the kit divides its nights.
func shares(k kit.Kit) bool {
	some := 0
	for _, target := range k.Targets {
		if target.Share > 0 {
			some++
		}
	}
	return some > 1
}

// divide plans the targets one after the other instead of each for itself. asked is what the person typed: the
// kit's own shares must not make a plan fail that one target alone can have.
func (p *planned) divide(asked bool) error {
	var wishes []share.Wish
	for _, t := range p.targets {
		weight := t.target.Share
		if !shares(p.night.Kit) {
			weight = 1
		}
		if weight > 0 {
			wishes = append(wishes, share.Wish{Target: t.target, Weight: weight, Subs: worth.Sequence(p.night, t.target)})
		}
	}
	if asked && len(wishes) < 2 {
		return wrongUsef("--divide needs two targets or more; the kit has %d", len(wishes))
	}
	s, err := share.Divide(p.night, p.night.Kit.Axis, nil, wishes, share.UsualRules())
	if err != nil {
		return fmt.Errorf("dividing the night: %w", err)
	}
	p.divided, p.targets = &s, nil
	for _, stretch := range s.Stretches {
		p.targets = append(p.targets, plannedTarget{target: stretch.Target, course: stretch.Course, runs: stretch.Runs})
	}
	return nil
}

func dateOf(k kit.Kit, on string, now time.Time) (plan.Date, error) {
	switch {
	case on != "":
		date, err := plan.ParseDate(on)
		if err != nil {
			return date, wrongUsef("--on: %w", err)
		}
		return date, withinYears("--on", date.Year)
	case k.Example:
		return plan.DateOf(k.Site.Place, exampleStart()), nil
	}
	return comingNight(k, now), nil
}

// comingNight returns the date of the night that is going on, or from sunrise on of the next: who asks in
// the morning asks for the evening to come.
func comingNight(k kit.Kit, now time.Time) plan.Date {
	date := plan.DateOf(k.Site.Place, now)
	if sunrise := plan.NewNight(k, date).Twilight.Sunrise; sunrise.OK && now.After(sunrise.At) {
		return plan.DateOf(k.Site.Place, now.Add(24*time.Hour))
	}
	return date
}

// findTarget returns the kit's target of that name, by any name that the catalogue knows it by, or else
// the catalogue's object.
func findTarget(k kit.Kit, name string) (kit.Target, error) {
	target, err := k.FindTarget(name)
	var stranger *catalog.UnknownNameError
	if errors.As(err, &stranger) {
		return kit.Target{}, wrongUsef("--target: %w", err)
	}
	return target, err
}

// noArguments refuses words after a command that takes none.
func noArguments(cmd *cobra.Command, args []string) error {
	if len(args) > 0 {
		return withHelp(cmd, wrongUsef("%s takes no %q; values go with flags", cmd.CommandPath(), args[0]))
	}
	return nil
}
