package command

import (
	"github.com/spf13/cobra"

	"duskhand/sky/catalog"
	"duskhand/ui/theme"
)

// completeWith completes a flag's value from a list of words, in capitals or not.
func completeWith(cmd *cobra.Command, flag string, words func(*cobra.Command) []string) {
	must(cmd.RegisterFlagCompletionFunc(flag, func(cmd *cobra.Command, _ []string, begun string) ([]string, cobra.ShellCompDirective) {
		return begunWith(words(cmd), begun), cobra.ShellCompDirectiveNoFileComp
	}))
}

// completeFiles completes a flag's value with files of one ending.
func completeFiles(cmd *cobra.Command, flag, ending string) {
	must(cmd.MarkPersistentFlagFilename(flag, ending))
}

// must stops at a flag that a command does not have, which a test of any command line finds.
func must(err error) {
	if err != nil {
		panic(err)
	}
}

func paletteNames() []string {
	var names []string
	for _, p := range theme.Palettes() {
		names = append(names, p.String())
	}
	return names
}

// targetNames returns the kit's targets, then every deep-sky object by number and name. A kit that
// can't be read gives none: completion is no place for faults.
func (p Program) targetNames(named string) []string {
	var names []string
	if k, _, err := p.openKit(named); err == nil {
		for _, t := range k.Targets {
			names = append(names, t.Name)
		}
	}
	for _, object := range catalog.DeepSky() {
		names = append(names, object.ID)
		if object.Name() != object.ID {
			names = append(names, object.Name())
		}
	}
	return names
}
