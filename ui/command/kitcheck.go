package command

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"duskhand/plan/kit"
	"duskhand/ui/facts"
)

const kitCheckLong = `Reads the kit file and says in a few lines what it found, or prints every fault on standard error, each
with file, line and what would be right, and ends with exit code 1.`

func (p Program) kitCheckCommand(named *string) *cobra.Command {
	return &cobra.Command{
		Use:     "check [PATH]",
		Short:   "Check a kit file",
		Long:    kitCheckLong,
		Example: "  duskhand kit check\n  duskhand kit check ./garden.toml",
		Args:    cobra.ArbitraryArgs,
		RunE: action(func(cmd *cobra.Command, args []string) error {
			asked, err := pathFrom(cmd, args, *named)
			if err != nil {
				return err
			}
			return p.kitCheck(asked)
		}),
	}
}

func (p Program) kitCheck(asked string) error {
	path, err := p.findKit(asked)
	if err != nil {
		return err
	}
	if path == "" {
		return fmt.Errorf("there is no kit file in %s; make one with: duskhand kit new", strings.Join(p.kitPaths(), ", "))
	}
	k, err := readKit(path)
	if err != nil {
		return err
	}
	_, own, err := stepsBeside(path)
	if err != nil {
		return err
	}
	if own != "" {
		own += " is in order.\n"
	}
	_, err = fmt.Fprintf(p.out(), "%s is in order.\n%s%s%s\n%s", path, own, summary(k), facts.PlaceFacts(k.Site, p.Clock.Now()), clockSummary(checkClock(p.Clock.Machine(), k.Site, p.Clock.Now())))
	return err
}

// summary says in a few lines what a kit holds, so that a slip that is no fault is seen.
func summary(k kit.Kit) string {
	var targets []string
	for _, t := range k.Targets {
		targets = append(targets, t.Name)
	}
	width, height := k.Field()
	return fmt.Sprintf("%s, %s %s, %s; targets: %s\n%.2f″ per pixel, field %.2f° × %.2f°; derotator %s to %s, travel %s\n",
		k.Site.Name, hemisphere(k.Site.Place.Latitude, "N", "S"), hemisphere(k.Site.Place.Longitude, "E", "W"), k.Site.Zone,
		strings.Join(targets, ", "), k.ScaleArcsecPerPixel(), width.Degrees(), height.Degrees(),
		tenth(k.Derotator.Min), tenth(k.Derotator.Max), tenth(k.Derotator.Travel()))
}
