package session

import (
	tea "github.com/charmbracelet/bubbletea"

	"duskhand/ui/bell"
	"duskhand/ui/facts"
	"duskhand/ui/keys"
	"duskhand/ui/say"
)

// How the status follows the night.

// derive computes the facts anew, the slow ones included.
func (m Session) derive() Session {
	s := m.Status
	m.Status.Tonight = facts.For(s.Kit, s.Date, s.Log, s.Now, s.Tonight).Using(s.List.Steps)
	m.derived = s.Now
	m = m.judge()
	m.Status.Alerts = say.Alerts(m.Status.Run, m.Status.Advice, m.Status.Subs)
	m.wants.Changed = true
	m = m.Gather()
	m.sayPointing()
	return m
}

// judge derives the instant: how things stand, and what is to be done.
func (m Session) judge() Session {
	m.Status.Run = m.Status.Tonight.At(m.Status.Now)
	m.Status.Advice = m.Status.Run.Advice()
	return m
}

// Gather brings the stars, the frames and the checklist up to date. The stars cost a millisecond, which the night need
// not pay once the derotator has been on, but while a screen shows them; until then the next step names them in the
// footer of every screen.
func (m Session) Gather() Session {
	if m.Status.Tonight != nil {
		shown := m.Status.Screen
		if m.Status.Log.DerotatorSince.IsZero() || shown == keys.StarsScreen || shown == keys.FocusScreen || shown == keys.StepsScreen {
			m.Status = m.Status.WithStars()
		}
		if shown == keys.SubsScreen {
			m.Status.Subs = m.Status.Run.SubsAt(m.watch.free, m.watch.blind)
		}
	}
	m.Status = m.Status.WithList()
	return m
}

// sound rings for what has come up since the last second.
func (m Session) sound() (Session, tea.Cmd) {
	m.Status.Alerts = say.Alerts(m.Status.Run, m.Status.Advice, m.Status.Subs)
	rung, call := m.Status.Bell.Hear(m.Status.Alerts, m.Status.Now)
	m.Status.Bell = rung
	if call == nil {
		return m, nil
	}
	return m, bell.Ring(m.Status.Kit.Alarm, m.config.Notify, m.config.Out, *call)
}

// rungAlready takes what is so when the night is read as told: it need not ring again.
func (m Session) rungAlready() Session {
	if m.weighs() {
		m.Status.Subs = m.Status.Run.SubsAt(m.watch.free, m.watch.blind)
		m.watch.told, _ = m.watch.told.Fresh(m.Status.Subs.Notices)
	}
	m.Status.Alerts = say.Alerts(m.Status.Run, m.Status.Advice, m.Status.Subs)
	m.Status.Bell = m.Status.Bell.Told(m.Status.Alerts, m.Status.Now)
	return m
}
