package command

import (
	"strings"

	"github.com/muesli/termenv"
)

// noColor tells whether the person wants no colour: NO_COLOR set and not empty (no-color.org).
func (p Program) noColor() bool { return p.Env("NO_COLOR") != "" }

// asciiLocale tells whether words and drawings must do with ASCII: the locale is of another encoding than UTF-8, or
// the terminal says that it is dumb, or it is the old console of Windows. A locale that is not set says nothing, and
// terminals of today take UTF-8.
func (p Program) asciiLocale() bool {
	if p.Streams.OutTerminal && p.Env("TERM") == "dumb" {
		return true
	}
	locale := p.locale()
	if locale == "" {
		return p.Streams.OutTerminal && p.oldWindowsConsole()
	}
	encoding := strings.ReplaceAll(strings.ToLower(locale), "-", "")
	return !strings.Contains(encoding, "utf8")
}

// oldWindowsConsole tells whether this is the console that came before Windows Terminal: its fonts lack most of
// what drawings are made of. Windows sets OS for every program; Windows Terminal says that it is one by WT_SESSION,
// others by TERM_PROGRAM or TERM.
func (p Program) oldWindowsConsole() bool {
	return p.Env("OS") == "Windows_NT" && p.Env("WT_SESSION") == "" && p.Env("TERM_PROGRAM") == "" && p.Env("TERM") == ""
}

// locale returns the one that decides on characters, by the order of POSIX (Base Definitions, 8.2).
func (p Program) locale() string {
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if value := p.Env(name); value != "" {
			return value
		}
	}
	return ""
}

// profile returns what colours the terminal has, whether the person wants them or not.
func (p Program) profile() termenv.Profile {
	return termenv.NewOutput(p.Streams.Out, termenv.WithEnvironment(variables(p.Env)), termenv.WithTTY(p.Streams.OutTerminal)).ColorProfile()
}

// variables is the environment as termenv wants it.
type variables func(string) string

// Getenv returns one variable.
func (v variables) Getenv(name string) string { return v(name) }

// Environ returns nothing: no more is asked for than single variables.
func (v variables) Environ() []string { return nil }
