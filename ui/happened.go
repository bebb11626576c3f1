package ui

import (
	"errors"
	"slices"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist"
	"duskhand/checklist/inbox"
	"duskhand/checklist/journal"
	"duskhand/ui/facts"
	"duskhand/ui/keys"
)

// utterance is something said that has yet to be written: at a key, or by a script, which waits for an
// answer.
type utterance struct {
	action checklist.Action
	letter *inbox.Message // nil for what was said at a key
	at     time.Time      // zero for now
	// implied is what was said along with something else: where it makes no sense nobody is told.
	implied bool
	asked   bool   // the target that it begins on has been said before it
	night   string // that it is said of; "" for the present one
}

// say has an action written to the journal. The screen shows it when it is there. What is said while an
// event is being written waits its turn, so that each is judged by the night as it then is.
func (m Model) say(a checklist.Action) (Model, tea.Cmd) {
	if a == nil || m.store == nil {
		return m, nil
	}
	return m.utter(utterance{action: a})
}

func (m Model) utter(u utterance) (Model, tea.Cmd) {
	if m.writing {
		m.waiting = append(m.waiting[:len(m.waiting):len(m.waiting)], u)
		return m, nil
	}
	u.action = m.run.Completed(u.action)
	kind, body, err := m.config.Steps.Say(m.log, u.action, m.config.Kit.Site.Zone)
	if err != nil && u.letter != nil {
		return m, answerLetter(*u.letter, inbox.Answer{Text: err.Error()})
	}
	if err != nil && u.implied {
		return m, nil
	}
	if err != nil {
		m.notice = err.Error()
		return m, nil
	}
	if choice, ok := m.run.ChoiceBefore(u.action); ok && !u.asked {
		u.asked = true
		m.waiting = append([]utterance{u}, m.waiting...)
		return m.utter(utterance{action: choice, at: u.at})
	}
	if !u.implied {
		m = m.warn(m.config.Steps.Warnings(m.log, u.action))
	}
	at := u.at
	if at.IsZero() {
		at = m.now
	}
	if body, err = m.config.Steps.Keep(m.log, kind, body, at, facts.Standing(m.log, m.sentences, u.action)); err != nil {
		m.notice = err.Error()
		return m, nil
	}
	m.writing, m.begun, m.letter = true, m.now, u.letter
	night := u.night
	if night == "" {
		night = m.night()
	}
	return m, writeEvent(m.store, night, kind, at, body)
}

// warn tells what the checklist has against what was said. Each warning is told once: repeated, it would
// soon not be read.
func (m Model) warn(warnings []string) Model {
	var fresh []string
	for _, w := range warnings {
		if !slices.Contains(m.warned, w) {
			fresh = append(fresh, w)
		}
	}
	if len(fresh) > 0 {
		m.notice = "Noted; but: " + strings.Join(fresh, " ")
		m.warned = append(slices.Clip(m.warned), fresh...)
	}
	return m
}

// night is the key of the night in the journal.
func (m Model) night() string { return m.date.String() }

func (m Model) eventWritten(msg eventWrittenMsg) (Model, tea.Cmd) {
	m.writing, m.pending = m.writing && msg.aside, msg.pending
	var waiting *journal.WaitingError
	switch {
	case errors.As(msg.err, &waiting):
		m.unwritten = waiting.Error() + leavingUnwritten
	case msg.err != nil:
		m.notice = msg.err.Error()
	case msg.pending == 0:
		m.unwritten = ""
	}
	if msg.kept && msg.night == m.night() {
		before := m.tonight
		m = m.took(msg.event)
		if !msg.recorded {
			m = m.learn(msg.event, before)
		}
	}
	if msg.renewed != "" {
		m.notice = msg.renewed
	}
	if msg.aside {
		return m, nil
	}
	var answer tea.Cmd
	m, answer = m.answered(msg)
	next, cmd := m.nextWaiting()
	return next, tea.Batch(answer, cmd, next.left())
}

// nextWaiting goes on to what was said meanwhile, over what is refused by now, and then to what the watch has to say.
func (m Model) nextWaiting() (Model, tea.Cmd) {
	var cmds []tea.Cmd
	for len(m.waiting) > 0 && !m.writing {
		first := m.waiting[0]
		m.waiting = m.waiting[1:]
		var cmd tea.Cmd
		m, cmd = m.utter(first)
		cmds = append(cmds, cmd)
	}
	m, listening := m.listenOn()
	return m, tea.Batch(append(cmds, listening)...)
}

// answered tells a script what became of what it said.
func (m Model) answered(msg eventWrittenMsg) (Model, tea.Cmd) {
	if m.letter == nil {
		return m, nil
	}
	letter := *m.letter
	m.letter = nil
	if !msg.kept {
		return m, answerLetter(letter, inbox.Answer{Text: msg.err.Error()})
	}
	text := checklist.Words(msg.event)
	if m.run.Behind > 0 {
		text += "; but " + facts.ClockWords(m.run.Behind)[0]
	}
	return m, answerLetter(letter, inbox.Answer{Accepted: true, Text: text})
}

// retried tells when what waited in memory has reached the disk. The night is then read again, since events
// may bear other ordinals there; what is said meanwhile waits.
func (m Model) retried(msg retriedMsg) (Model, tea.Cmd) {
	m.pending = msg.pending
	if msg.err != nil {
		m.writing = false
		next, cmd := m.nextWaiting()
		return next, tea.Batch(cmd, next.left())
	}
	m.saidUnwritten = false
	m.notice, m.unwritten = "the journal can be written again, and all that waited is on the disk", ""
	m.writing, m.rereading = true, true
	return m, loadNight(m.store, m.night())
}

// took folds one more event into the night.
func (m Model) took(e journal.Event) Model {
	m.log, m.wrote = m.log.Next(e), true
	m.seen = max(m.seen, e.Ordinal)
	return m.derive()
}

// derive computes the facts anew, the slow ones included.
func (m Model) derive() Model {
	m.tonight = facts.For(m.config.Kit, m.date, m.log, m.now, m.tonight).Using(m.config.Steps)
	m.derived = m.now
	m = m.judge()
	m.alerts = m.run.Alerts(m.advice, m.subs.facts)
	m = m.deriveStars().deriveFrame().deriveSubs().deriveDecide().deriveSteps()
	m.sayPointing()
	return m
}

// judge derives the instant: how things stand, and what is to be done.
func (m Model) judge() Model {
	m.run = m.tonight.At(m.now)
	m.advice = m.run.Advice()
	return m
}

func (m Model) journalOpened(msg journalOpenedMsg) (Model, tea.Cmd) {
	m.orphaned = false
	m.store, m.follows, m.script, m.unwritten, m.pending = msg.journal, msg.follows, msg.script, msg.unwritten, msg.pending
	if msg.err != nil {
		m.notice = msg.err.Error()
	} else if msg.notice != "" {
		m.notice = msg.notice
	}
	m = m.folded(msg.events)
	m = m.show(m.screenOfStage())
	if m.follows != "" {
		m.asking = m.askWhoWrites()
		return m, nil
	}
	m, watching := m.startWatching()
	m, opening := m.openNight()
	return m, tea.Batch(opening, watching)
}

// screenOfStage is where the night stands: the Run screen once the derotator has been on, the checklist
// before that.
func (m Model) screenOfStage() keys.Screen {
	if m.log.DerotatorSince.IsZero() {
		return keys.StepsScreen
	}
	switch m.config.Steps.Stage(m.log) {
	case "stow":
		return keys.StepsScreen
	}
	return keys.RunScreen
}

// folded starts the night from its events.
func (m Model) folded(events []journal.Event) Model {
	m.log = checklist.Fold(events)
	for _, e := range events {
		m.seen = max(m.seen, e.Ordinal)
	}
	m = m.derive()
	m = m.rungAlready()
	return m
}

func (m Model) eventsSeen(msg eventsSeenMsg) (Model, tea.Cmd) {
	if msg.err != nil {
		m.notice = msg.err.Error()
	}
	m = m.heardOfWriter(msg.writer)
	for _, e := range msg.events {
		if msg.night == m.night() && e.Ordinal > m.seen {
			m = m.took(e)
		}
	}
	if msg.night == m.night() {
		m.seen = max(m.seen, msg.upTo)
	}
	return m, nil
}

// heardOfWriter notes who writes the night that this window follows; when nobody does any more it offers to.
func (m Model) heardOfWriter(owner *journal.Owner) Model {
	switch {
	case m.follows == "": // taken over meanwhile
	case owner != nil && m.orphaned:
		m.orphaned, m.follows = false, heldWords(*owner, m.config.Kit.Site.Zone)
	case owner == nil && !m.orphaned:
		m.orphaned, m.follows = true, "the program that wrote this night has ended"
		if m.asking == nil {
			m.asking = m.askWhoWrites()
		}
	}
	return m
}

func (m Model) nightOpened(msg nightOpenedMsg) (Model, tea.Cmd) {
	if msg.err != nil {
		m.notice = msg.err.Error()
	}
	if msg.night == m.night() {
		m = m.folded(msg.events)
	}
	if m.rereading {
		m.writing, m.rereading = false, false
		next, cmd := m.nextWaiting()
		return next, tea.Batch(cmd, next.left())
	}
	m, watching := m.show(m.screenOfStage()).startWatching()
	if len(msg.events) == 0 || m.follows != "" || msg.err != nil {
		return m, watching
	}
	m, opening := m.openNight()
	return m, tea.Batch(opening, watching)
}
