package bell

import (
	"fmt"
	"strings"
	"unicode"
)

// Messages is how a terminal shows messages on the desktop, if it does.
type Messages int

// The ways that terminals know. Each is an operating system command of ECMA-48's kind: OSC, a number, the text,
// and a terminator.
const (
	NoMessages Messages = iota
	OSC9                // OSC 9 ; text
	OSC777              // OSC 777 ; notify ; title ; text
	OSC99               // OSC 99 ; ; text, its title alone
)

// MessagesOf returns what the terminal behind the environment is known to show. Those that are not known get
// none: some would print the text on the screen.
//
// Source: the terminals' own documents; the names that they give themselves are in TERM and TERM_PROGRAM.
func MessagesOf(env func(string) string) Messages {
	term, program := env("TERM"), env("TERM_PROGRAM")
	switch {
	case env("TMUX") != "" || strings.HasPrefix(term, "screen") || strings.HasPrefix(term, "tmux"):
		return NoMessages // a multiplexer keeps them to itself
	case strings.Contains(term, "kitty"):
		return OSC99
	case strings.HasPrefix(term, "foot") || strings.HasPrefix(term, "rxvt-unicode"):
		return OSC777
	case program == "iTerm.app" || program == "WezTerm" || program == "ghostty" || env("ConEmuPID") != "":
		return OSC9
	}
	return NoMessages
}

// Message returns what makes a terminal show a text.
func (m Messages) Message(text string) string {
	text = strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) || r == ';' {
			return ','
		}
		return r
	}, text)
	const end = "\x1b\\"
	switch m {
	case OSC9:
		return fmt.Sprintf("\x1b]9;duskhand: %s%s", text, end)
	case OSC777:
		return fmt.Sprintf("\x1b]777;notify;duskhand;%s%s", text, end)
	case OSC99:
		return fmt.Sprintf("\x1b]99;;duskhand: %s%s", text, end)
	}
	return ""
}
