package ui

import (
	"errors"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/ui/form"
	"duskhand/ui/keys"
)

// NewKit is how a person who looks at the example night makes a kit of their own, or changes the one that is there: Open
// returns what the screens are to go on with.
type NewKit struct {
	form.Config
	Open func(path string) (Config, error)
}

// offer is what the example says of itself when it is opened, "" where no kit can be made.
func (m Model) offer() string {
	if m.config.NewKit == nil || !m.config.Kit.Example {
		return ""
	}
	return "An example night with an invented kit. " + m.night.Status.Keys.Shown(keys.NewKit) + ": make a kit of your own."
}

// openForm shows the questions, as they were left.
func (m Model) openForm() (Model, tea.Cmd) {
	m.forming = true
	if m.form != nil {
		return m, nil
	}
	c := m.config.NewKit.Config
	c.Charset = m.config.Charset
	asked := form.New(c)
	m.form = &asked
	return m, c.Before
}

// formKept goes on with keeping, or with leaving that waited for it. Who leaves is told of a failure first.
func (m Model) formKept(msg form.KeptMsg) (Model, tea.Cmd) {
	if msg.Err != nil && m.night.Leaving() {
		m.night = m.night.Stay()
		m.night.Notice = msg.Err.Error()
	}
	next, cmd := m.toForm(msg)
	return next, tea.Batch(cmd, next.night.Left())
}

// toForm hands a message to the form.
func (m Model) toForm(msg tea.Msg) (Model, tea.Cmd) {
	if m.form == nil {
		return m, nil
	}
	next, cmd, outcome := m.form.Update(msg)
	m.form, m.forming = &next, m.forming && outcome != form.Leave
	m.night.Keeps = m.keepsForm()
	if !m.forming && next.Untouched() {
		m.form = nil // the file is read anew another time
	}
	return m, cmd
}

// kitWritten opens the kit that is on the disk by now.
func (m Model) kitWritten(msg form.WrittenMsg) (Model, tea.Cmd) {
	next, cmd := m.toForm(msg)
	if msg.Err != nil {
		return next, cmd
	}
	open := m.config.NewKit.Open
	return next, func() tea.Msg {
		config, err := open(msg.Path)
		return kitOpenedMsg{config, err}
	}
}

// goOnSoon is how long to wait until what the example says is written.
const goOnSoon = 20 * time.Millisecond

// kitOpened leaves the night for tonight with the new kit. Nothing of the example may reach that night, and all of
// one's own must, so that its last event is awaited and its journal let go before it is opened again.
func (m Model) kitOpened(msg kitOpenedMsg) (Model, tea.Cmd) {
	if msg.err != nil {
		return m.toForm(form.WrittenMsg{Err: msg.err})
	}
	if m.night.Pending() > 0 {
		return m.toForm(form.WrittenMsg{Err: errors.New("the kit is written, but events of tonight still wait to be written to the journal; it is used from the next start on")})
	}
	if m.night.IsBusy() {
		return m, tea.Tick(goOnSoon, func(time.Time) tea.Msg { return msg })
	}
	next := New(msg.config)
	next.night.Status.Width, next.night.Status.Height, next.generation = m.night.Status.Width, m.night.Status.Height, m.generation+1
	if !m.config.Kit.Example {
		next.night.Notice = "The night goes on with the kit as it is now written in " + m.config.NewKit.Path + "."
	}
	before := m.night
	return next, func() tea.Msg { return nightClosedMsg{before.LetGo()} }
}

// keepsForm tells whether what was typed into the form is on its way to the disk.
func (m Model) keepsForm() bool { return m.form != nil && !m.form.Kept() }
