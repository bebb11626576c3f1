package ui_test

import (
	"bytes"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/ui"
	"duskhand/ui/testdata/clocks"
	"duskhand/ui/theme"
)

// opened is when the example night is opened: half an hour and a bit into the evening's first run.
var opened = time.Date(2026, 12, 5, 12, 44, 0, 0, time.UTC)

// session drives the program by messages, with a clock that the test leads. Commands are carried out at
// once, in order.
type session struct {
	t     *testing.T
	now   time.Time
	model ui.Model
	out   bytes.Buffer // what goes to the terminal beside the screen: the bell
	quit  bool
}

func start(t *testing.T, width, height int, change func(*ui.Config)) *session {
	t.Helper()
	return startWith(&session{t: t, now: opened}, width, height, change)
}

// startWith is start for a session whose clock is set already.
func startWith(s *session, width, height int, change func(*ui.Config)) *session {
	config := ui.Config{Kit: kit.Example(), Clock: clocks.Led(func() time.Time { return s.now }), Palette: theme.Night,
		Profile: termenv.TrueColor, Out: &s.out}
	if change != nil {
		change(&config)
	}
	s.model = ui.New(config)
	s.send(tea.WindowSizeMsg{Width: width, Height: height})
	s.carryOut(s.model.Init())
	return s
}

func (s *session) send(msg tea.Msg) {
	next, cmd := s.model.Update(msg)
	s.model = next.(ui.Model)
	s.carryOut(cmd)
}

// hold sends a message and returns what it commands, for another time.
func (s *session) hold(msg tea.Msg) tea.Cmd {
	next, cmd := s.model.Update(msg)
	s.model = next.(ui.Model)
	return cmd
}

func (s *session) carryOut(cmd tea.Cmd) {
	if cmd == nil {
		return
	}
	switch msg := cmd().(type) {
	case nil:
	case tea.BatchMsg:
		for _, c := range msg {
			s.carryOut(c)
		}
	case tea.QuitMsg:
		s.quit = true
	default:
		s.send(msg)
	}
}

// press sends keys by their names: "space", "enter", "tab", "esc", or the letter itself.
func (s *session) press(keys ...string) *session {
	for _, k := range keys {
		named := map[string]tea.KeyMsg{
			"space": {Type: tea.KeySpace, Runes: []rune(" ")}, "enter": {Type: tea.KeyEnter}, "tab": {Type: tea.KeyTab},
			"esc": {Type: tea.KeyEsc}, "up": {Type: tea.KeyUp}, "down": {Type: tea.KeyDown}, "ctrl+c": {Type: tea.KeyCtrlC},
			"shift+tab": {Type: tea.KeyShiftTab}, "left": {Type: tea.KeyLeft}, "right": {Type: tea.KeyRight},
		}
		msg, ok := named[k]
		if !ok {
			msg = tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(k)}
		}
		s.send(msg)
	}
	return s
}

// wait lets time pass, second by second up to a minute, in steps of ten seconds beyond.
func (s *session) wait(d time.Duration) *session {
	end := s.now.Add(d)
	step := time.Second
	if d > time.Minute {
		step = 10 * time.Second
	}
	for s.now.Before(end) {
		s.now = s.now.Add(step)
		s.send(s.model.Tick())
	}
	return s
}

// pass lets time pass at one stroke, as a replay at high speed does.
func (s *session) pass(d time.Duration) *session {
	s.now = s.now.Add(d)
	s.send(s.model.Tick())
	return s
}

// text returns the screen without colour.
func (s *session) text() string { return plain(s.model.View()) }

func plain(view string) string {
	var out strings.Builder
	inEscape := false
	for _, r := range view {
		switch {
		case r == '\x1b':
			inEscape = true
		case inEscape:
			inEscape = r != 'm'
		default:
			out.WriteRune(r)
		}
	}
	return out.String()
}

func (s *session) sees(words ...string) *session {
	s.t.Helper()
	for _, w := range words {
		if !strings.Contains(s.text(), w) { // what wraps in the middle is seen all the same
			require.Contains(s.t, strings.Join(strings.Fields(s.text()), " "), w)
		}
	}
	return s
}

func (s *session) seesNot(words ...string) *session {
	s.t.Helper()
	for _, w := range words {
		require.NotContains(s.t, s.text(), w)
	}
	return s
}
