package command

import (
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// helpCommand is help as a command, which refuses a topic that there is none of.
func helpCommand(root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND]",
		Short: "Help about a command",
		Long:  "Prints what a command does, its flags and examples; without one, what there is.",
		Args:  cobra.ArbitraryArgs, // refused below, in our words
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return commandNames(root), cobra.ShellCompDirectiveNoFileComp
		},
		RunE: action(func(_ *cobra.Command, topic []string) error {
			about, rest, err := root.Find(topic)
			if err != nil || len(rest) > 0 {
				return wrongUsef("there is no help about %q; there is about %s", strings.Join(topic, " "), strings.Join(commandNames(root), ", "))
			}
			about.InitDefaultHelpFlag() // cobra adds it only to the command that it runs
			return about.Help()
		}),
	}
}

func commandNames(cmd *cobra.Command) (names []string) {
	for _, c := range cmd.Commands() {
		if c.IsAvailableCommand() {
			names = append(names, c.Name())
		}
	}
	return names
}

// refuseUnknownShells makes the command of completions say what it takes, where cobra's prints help and succeeds.
func refuseUnknownShells(root *cobra.Command) {
	root.InitDefaultCompletionCmd()
	for _, c := range root.Commands() {
		if c.Name() != "completion" {
			continue
		}
		c.Args = cobra.ArbitraryArgs
		c.RunE = action(func(cmd *cobra.Command, shell []string) error {
			return withHelp(cmd, wrongUsef("there are no completions for %q; say for which shell: %s",
				strings.Join(shell, " "), strings.Join(commandNames(cmd), ", ")))
		})
	}
}

// withoutMarks takes the backticks out of what flags say of themselves: help needs them to find the name of the
// value, and completions would show them.
func withoutMarks(cmd *cobra.Command) {
	for _, flags := range []*pflag.FlagSet{cmd.Flags(), cmd.PersistentFlags()} {
		flags.VisitAll(func(f *pflag.Flag) { f.Usage = strings.ReplaceAll(f.Usage, "`", "") })
	}
	for _, c := range cmd.Commands() {
		withoutMarks(c)
	}
}
