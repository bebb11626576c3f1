package ui

import (
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/ui/clock"
)

// The messages that are the root's own.

// tickMsg comes once a second of the night's clock, from tick. Generation tells ticks from before a
// resume, which are dropped.
type tickMsg struct{ generation int }

// kitOpenedMsg comes from kitWritten: what to go on with, now that a new kit is on the disk.
type kitOpenedMsg struct {
	config Config
	err    error
}

// nightClosedMsg comes from kitOpened: the night that showed before is let go, and the new one can be opened.
type nightClosedMsg struct{ err error }

// tick waits for the next second of the night. A clock that is led by somebody needs none.
func tick(c clock.Clock, generation int) tea.Cmd {
	if !c.Ticks() {
		return nil
	}
	return tea.Tick(c.UntilNextSecond(), func(time.Time) tea.Msg { return tickMsg{generation} })
}
