package theme

import "github.com/charmbracelet/lipgloss"

// init answers, before anybody asks, whether the terminal's ground is dark.
//
// House rules want no work in init; this is the exception, and it saves some. Merely importing bubbletea
// makes it ask the terminal for its colours at start (its tea_init.go), with a wait of seconds where
// nobody answers, even for a command that prints one line into a pipe. Once the answer is set it does not
// ask. It works because this package imports lipgloss and not bubbletea, and sorts before it, so that it
// is initialised first. No style of ours depends on the answer.
func init() { lipgloss.SetHasDarkBackground(true) }
