package command

import (
	"runtime/debug"
	"strings"

	"github.com/spf13/cobra"

	"duskhand/sky/words"
	"duskhand/ui/theme"
)

const rootHelp = `duskhand goes through the night with you at an alt-azimuth mount and its field derotator:
set-up, two alignment stars, focus, framing, the countdown to the derotator's limit and every rewind.

Without a command it opens the screens, for the kit file of --kit or else the one it finds:
$XDG_CONFIG_HOME/duskhand/kit.toml (~/.config if that is not set), then the same in each folder of
$XDG_CONFIG_DIRS. When there is none it replays the built-in example night, where a key asks for a kit
of your own and goes on with tonight.

Results go to standard output, messages to standard error. NO_COLOR turns colour off. A locale that is
not UTF-8 (LC_ALL, LC_CTYPE, LANG), a dumb terminal and the old console of Windows get ASCII only.

Exit codes:
  0  done
  1  the request failed: faults in the kit, a line that could not be answered
  2  wrong use: an unknown command or flag, a value that is not taken, no terminal for the screens`

const rootExamples = `  duskhand                                     the screens, for tonight
  duskhand --at "2026-12-05 23:14" --speed 60  a night replayed, a minute each second
  duskhand plan                                tonight's plan as text
  duskhand record                              what was shot, run by run, and what is left
  duskhand room 300 && shoot                   only if 300 s still fit before the rewind
  duskhand kit new                             a kit file of your own`

func (p Program) root() *cobra.Command {
	var named string
	var asked screensAsked
	root := &cobra.Command{
		Use:     "duskhand",
		Short:   "A companion for the night at a mount with a field derotator",
		Long:    rootHelp,
		Example: rootExamples,
		Version: version(),
		Args:    cobra.ArbitraryArgs, // refused below, with suggestions
		RunE: action(func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 {
				return unknownCommand(cmd, args[0])
			}
			return p.screens(named, asked)
		}),
		SilenceErrors:              true,
		SuggestionsMinimumDistance: 2,
		SilenceUsage:               true,
	}
	root.SetVersionTemplate("duskhand {{.Version}}\n")
	root.SetFlagErrorFunc(flagError)
	root.PersistentFlags().StringVar(&named, "kit", "", "the kit file at `PATH` instead of the one that is found")
	flags := root.Flags()
	flags.StringVar(&asked.at, "at", "", "replay from `TIME`: RFC 3339 (2026-12-05T12:44:00Z), or the local time of the kit's zone (\"2026-12-05 23:14\")")
	flags.StringVar(&asked.speed, "speed", "", "in a replay, let `N` seconds of the night pass in one (0.1 to 3600; 1 if not given)")
	flags.StringVar(&asked.palette, "palette", "night", "`NAME` is "+theme.PaletteWords())
	flags.BoolVar(&asked.ascii, "ascii", false, "draw with ASCII characters only")
	root.AddCommand(p.planCommand(&named), p.starsCommand(&named), p.cardCommand(&named), p.frameCommand(&named), p.targetsCommand(&named), p.budgetCommand(&named), p.stepsCommand(), p.recordCommand(&named), p.roomCommand(&named), p.tellCommand(&named),
		p.glanceCommand(&named), p.watchCommand(&named), p.subsCommand(&named), p.solveCommand(&named), p.computeCommand(), p.kitCommand(&named), p.guideCommand(), p.manCommand())
	completeWith(root, "palette", func(*cobra.Command) []string { return paletteNames() })
	completeFiles(root, "kit", "toml")
	root.SetHelpCommand(helpCommand(root))
	return root
}

// unknownCommand names what was meant, as far as that can be told.
func unknownCommand(cmd *cobra.Command, word string) error {
	near := cmd.SuggestionsFor(word)
	if len(near) == 0 {
		for _, c := range cmd.Commands() {
			if c.IsAvailableCommand() {
				near = append(near, c.Name())
			}
		}
		return withHelp(cmd, wrongUsef("%s has no command %q; it has %s", cmd.CommandPath(), word, strings.Join(near, ", ")))
	}
	return withHelp(cmd, wrongUsef("%s has no command %q; did you mean %s?", cmd.CommandPath(), word, words.Either(near)))
}

// version returns what the build says of itself.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "" {
		return "(built without version information)"
	}
	return info.Main.Version
}
