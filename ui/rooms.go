package ui

import (
	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist"
	"duskhand/ui/keys"
	"duskhand/ui/screens"
	"duskhand/ui/screens/alarms"
	"duskhand/ui/screens/decide"
	"duskhand/ui/screens/focus"
	"duskhand/ui/screens/frame"
	"duskhand/ui/screens/night"
	"duskhand/ui/screens/run"
	"duskhand/ui/screens/stars"
	"duskhand/ui/screens/steps"
	"duskhand/ui/screens/subs"
)

// rooms are the screens, each with what it keeps.
type rooms [keys.ScreenCount]screens.Room

func newRooms(c Config) rooms {
	return rooms{
		keys.RunScreen: run.New(), keys.NightScreen: night.New(), keys.StarsScreen: stars.New(), keys.FocusScreen: focus.New(),
		keys.FrameScreen: frame.New(c.PagesFolder), keys.SubsScreen: subs.New(), keys.DecideScreen: decide.New(c.FreeBytes),
		keys.AlarmsScreen: alarms.New(c.Notify), keys.StepsScreen: steps.New(c.Card),
	}
}

// room is the one that shows.
func (m Model) room() screens.Room { return m.rooms[m.night.Status.Screen] }

// roomStatus is the status as the rooms have it: their window ends below the line of rooms.
func (m Model) roomStatus() screens.Status {
	s := m.night.Status
	s.Height -= screens.RoomsRows(s.Height)
	return s
}

// show opens a room.
func (m Model) show(to keys.Screen) Model {
	m.night.Status.Screen = to
	m.night = m.night.Gather()
	return m.follow(screens.Entered{})
}

// follow has the room that shows go on with the night. That asks for nothing.
func (m Model) follow(msg tea.Msg) Model {
	m.rooms[m.night.Status.Screen], _, _ = m.room().Update(m.roomStatus(), msg)
	return m
}

// hand gives a room a message, and does what it asks for.
func (m Model) hand(to keys.Screen, msg tea.Msg) (Model, tea.Cmd) {
	room, want, cmd := m.rooms[to].Update(m.roomStatus(), msg)
	m.rooms[to] = room
	next, more := m.obey(want)
	return next, tea.Batch(cmd, more)
}

// handAll gives every room a message: of a second, or what one of them has had computed.
func (m Model) handAll(msg tea.Msg) (Model, tea.Cmd) {
	var cmds []tea.Cmd
	for to := range keys.ScreenCount {
		var cmd tea.Cmd
		m, cmd = m.hand(to, msg)
		cmds = append(cmds, cmd)
	}
	return m, tea.Batch(cmds...)
}

// obey does what a room, or the answer to a question, asks for.
func (m Model) obey(want screens.Intent) (Model, tea.Cmd) {
	switch want := want.(type) {
	case screens.Say:
		return m.say(want.Action)
	case screens.Ask:
		return m.ask(want.Prompt), nil
	case screens.Tell:
		m.night.Notice = want.Words
	case screens.Go:
		return m.show(want.To), nil
	case screens.Hand:
		return m.hand(want.To, want.Msg)
	case screens.ChoosePair:
		m.night.Status.Stars.Chosen = want.Pair
		m.night.Status = m.night.Status.WithList()
	case screens.Leave:
		m.night = m.night.Loses()
		return m.leave()
	case screens.AskKeep:
		return m.ask(m.night.AskKeep()), nil
	case screens.KeepReplay:
		return m, m.night.KeepReplay(want.Name)
	case screens.AskWriter:
		return m.ask(m.night.Status.AskWhoWrites()), nil
	case screens.TakeOver:
		return m, m.night.TakeOver()
	}
	return m, nil
}

func (m Model) ask(p screens.Prompt) Model {
	m.asking = &p
	return m
}

// keepDrafts says what has been entered and not been said yet.
func (m Model) keepDrafts() (Model, tea.Cmd) {
	var cmds []tea.Cmd
	for to, room := range m.rooms {
		if drafter, drafts := room.(screens.Drafter); drafts {
			var action checklist.Action
			var cmd tea.Cmd
			m.rooms[to], action = drafter.Keep()
			m, cmd = m.say(action)
			cmds = append(cmds, cmd)
		}
	}
	return m, tea.Batch(cmds...)
}

// dropDraft takes back what was entered last and not been said yet; ok is false if there is nothing.
func (m Model) dropDraft() (next Model, ok bool) {
	for to, room := range m.rooms {
		if drafter, drafts := room.(screens.Drafter); drafts {
			if m.rooms[to], ok = drafter.Drop(m.night.Status); ok {
				return m, true
			}
		}
	}
	return m, false
}
