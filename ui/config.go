// Package ui holds the screens: what a person sees and says in the night. It computes no astronomy; what
// it shows is derived by package facts, and drawn cell by cell on a grid of the window's size.
package ui

import (
	"context"
	"fmt"
	"io"
	"os"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"

	"duskhand/checklist"
	"duskhand/checklist/subs/watch"
	"duskhand/plan/kit"
	"duskhand/ui/bell"
	"duskhand/ui/clock"
	"duskhand/ui/draw"
	"duskhand/ui/facts"
	"duskhand/ui/page"
	"duskhand/ui/paint"
	"duskhand/ui/session"
	"duskhand/ui/terminal"
	"duskhand/ui/theme"
)

// Config is all that the screens are given.
type Config struct {
	Kit           kit.Kit
	Steps         checklist.List // the program's own, if there is no other
	KitPath       string         // what the journal notes as the night's kit
	Clock         clock.Clock
	PagesFolder   string                                                             // where saved pages go
	Watch         func(context.Context, watch.Settings) (<-chan watch.Report, error) // watches folders; watch.Start if nil
	Notify        bell.Messages                                                      // what the terminal shows on the desktop
	JournalPath   string                                                             // not used for the example and for replays, which leave nothing on the disk
	ReplaysFolder string                                                             // where a replay is kept that is to be
	FreeBytes     func(folder string) (uint64, error)                                // what a folder's disk has left; nil if nobody can tell
	Card          func(*facts.Tonight, time.Time) page.Card                          // what is typed into the hand control; nil if there is none
	Opening       string                                                             // told when the screens open; "" for nothing
	Palette       theme.Palette
	NoColor       bool
	NewKit        *NewKit // nil where no kit can be made: with a kit of one's own
	Profile       termenv.Profile
	Charset       draw.Charset
	In            io.Reader
	Out           io.Writer
}

// session is what the night is given of it.
func (c Config) session() session.Config {
	return session.Config{Kit: c.Kit, Steps: c.Steps.For(c.Kit), KitPath: c.KitPath, Clock: c.Clock,
		JournalPath: c.JournalPath, ReplaysFolder: c.ReplaysFolder, Watch: c.Watch,
		Notify: c.Notify, Out: c.Out}
}

// framesPerSecond is how often the library looks for something to show: as seldom as it can, for the model paints itself
// on a terminal. What is no terminal is drawn to as often as the eye tells.
const framesPerSecond, framesElsewhere = 1, 20

// Run shows the screens until the person leaves. Everything said in the night is on the disk by then.
func Run(c Config) error {
	var leaving terminal.Quitter
	input, stop := terminal.LeaveWith(c.In, leaving.Quit)
	defer stop()
	var shown tea.Model = New(c)
	out, frames := c.Out, framesElsewhere
	if file, isFile := c.Out.(*os.File); isFile {
		screen := paint.On(file)
		shown, out, frames = paint.New(shown, screen), screen, framesPerSecond
	}
	program := tea.NewProgram(shown, tea.WithInput(input), tea.WithOutput(out), tea.WithAltScreen(),
		tea.WithMouseCellMotion(), tea.WithFPS(frames))
	leaving.Program = program
	final, err := program.Run()
	if err != nil {
		return fmt.Errorf("showing the screens: %w", err)
	}
	if painted, isPainted := final.(paint.Model); isPainted {
		final = painted.Inner
	}
	return final.(Model).night.Close()
}

// theme builds the theme for the terminal behind the configured output. For a terminal that is to show
// no colour bold and reverse must stay, so its profile is told to be the plain sixteen.
func (c Config) theme() theme.Theme {
	renderer := lipgloss.NewRenderer(c.Out)
	profile := c.Profile
	if c.NoColor && profile == termenv.Ascii {
		profile = termenv.ANSI
	}
	renderer.SetColorProfile(profile)
	return theme.New(renderer, c.Palette)
}
