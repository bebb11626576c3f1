package command

import (
	"github.com/spf13/cobra"

	"duskhand/plan/kit"
	"duskhand/ui/keys"
)

const kitLong = `The kit file holds what you bring to the night: site, mount, derotator, optics, camera, horizon, subs
and targets, as TOML. It is either right or refused with every fault in it.`

func (p Program) kitCommand(named *string) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "kit",
		Short: "Make, check and explain the kit file",
		Long:  kitLong,
		Example: "  duskhand kit new        a file of your own, asked step by step\n" +
			"  duskhand kit check      whether it is in order\n" +
			"  duskhand kit reference  every key of it",
		Args: cobra.ArbitraryArgs,
		RunE: action(func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 {
				return unknownCommand(cmd, args[0])
			}
			return withHelp(cmd, wrongUsef("say what about the kit: duskhand kit check, new or reference"))
		}),
		SuggestionsMinimumDistance: 2,
	}
	cmd.AddCommand(p.kitCheckCommand(named), p.kitNewCommand(named), p.kitReferenceCommand())
	return cmd
}

func (p Program) kitReferenceCommand() *cobra.Command {
	return &cobra.Command{
		Use:     "reference",
		Short:   "Print every key of the kit file, as Markdown",
		Long:    "Prints what each key of the kit file means, its unit, range and default, and an example, as Markdown.",
		Example: "  duskhand kit reference | less",
		Args:    noArguments,
		RunE: action(func(*cobra.Command, []string) error {
			_, err := p.out().Write(kit.Reference(keys.KitRows()...))
			return err
		}),
	}
}

// pathFrom returns the one path that argument or flag names, "" if neither does.
func pathFrom(cmd *cobra.Command, args []string, named string) (string, error) {
	switch {
	case len(args) > 1:
		return "", withHelp(cmd, wrongUsef("%s takes one path, and was given %d", cmd.CommandPath(), len(args)))
	case len(args) == 1 && named != "" && args[0] != named:
		return "", withHelp(cmd, wrongUsef("%s was given two paths, %s and --kit %s; leave one out", cmd.CommandPath(), args[0], named))
	case len(args) == 1:
		return args[0], nil
	}
	return named, nil
}
