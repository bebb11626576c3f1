package frame

import (
	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist"
	"duskhand/plan/framing"
	"duskhand/ui/facts"
	field "duskhand/ui/frame"
	"duskhand/ui/keys"
	"duskhand/ui/screens"
)

// Model is what the screen keeps.
type Model struct {
	pages string // the folder for pages that are saved, "" if there is none
	facts facts.Frame
	draft *checklist.Framing // what the keys have made of the framing and the journal does not have yet
	idle  int                // seconds since the last of those keys
	looks field.View
	seen  framing.Pixel // where the operator saw the object in the picture
}

// New returns the room; pages is the folder in which it saves pages.
func New(pages string) Model { return Model{pages: pages} }

// seenAt is where the picture shows the object: the answer to a question.
type seenAt struct{ pixel framing.Pixel }

// Update handles the room's keys, keeps the framing that shows up to date, and a draft when the keys have been quiet.
func (r Model) Update(s screens.Status, msg tea.Msg) (screens.Room, screens.Intent, tea.Cmd) {
	switch msg := msg.(type) {
	case screens.Entered, screens.Changed:
		return r.derived(s), nil, nil
	case screens.Second:
		next, want := r.rested()
		return next, want, nil
	case screens.Pressed:
		return r.pressed(s, msg.Action)
	case seenAt:
		r.seen = msg.pixel
	case pageSavedMsg:
		return r, screens.Tell{Words: msg.words()}, nil
	}
	return r, nil, nil
}

// derived computes the framing anew.
func (r Model) derived(s screens.Status) Model {
	if s.Tonight != nil && s.Screen == keys.FrameScreen {
		r.facts = s.Run.FrameAt(r.framing(s))
	}
	return r
}

// framing is the draft, or else what stands.
func (r Model) framing(s screens.Status) checklist.Framing {
	if r.draft != nil && r.draft.Target == s.Tonight.Target.Name {
		return *r.draft
	}
	return s.Tonight.FramingOf()
}

// farthestZoom bounds the zoom both ways: from a tenth of the usual field to ten times it.
const farthestZoom = 10

func (r Model) pressed(s screens.Status, action keys.Action) (screens.Room, screens.Intent, tea.Cmd) {
	m := view{r, screens.Shown{Status: s}}
	switch action {
	case keys.Closer:
		r.looks.Zoom = min(r.looks.Zoom+1, farthestZoom)
	case keys.Wider:
		r.looks.Zoom = max(r.looks.Zoom-1, -farthestZoom)
	case keys.AsSeen:
		r.looks.AsCamera = !r.looks.AsCamera
	case keys.KeepFraming:
		next, action := r.Keep()
		return next, screens.Say{Action: action}, nil
	case keys.DropFraming:
		next, _ := r.Drop(s)
		return next, nil, nil
	case keys.Framing:
		return r, screens.Ask{Prompt: m.askFraming()}, nil
	case keys.Seen:
		return r, screens.Ask{Prompt: m.askSeen()}, nil
	case keys.Mosaic:
		return r, screens.Ask{Prompt: m.askGrid()}, nil
	case keys.Save:
		want, cmd := r.save(s)
		return r, want, cmd
	default:
		if !drafted(action) {
			return r, nil, nil
		}
		if s.Follows != "" {
			return r, screens.AskWriter{}, nil
		}
		f := m.changed(action)
		r.draft, r.idle = &f, 0
		return r.derived(s), nil, nil
	}
	return r, nil, nil
}

// Keep makes the draft part of the night.
func (r Model) Keep() (screens.Room, checklist.Action) {
	if r.draft == nil {
		return r, nil
	}
	f := *r.draft
	r.draft = nil
	return r, checklist.FrameTarget{Framing: f}
}

// Drop takes back what was entered last.
func (r Model) Drop(s screens.Status) (screens.Room, bool) {
	if r.draft == nil {
		return r, false
	}
	r.draft = nil
	return r.derived(s), true
}

// quietSeconds is how long after the last key a draft is kept by itself, so that nothing entered is lost.
const quietSeconds = 8

// rested keeps the draft when the keys have been quiet for a while.
func (r Model) rested() (screens.Room, screens.Intent) {
	if r.draft == nil {
		return r, nil
	}
	if r.idle++; r.idle < quietSeconds {
		return r, nil
	}
	next, action := r.Keep()
	return next, screens.Say{Action: action}
}

// Keys: a draft can be kept, or dropped.
func (r Model) Keys(_ screens.Status, state keys.State) keys.State {
	state.Draft = r.draft != nil
	return state
}
