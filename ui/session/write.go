package session

import (
	"errors"
	"slices"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist"
	"duskhand/checklist/inbox"
	"duskhand/checklist/journal"
	"duskhand/checklist/journal/fallback"
	"duskhand/ui/facts"
	"duskhand/ui/say"
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

// Say has an action written to the journal. The screen shows it when it is there. What is said while an
// event is being written waits its turn, so that each is judged by the night as it then is.
func (m Session) Say(a checklist.Action) (Session, tea.Cmd) {
	if a == nil || m.store == nil {
		return m, nil
	}
	m.spoken = true
	m, first := m.implied(checklist.Implied(a))
	m, cmd := m.utter(utterance{action: a})
	return m, tea.Batch(first, cmd)
}

func (m Session) utter(u utterance) (Session, tea.Cmd) {
	if m.writing {
		m.waiting = append(m.waiting[:len(m.waiting):len(m.waiting)], u)
		return m, nil
	}
	u.action = m.Status.Run.Completed(u.action)
	kind, body, err := m.Status.List.Steps.Say(m.Status.Log, u.action, m.Status.Zone())
	if err != nil && u.letter != nil {
		return m, answerLetter(*u.letter, inbox.Answer{Text: err.Error()})
	}
	if err != nil && u.implied {
		return m, nil
	}
	if err != nil {
		m.Notice = err.Error()
		return m, nil
	}
	if choice, ok := m.Status.Run.ChoiceBefore(u.action); ok && !u.asked {
		u.asked = true
		m.waiting = append([]utterance{u}, m.waiting...)
		return m.utter(utterance{action: choice, at: u.at})
	}
	if !u.implied {
		m = m.warn(append(m.Status.List.Steps.Warnings(m.Status.Log, u.action), say.Early(m.Status.Run.Moment, u.action)...))
	}
	at := u.at
	if at.IsZero() {
		at = m.Status.Now
	}
	if body, err = m.Status.List.Steps.Keep(m.Status.Log, kind, body, at,
		facts.Standing(m.Status.Log, m.Status.List.Facts, u.action)); err != nil {
		m.Notice = err.Error()
		return m, nil
	}
	m.writing, m.begun, m.letter = true, m.Status.Now, u.letter
	night := u.night
	if night == "" {
		night = m.Status.Name()
	}
	return m, writeEvent(m.store, night, kind, at, body)
}

// warn tells what the checklist has against what was said. Each warning is told once: repeated, it would
// soon not be read.
func (m Session) warn(warnings []string) Session {
	var fresh []string
	for _, w := range warnings {
		if !slices.Contains(m.warned, w) {
			fresh = append(fresh, w)
		}
	}
	if len(fresh) > 0 {
		m.Notice = "Noted; but: " + strings.Join(fresh, " ")
		m.warned = append(slices.Clip(m.warned), fresh...)
	}
	return m
}

func (m Session) eventWritten(msg eventWrittenMsg) (Session, tea.Cmd) {
	m.writing, m.pending = m.writing && msg.aside, msg.pending
	var waiting *journal.WaitingError
	switch {
	case errors.As(msg.err, &waiting):
		m.Unwritten = waiting.Error() + leavingUnwritten
	case msg.err != nil:
		m.Notice = msg.err.Error()
	case msg.pending == 0:
		m.Unwritten = ""
	}
	if msg.kept && msg.night == m.Status.Name() {
		before := m.Status.Tonight
		m = m.took(msg.event)
		if !msg.recorded {
			m = m.learn(msg.event, before)
		}
	}
	if msg.renewed != "" {
		m.Notice = msg.renewed
	}
	if msg.aside {
		return m, nil
	}
	var answer tea.Cmd
	m, answer = m.answered(msg)
	next, cmd := m.nextWaiting()
	return next, tea.Batch(answer, cmd, next.Left())
}

// nextWaiting goes on to what was said meanwhile, over what is refused by now, and then to what the watch has to say.
func (m Session) nextWaiting() (Session, tea.Cmd) {
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
func (m Session) answered(msg eventWrittenMsg) (Session, tea.Cmd) {
	if m.letter == nil {
		return m, nil
	}
	letter := *m.letter
	m.letter = nil
	if !msg.kept {
		return m, answerLetter(letter, inbox.Answer{Text: msg.err.Error()})
	}
	text := checklist.Words(msg.event)
	if m.Status.Run.Behind > 0 {
		text += "; but " + say.Behind(m.Status.Run.Behind)[0]
	}
	return m, answerLetter(letter, inbox.Answer{Accepted: true, Text: text})
}

// retried tells when what waited in memory has reached the disk. The night is then read again, since events
// may bear other ordinals there; what is said meanwhile waits.
func (m Session) retried(msg retriedMsg) (Session, tea.Cmd) {
	m.pending = msg.pending
	if msg.err != nil {
		m.writing = false
		next, cmd := m.nextWaiting()
		return next, tea.Batch(cmd, next.Left())
	}
	m.saidUnwritten = false
	m.Notice, m.Unwritten = "the journal can be written again, and all that waited is on the disk", ""
	m.writing, m.rereading = true, true
	return m, loadNight(m.store, m.Status.Name())
}

// took folds one more event into the night.
func (m Session) took(e journal.Event) Session {
	m.Status.Log, m.wrote = m.Status.Log.Next(e), true
	m.seen = max(m.seen, e.Ordinal)
	return m.derive()
}

func (m Session) journalOpened(msg journalOpenedMsg) (Session, tea.Cmd) {
	m.Status.Orphaned = false
	if msg.Store != nil {
		m.Status.Past = func() ([]journal.Event, error) { return msg.Store.Since(0) }
	}
	m.store, m.Status.Follows, m.script, m.Unwritten, m.pending = msg.Store, msg.Follows, msg.script, msg.Unwritten, msg.Pending
	if msg.err != nil {
		m.Notice = msg.err.Error()
	} else if msg.Notice != "" {
		m.Notice = msg.Notice
	}
	m = m.folded(msg.Events)
	m.wants.Open = true
	if m.Status.Follows != "" {
		m.wants.AskWriter = true
		return m, nil
	}
	m, watching := m.startWatching()
	m, opening := m.openNight()
	return m, tea.Batch(opening, watching)
}

// folded starts the night from its events.
func (m Session) folded(events []journal.Event) Session {
	m.Status.Log = checklist.Fold(events)
	for _, e := range events {
		m.seen = max(m.seen, e.Ordinal)
	}
	m = m.derive()
	m = m.rungAlready()
	return m
}

func (m Session) eventsSeen(msg eventsSeenMsg) (Session, tea.Cmd) {
	if msg.err != nil {
		m.Notice = msg.err.Error()
	}
	for _, e := range msg.events {
		if msg.night == m.Status.Name() && e.Ordinal > m.seen {
			m = m.took(e)
		}
	}
	if msg.night == m.Status.Name() {
		m.seen = max(m.seen, msg.upTo)
	}
	m = m.heardOfWriter(msg.writer)
	return m, nil
}

// heardOfWriter notes who writes the night that this window follows; when nobody does any more it offers to.
func (m Session) heardOfWriter(owner *journal.Owner) Session {
	switch {
	case m.Status.Follows == "": // taken over meanwhile
	case owner != nil && m.Status.Orphaned:
		m.Status.Orphaned, m.Status.Follows = false, fallback.HeldWords(*owner, m.Status.Zone())
	case owner == nil && !m.Status.Orphaned:
		m.Status.Orphaned, m.Status.Follows = true, "the program that wrote this night has ended"
		m.wants.AskWriter = true
	}
	return m
}

func (m Session) nightOpened(msg nightOpenedMsg) (Session, tea.Cmd) {
	if msg.err != nil {
		m.Notice = msg.err.Error()
	}
	if msg.night == m.Status.Name() {
		m = m.folded(msg.events)
	}
	if m.rereading {
		m.writing, m.rereading = false, false
		next, cmd := m.nextWaiting()
		return next, tea.Batch(cmd, next.Left())
	}
	m.wants.Open = true
	m, watching := m.startWatching()
	if len(msg.events) == 0 || m.Status.Follows != "" || msg.err != nil {
		return m, watching
	}
	m, opening := m.openNight()
	return m, tea.Batch(opening, watching)
}
