package command

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"duskhand/plan/kit"
)

// The exit codes.
const (
	Done     = 0
	Failed   = 1 // the request was understood and could not be carried out: faults, lines that failed
	WrongUse = 2 // an unknown command or flag, or a value that no flag takes
)

// failure is an error of what was asked, not of how it was asked.
type failure struct{ error }

func (f failure) Unwrap() error { return f.error }

// misuse is an error of how it was asked.
type misuse struct{ error }

func (m misuse) Unwrap() error { return m.error }

// verdict is an exit code that answers what was asked; it is no error.
type verdict int

func (v verdict) Error() string { return fmt.Sprintf("the answer is exit code %d", int(v)) }

func wrongUse(err error) error { return misuse{err} }

func wrongUsef(format string, args ...any) error { return misuse{fmt.Errorf(format, args...)} }

// faultList is what a kit's faults look like to errors.As.
type faultList = kit.Faults

// exitCode counts as misuse what is no failure: errors that cobra made before any command ran.
func exitCode(err error) int {
	var failed failure
	var misused misuse
	var answer verdict
	switch {
	case err == nil:
		return Done
	case errors.As(err, &answer):
		return int(answer)
	case errors.As(err, &misused):
		return WrongUse
	case errors.As(err, &failed):
		return Failed
	}
	return WrongUse
}

// action makes a command's body of f: any error that f does not call wrong use is a failure.
func action(f func(cmd *cobra.Command, args []string) error) func(*cobra.Command, []string) error {
	return func(cmd *cobra.Command, args []string) error {
		if at := cmd.Flags().Lookup("at"); at != nil && at.Changed && strings.TrimSpace(at.Value.String()) == "" {
			return wrongUsef("--at is empty, as from a variable that is not set; give an instant, as 2026-12-05T12:44:00Z, or leave --at out")
		}
		err := f(cmd, args)
		var misused misuse
		switch {
		case err == nil:
			return nil
		case errors.As(err, &misused):
			return err
		}
		return failure{err}
	}
}
