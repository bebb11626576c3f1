package ui

import (
	"errors"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/ui/form"
	"duskhand/ui/keys"
)

// NewKit is how a person who looks at the example night makes a kit of their own, or changes the one that is there:
// Write puts it on the disk, Open returns what the screens are to go on with. What is typed on the way is kept: Keep
// brings it to the disk, Typed reads it another time; nil where that failed and nothing may be kept in its place. With a
// kit that is there, Old reads it, and Write and Keep get what is changed.
type NewKit struct {
	Path  string           // where the kit will be
	Zone  string           // of this computer, an IANA name; "" if it has none
	Now   func() time.Time // the world's time, whatever the example's clock shows
	Write func(answers map[string]string) (path string, err error)
	Keep  func(typed map[string]string) error
	Typed func() (map[string]string, error)
	Open  func(path string) (Config, error)
	Old   func() (answers map[string]string, besides []string, err error) // nil for a new kit
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
	c := m.config.NewKit
	asked := form.New(form.Config{Path: c.Path, Zone: c.Zone, Now: c.Now, Write: c.Write, Keep: c.Keep,
		Change: c.Old != nil, Charset: m.config.Charset})
	m.form = &asked
	return m, c.typedBefore
}

// typedBefore reads the kit that is changed, and what was typed another time.
func (c *NewKit) typedBefore() tea.Msg {
	var msg typedBeforeMsg
	if c.Old != nil {
		if msg.old, msg.besides, msg.err = c.Old(); msg.err != nil {
			return msg
		}
	}
	msg.typed, msg.err = c.Typed()
	return msg
}

// fillForm takes in what was typed when the program ran before.
func (m Model) fillForm(msg typedBeforeMsg) (Model, tea.Cmd) {
	if m.form == nil { // left for the kit that was made
		return m, nil
	}
	filled, cmd := *m.form, tea.Cmd(nil)
	if msg.old != nil {
		filled = filled.Of(msg.old, msg.besides)
	}
	if msg.typed != nil {
		filled, cmd = filled.Fill(msg.typed)
	}
	if msg.err != nil {
		filled = filled.Trouble(msg.err)
	}
	m.form = &filled
	return m, cmd
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
