package command

import (
	"runtime"
	"strings"

	"github.com/muesli/termenv"
)

// noColor tells whether the person wants no colour: NO_COLOR set and not empty (no-color.org).
func (p Program) noColor() bool { return p.Env("NO_COLOR") != "" }

// asciiLocale tells whether the locale is of another encoding than UTF-8. A locale that is not set says
// nothing, and terminals of today take UTF-8.
func (p Program) asciiLocale() bool {
	if runtime.GOOS == "windows" {
		return false // its consoles take Unicode and its locale variables mean nothing
	}
	locale := p.locale()
	if locale == "" {
		return false
	}
	encoding := strings.ReplaceAll(strings.ToLower(locale), "-", "")
	return !strings.Contains(encoding, "utf8")
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
