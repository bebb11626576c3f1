// Package form asks for what a kit of one's own can't do without, all questions on one screen: each is
// checked as it is typed, and what the answers come to stands beside them. It writes nothing itself.
package form

import (
	"strings"
	"time"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"duskhand/plan/kit"
	"duskhand/ui/draw"
	"duskhand/ui/facts"
	"duskhand/ui/oneline"
)

// Config is all that the form is given.
type Config struct {
	Zone    string           // proposed, an IANA name; "" for none
	Now     func() time.Time // the world's time
	Path    string           // where the kit will be, told when all is answered; "" for no word of it
	Write   func(answers map[string]string) (path string, err error)
	Keep    func(typed map[string]string) error         // brings what is typed so far to the disk; nil where nobody can
	Typed   func() (typed map[string]string, err error) // reads it another time; nil where that failed and nothing may be kept in its place
	Charset draw.Charset

	// Old reads the answers of a kit that is there already, and what else its file holds; nil for a new kit. Then Write
	// and Keep get what differs from it.
	Old func() (answers map[string]string, besides []string, err error)
}

// Model is the form's state: a value, changed by Update alone. What is typed into it is kept on the disk.
type Model struct {
	config Config
	keys   keyMap
	fields []field
	at     int // the field that is typed into

	zone     string            // proposed for the place, "" for none
	proposed map[string]string // for other fields, by what is typed
	sketch   kit.Sketch
	place    placeRead
	optics   facts.NewOptics
	night    facts.NewNight
	of       facts.NewNightQuestion // what night answers
	asked    facts.NewNightQuestion // what is being computed
	busy     bool
	problem  string // of writing; stays until the next key
	complain bool   // writing was tried: what is missing is told

	keeps   bool              // what was typed another time has been read, or there is nothing to read
	keeping bool              // what is typed is on its way to the disk
	kept    map[string]string // what is there, by the keys of the fields
	old     map[string]string // the answers of the kit that is changed
	besides []string          // what else its file holds
}

// Outcome is what the form asks of the screen that shows it.
type Outcome int

// The outcomes.
const (
	Stay  Outcome = iota // go on showing it
	Leave                // back to what was shown before
)

// keyMap is every key of the form that does not type.
type keyMap struct{ Next, Before, Write, Leave key.Binding }

func keys() keyMap {
	return keyMap{
		Next:   key.NewBinding(key.WithKeys("enter", "tab", "down"), key.WithHelp("enter", "next")),
		Before: key.NewBinding(key.WithKeys("shift+tab", "up"), key.WithHelp("shift+tab", "before")),
		Write:  key.NewBinding(key.WithKeys("ctrl+s"), key.WithHelp("ctrl+s", "write the kit")),
		Leave:  key.NewBinding(key.WithKeys("esc", "ctrl+c"), key.WithHelp("esc", "back, all kept")),
	}
}

// New returns the empty form.
func New(c Config) Model {
	m := Model{config: c, keys: keys(), fields: newFields()}
	m.fields[0].input.Focus()
	return m.read()
}

// Update handles one message. The command that it returns, if any, computes tonight or writes the kit.
func (m Model) Update(msg tea.Msg) (Model, tea.Cmd, Outcome) {
	switch msg := msg.(type) {
	case ComputedMsg:
		m.busy, m.night, m.of = false, msg.night, msg.question
		next, cmd := m.compute()
		return next, cmd, Stay
	case WrittenMsg:
		if msg.Err != nil {
			m.problem = msg.Err.Error()
		}
		return m, nil, Stay
	case KeptMsg:
		next, cmd := m.wasKept(msg)
		return next, cmd, Stay
	case BeforeMsg:
		next, cmd := m.fill(msg)
		return next, cmd, Stay
	case tea.KeyMsg:
		return m.pressed(msg)
	}
	return m, nil, Stay
}

func (m Model) pressed(msg tea.KeyMsg) (Model, tea.Cmd, Outcome) {
	m.problem = ""
	switch {
	case key.Matches(msg, m.keys.Leave):
		return m, nil, Leave
	case key.Matches(msg, m.keys.Next):
		return m.goTo(m.at + 1), nil, Stay
	case key.Matches(msg, m.keys.Before):
		return m.goTo(m.at - 1), nil, Stay
	case key.Matches(msg, m.keys.Write):
		next, cmd := m.write()
		return next, cmd, Stay
	}
	m.fields = append([]field(nil), m.fields...)
	f := &m.fields[m.at]
	before := f.input.Value()
	f.input = oneline.Typed(f.input, msg)
	if f.input.Value() == before {
		return m, nil, Stay
	}
	next, compute := m.read().compute()
	next, keep := next.keep()
	return next, tea.Batch(compute, keep), Stay
}

// goTo moves to another field, round at the ends.
func (m Model) goTo(i int) Model {
	m.fields = append([]field(nil), m.fields...)
	m.fields[m.at].input.Blur()
	m.at = (i + len(m.fields)) % len(m.fields)
	m.fields[m.at].input.Focus()
	return m
}

// read takes in what the fields hold.
func (m Model) read() Model {
	m.place = readPlace(m.text(placeKey))
	m.zone = m.proposedZone()
	m.proposed = kit.Proposed(m.given())
	m.sketch = kit.NewSketch(m.answers())
	m.optics = facts.NewOpticsOf(m.sketch)
	return m
}

// compute asks for tonight if the answers have changed what it depends on. One night is computed at a time:
// what is typed meanwhile counts when it is done, so that fast typing asks for few.
func (m Model) compute() (Model, tea.Cmd) {
	question := facts.NewNightFrom(m.sketch, m.config.Now())
	if m.busy || question == m.of {
		return m, nil
	}
	m.busy, m.asked = true, question
	return m, func() tea.Msg { return ComputedMsg{question, question.Answer()} }
}

// write has the kit written, or goes to the first answer that is missing or won't do.
func (m Model) write() (Model, tea.Cmd) {
	m.complain = true
	if m.open() > 0 {
		return m.goTo(m.firstOpen()), nil
	}
	if len(m.sketch.Faults) > 0 {
		m.problem = m.sketch.Faults.Error()
		return m, nil
	}
	answers, write := m.answers(), m.config.Write
	if m.config.Old != nil {
		if answers = m.changed(); len(answers) == 0 {
			m.problem = "nothing is changed; " + m.config.Path + " stays as it is"
			return m, nil
		}
	}
	return m, func() tea.Msg {
		path, err := write(answers)
		return WrittenMsg{path, err}
	}
}

// text returns what is typed into a field, without blanks around it.
func (m Model) text(key string) string {
	for _, f := range m.fields {
		if f.key == key {
			return strings.TrimSpace(f.input.Value())
		}
	}
	return ""
}

// answers returns what the fields hold by the keys of the kit, and what counts for empty ones.
func (m Model) answers() map[string]string {
	answers := m.given()
	if answers[zoneKey] == "" && m.zone != "" {
		answers[zoneKey] = m.zone
	}
	for key, proposal := range m.proposed {
		if answers[key] == "" {
			answers[key] = proposal
		}
	}
	return answers
}

// given returns what the fields hold by the keys of the kit; empty ones are left out.
func (m Model) given() map[string]string {
	answers := map[string]string{}
	for _, f := range m.fields {
		if text := m.text(f.key); text != "" && f.key != placeKey {
			answers[f.key] = text
		}
	}
	m.place.answer(answers)
	return answers
}

// proposedZone returns the computer's own zone, unless the place can't have it.
func (m Model) proposedZone() string {
	proposed := map[string]string{zoneKey: m.config.Zone}
	m.place.answer(proposed)
	if _, fault := kit.NewSketch(proposed).Fault(zoneKey); fault {
		return ""
	}
	return m.config.Zone
}

// longestAnswer is more than any answer needs: a dozen filters with their numbers.
const longestAnswer = 200
