package command

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/words"
	"duskhand/ui/say"
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
	_, err = fmt.Fprintf(p.out(), "%s is in order.\n%s%s%s\n%s", path, own, summary(k), say.SeenThere(k.Site, p.Clock.Now()), clockSummary(checkClock(p.Clock.Machine(), k.Site, p.Clock.Now())))
	return err
}

// summary says in a few lines what a kit holds, so that a slip that is no fault is seen.
func summary(k kit.Kit) string {
	var targets []string
	for _, t := range k.Targets {
		targets = append(targets, t.Name)
	}
	width, height := k.Field()
	return fmt.Sprintf("%s, %s %s, %s; targets: %s\n%s per pixel, field %s × %s; derotator %s to %s, travel %s\n",
		k.Site.Name, words.Latitudes().Decimal(k.Site.Place.Latitude, 2), words.Longitudes().Decimal(k.Site.Place.Longitude, 2), k.Site.Zone,
		strings.Join(targets, ", "), words.Arcseconds(sky.Angle(k.ScaleArcsecPerPixel())*sky.Arcsecond, 2), words.Degrees(width, 2), words.Degrees(height, 2),
		words.Degrees(k.Derotator.Min, 1), words.Degrees(k.Derotator.Max, 1), words.Degrees(k.Derotator.Travel(), 1))
}
