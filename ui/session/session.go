// Package session is a night that is lived: its journal, what is written to it and in which order, who writes it, what
// follows from it at each instant, and what other programs say and are told. It shows nothing.
package session

import (
	"context"
	"io"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist"
	"duskhand/checklist/inbox"
	"duskhand/checklist/journal"
	"duskhand/checklist/journal/fallback"
	"duskhand/checklist/subs/watch"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/ui/bell"
	"duskhand/ui/clock"
	"duskhand/ui/draw"
	"duskhand/ui/facts"
	"duskhand/ui/keys"
	"duskhand/ui/screens"
)

// Config is all that a session is given.
type Config struct {
	Kit           kit.Kit
	Steps         checklist.List
	KitPath       string // what the journal notes as the night's kit
	Clock         clock.Clock
	JournalPath   string                                                             // not used for the example and for replays
	ReplaysFolder string                                                             // where those are kept that are to be; "" for nowhere
	Watch         func(context.Context, watch.Settings) (<-chan watch.Report, error) // watches folders; watch.Start if nil
	Notify        bell.Messages
	Out           io.Writer // where the bell rings
}

// Session is the night and what waits to be written: a value.
type Session struct {
	config Config
	wants  Wants

	Status    screens.Status // the night at the instant, for every room
	Notice    string         // stays until the next key
	Unwritten string         // why events wait in memory; stays until they are written
	Keeps     bool           // the root has something to keep before the program is left

	reading clock.Reading // of the last instant, for jumps of the clock
	derived time.Time     // when the slow facts were
	heard   *facts.Run    // the facts that the operator's programs have been told of
	watch   watcher
	pricing pricing
	warned  []string // by the checklist, and told

	store         fallback.Store // nil until the journal is open
	seen          int64          // ordinal of the last event that counts
	wrote         bool           // something was added to the journal since it was opened
	writing       bool
	begun         time.Time       // when that was
	pending       int             // how many events wait in memory to be written
	tried         time.Time       // when writing what waits in memory was tried last
	rereading     bool            // the night is being read again, and nothing is written meanwhile
	waiting       []utterance     // said while an event is being written
	spoken        bool            // the operator has said something, and it is not kept elsewhere
	leaving       bool            // as soon as all of that is written
	saidUnwritten bool            // who wanted to leave was told that events wait in memory
	letter        *inbox.Message  // whose saying that is, if a script's
	script        []journal.Event // what a replay has yet to say
}

// Wants is what a session asks of the root.
type Wants struct {
	Changed   bool // the night has gone on: the room that shows must follow
	Open      bool // another night was opened: show the screen where it stands
	AskWriter bool // another program writes the night
}

// New returns a session before its journal is open.
func New(c Config, charset draw.Charset) Session {
	now := c.Clock.Now()
	return Session{config: c, reading: c.Clock.Reading(), Status: screens.Status{
		Kit: c.Kit, Charset: charset, Keys: keys.New(c.Kit.Keys), Now: now, Date: plan.DateOf(c.Kit.Site.Place, now),
		List: screens.List{Steps: c.Steps, Next: -1}}}.Marked()
}

// Marked says what kind of night it is.
func (m Session) Marked() Session {
	m.Status.Mark = screens.MarkOf(m.config.Kit.Example, m.config.Clock.Replaying(), m.Status.Name(), m.Status.Follows, m.Status.Orphaned)
	m.Status.Unkept = m.config.unkept()
	return m
}

// unkept says that nothing of a replay is kept, or of the example night, "" where all is on the disk.
func (c Config) unkept() string {
	switch {
	case c.onDisk():
		return ""
	case c.Kit.Example:
		return "This is the example night: nothing that you say in it is kept."
	}
	return "This is a replay: nothing that you say in it is kept."
}

// Open opens the journal of the night.
func (m Session) Open() tea.Cmd { return openJournal(m.config, m.Status.Date, m.Status.Now) }

// IsOpen tells whether the journal is open and the night has been read.
func (m Session) IsOpen() bool { return m.store != nil && m.Status.Tonight != nil }

// IsBusy tells whether something is being written, or read again.
func (m Session) IsBusy() bool { return m.writing || m.rereading }

// TakeOver makes this program the writer of the night.
func (m Session) TakeOver() tea.Cmd { return takeOver(m.config, m.Status.Name(), m.store) }

// Pending is how many events wait in memory to be written.
func (m Session) Pending() int { return m.pending }

// LetGo closes the journal so that it can be opened again, or not at all: the example's.
func (m Session) LetGo() error {
	m.stopWatching()
	if m.store == nil {
		return nil
	}
	return m.store.Close()
}

// At begins an instant: the clock is read once, and jumps of it are noticed.
func (m Session) At() (Session, tea.Cmd) {
	m.Status.Now = m.config.Clock.Now()
	return m.watchClock()
}

// Ask returns what the session wants since it was asked last.
func (m Session) Ask() (Session, Wants) {
	wants := m.wants
	m.wants = Wants{}
	return m, wants
}

// Second is the message that one has passed.
type Second struct{}

// Update handles one message; ok is false if it is none of the session's.
func (m Session) Update(msg tea.Msg) (next Session, cmd tea.Cmd, ok bool) {
	ok = true
	switch msg := msg.(type) {
	case Second:
		next, cmd = m.second()
	case journalOpenedMsg:
		next, cmd = m.journalOpened(msg)
	case eventWrittenMsg:
		next, cmd = m.eventWritten(msg)
	case eventsSeenMsg:
		next, cmd = m.eventsSeen(msg)
	case nightOpenedMsg:
		next, cmd = m.nightOpened(msg)
	case lettersTakenMsg:
		next, cmd = m.lettersTaken(msg)
	case programsRanMsg:
		next, cmd = m.programsRan(msg)
	case watchStartedMsg:
		next, cmd = m.watchStarted(msg)
	case ReportedMsg:
		next, cmd = m.reported(msg)
	case pricedMsg:
		next = m.priced(msg)
	case filesCheckedMsg:
		next = m.filesChecked(msg)
	case replayKeptMsg:
		next = m.replayKept(msg)
	case retriedMsg:
		next, cmd = m.retried(msg)
	default:
		next, ok = m.failed(msg)
	}
	return next, cmd, ok
}

// failed tells what went wrong with what was begun and need not be awaited.
func (m Session) failed(msg tea.Msg) (next Session, ok bool) {
	var err error
	what := ""
	switch msg := msg.(type) {
	case bell.RungMsg:
		err = msg.Err
	case takenOverMsg:
		err = msg.err
	case answeredMsg:
		what, err = "a script could not be answered: ", msg.err
	case backedUpMsg:
		what, err = "the night's backup copy failed: ", msg.err
	default:
		return m, false
	}
	if err != nil {
		m.Notice = what + err.Error()
	}
	return m, true
}
