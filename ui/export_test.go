package ui

import (
	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist/subs/arrival"
	"duskhand/checklist/subs/watch"
	"duskhand/ui/draw"
	"duskhand/ui/keys"
)

// Tick is the message that a second has passed, for tests that lead the clock.
func (m Model) Tick() tea.Msg { return tickMsg{m.generation} }

// Close lets the journal go, as Run does when the person leaves.
func (m Model) Close() error { return m.close() }

// Keys returns the table of keys as it stands.
func (m Model) Keys() keys.Table { return m.keys }

// Stack and Part open the layout to its tests.
type Part = part

func NewPart(name string, rows, min, rank int) Part { return part{name, rows, min, rank} }

func Stack(height int, parts []Part, stretch string) map[string][2]int {
	out := map[string][2]int{}
	for name, b := range stack(height, parts, stretch) {
		out[name] = [2]int{b.top, b.height}
	}
	return out
}

var (
	Countdown    = countdown
	Duration     = duration
	Letters      = compassLetters
	WholeDegrees = wholeDegrees
)

// MessageText is what makes a terminal show a text on the desktop.
func MessageText(m Messages, text string) string { return m.message(text) }

// Reported is the message that the watch has read a frame.
func Reported(f arrival.Frame) tea.Msg {
	ended := make(chan watch.Report)
	close(ended)
	return reportedMsg{report: watch.Report{Frame: &f}, reports: ended}
}

// Config is what the program was given.
func (m Model) Config() Config { return m.config }

// Drawn returns the program as it stands with a config that draws it otherwise: palette, charset, colours.
func (m Model) Drawn(change func(*Config)) Model {
	if change != nil {
		change(&m.config)
	}
	m.theme, m.grid = m.config.theme(), draw.NewGrid(0, 0)
	return m
}
