// Package command is the program as the shell sees it: arguments, streams, environment and exit codes.
// It finds the kit, wires the parts together and holds no knowledge of the sky.
//
// Everything it touches is handed in, so that tests run the very program in a folder of their own.
package command

import (
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"duskhand/sky/foreign"
	"duskhand/ui"
	"duskhand/ui/clock"
)

// Program is duskhand with everything that it touches.
type Program struct {
	Streams Streams
	Env     func(name string) string // an environment variable, "" when it is not set
	Clock   clock.Clock              // the world's time
	Screens func(ui.Config) error    // shows the screens until the person leaves
}

// Main runs the program once and returns its exit code.
func Main(args []string, streams Streams, env func(string) string, now clock.Clock) int {
	return Program{Streams: streams, Env: env, Clock: now, Screens: ui.Run}.Run(args)
}

// Run runs one command line, without the program's name, and returns the exit code: Done, Failed or
// WrongUse. What went wrong stands on the stream for messages.
func (p Program) Run(args []string) int {
	root := p.root()
	root.SetArgs(append([]string{}, args...)) // never nil, which would mean the process's own
	root.SetIn(p.Streams.In)
	root.SetOut(p.Streams.Out)
	root.SetErr(p.Streams.Err)
	refuseUnknownShells(root) // after the streams, which cobra's completions take when they are made
	if len(args) > 0 && (args[0] == cobra.ShellCompRequestCmd || args[0] == cobra.ShellCompNoDescRequestCmd) {
		withoutMarks(root)
	}
	err := root.Execute()
	p.complain(err)
	return exitCode(err)
}

func (p Program) complain(err error) {
	var faults faultList
	var answer verdict
	switch {
	case err == nil, errors.As(err, &answer):
	case errors.As(err, &faults): // each line begins with file and line, as other tools can read
		fmt.Fprintln(p.messages(), err)
	default:
		fmt.Fprintf(p.messages(), "duskhand: %v\n", err)
	}
}

// out returns where results in plain text go: in ASCII if the locale asks for it, and nothing in it that a
// terminal obeys, whoever wrote the names.
func (p Program) out() io.Writer {
	return foreign.Writer{To: p.linesOut(false)}
}

// messages returns where what the program has to say beside its results goes.
func (p Program) messages() io.Writer { return foreign.Writer{To: p.Streams.Err} }

// withHelp names the help of a command below what was wrong with its use.
func withHelp(cmd *cobra.Command, err error) error {
	return wrongUse(fmt.Errorf("%w\nsee %s --help", err, cmd.CommandPath()))
}
