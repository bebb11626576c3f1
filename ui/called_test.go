package ui_test

import (
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

// The screens by their numbers, but for Run and Alarms.
var elsewhere = []string{"2", "3", "4", "5", "6", "7", "9"}

// Subs are said to be taken and no file comes: that stays written on every screen, whatever key is pressed, and Run
// no longer says that there is nothing to do.
func TestASequenceThatWritesNothingStaysWritten(t *testing.T) {
	c := capture(t)
	c.press("s").sees("Nothing to do. Look again at")
	c.wait(10 * time.Minute).wait(11 * time.Second).press("g").press("g")
	c.sees("No sub in the", "since subs were started").seesNot("Nothing to do")
	for _, screen := range elsewhere {
		c.press(screen).sees("since subs were started")
	}
	c.press("8").sees("no new sub   since")
	c.sub(nil).press("1").seesNot("since subs were started")
}

// Dew and dawn are warnings: they take the place of having nothing to do, and stand on every screen.
func TestDewStaysWritten(t *testing.T) {
	s := start(t, 120, 40, nil).sees("Nothing to do")
	s.press("7", "left", "c").press(typed("5")...).press("h").press(typed("96")...)
	s.press("1").sees("Dew is near, the air is 0.6 K above its dew point: heat the glass.").seesNot("Nothing to do")
	for _, screen := range elsewhere {
		s.press(screen).sees("0.6 K above its dew point: heat the glass")
	}
	s.press("1").send(tea.WindowSizeMsg{Width: 40, Height: 12})
	s.sees("Dew: heat the glass")
	s.wait(time.Second).press("z").seesNot("Dew: heat the glass")
}

func TestReadingsOfTheAirGrowOld(t *testing.T) {
	s := own(t, 120, 40)
	s.press("7", "left", "c").press(typed("5")...).press("h").press(typed("96")...)
	s.press("2").sees("heat the glass")
	s.pass(time.Hour).wait(time.Second).seesNot("heat the glass")
}

func TestDawnStaysWritten(t *testing.T) {
	s := own(t, 120, 40)
	s.press("space").pass(4*time.Hour + 35*time.Minute)
	s.wait(2 * time.Second)
	for _, screen := range elsewhere {
		s.press(screen).sees("The derotator stands at its limit", "(and: dawn)")
	}
}

// A rewind that is due is said on every screen.
func TestARewindThatIsDueIsSaidOnEveryScreen(t *testing.T) {
	s := start(t, 80, 24, nil)
	s.wait(16*time.Minute + 40*time.Second)
	for _, screen := range elsewhere {
		s.press(screen).sees("Rewind now")
	}
	s.wait(4 * time.Minute)
	for _, screen := range elsewhere {
		s.press(screen).sees("he derotator stands at its limit")
	}
	s.press("z", "2").press("2").seesNot("stands at its limit")
}
