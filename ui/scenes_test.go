package ui_test

import (
	"flag"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"duskhand/ui"
)

// sweep makes the long tests longer: by how many times they go their rounds.
var sweep = flag.Int("sweep", 1, "how many times as long the long tests take")

// scenes are the states of the example night that the golden screens show.
func scenes() map[string]func(*session) {
	return map[string]func(*session){
		"run":    func(*session) {},
		"rewind": func(s *session) { s.wait(17 * time.Minute) },
		"off":    func(s *session) { s.press("o", "enter") },
		"digits": func(s *session) { s.press("g") },
		"night":  func(s *session) { s.press("tab") },
		"steps":  func(s *session) { s.press("b") },
		"stars":  func(s *session) { s.press("tab", "tab", "down") },
		"focus":  func(s *session) { s.press("tab", "tab", "tab") },
		"frame":  func(s *session) { s.press("5", ">", "left", "up") },
		"mosaic": func(s *session) {
			s.press("5", "#").press(typed("2 3")...).press("v", "-")
		},
		"decide":      func(s *session) { s.press("7") },
		"decide-list": func(s *session) { s.press("7", ".", "d", "down") },
		"decide-year": func(s *session) { decidePage(s, "year") },
		"decide-subs": func(s *session) { decidePage(s, "sub length") },
		"decide-supplies": func(s *session) {
			decidePage(s, "supplies").press("c").press(typed("12")...).press("h").press(typed("88")...)
		},
		"subs":   func(s *session) { s.press("6") },
		"alarms": func(s *session) { s.wait(12 * time.Minute).press(alarmsKey) },
		"help":   func(s *session) { s.press("?") },
		"asking": func(s *session) { s.press("r", "9", "9", "enter") },
	}
}

// lived holds the scenes that were played already: the dear ones take seconds, and many tests look at each.
var lived = struct {
	sync.Mutex
	models map[string]ui.Model
}{models: map[string]ui.Model{}}

// inScene returns a session in a scene of its name, in a window of 80 × 24, drawn as change asks. The scene is played
// once for all tests: they may give it another window, and nothing that happens may be sent to it.
func inScene(t *testing.T, name string, change func(*ui.Config)) *session {
	t.Helper()
	lived.Lock()
	defer lived.Unlock()
	model, played := lived.models[name]
	if !played {
		play := scenes()[name]
		require.NotNil(t, play, "a scene of the name %s", name)
		s := start(t, 80, 24, nil)
		play(s)
		model = s.model
		lived.models[name] = model
	}
	return &session{t: t, model: model.Drawn(change)}
}
