package ui

import (
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist"
	"duskhand/checklist/inbox"
	"duskhand/checklist/journal"
	"duskhand/checklist/subs/watch"
)

// All messages of the program, with who sends and who takes them. The root takes every one.

// tickMsg comes once a second of the night's clock, from tick. Generation tells ticks from before a
// resume, which are dropped.
type tickMsg struct{ generation int }

// journalOpenedMsg comes from openJournal, once. Script is what a replay will say as its time comes.
type journalOpenedMsg struct {
	journal eventStore
	night   string
	events  []journal.Event
	script  []journal.Event
	follows string // who writes the journal, if it is only read
	notice  string // what the person must know of the opening: what was salvaged
	err     error  // what went wrong

	unwritten string // why the night is kept in memory for now; "" if it is on the disk
	pending   int    // how many events are there only
}

// eventWrittenMsg comes from writeEvent when an event is on the disk, or could not be put there.
type eventWrittenMsg struct {
	night    string
	event    journal.Event
	err      error  // *journal.WaitingError: it counts, and waits in memory
	kept     bool   // the event counts
	recorded bool   // said in the night that is replayed, which has drawn its conclusions
	pending  int    // how many wait in memory now
	renewed  string // what the person must know if the journal's files were gone; "" if they were not
	aside    bool   // written beside what the operator says, which may be on its way
}

// filesCheckedMsg comes from checkFiles.
type filesCheckedMsg struct {
	err     error // the files are gone, and can't be written anew
	pending int   // how many events are in memory only
	renewed string
}

// eventsSeenMsg comes from followEvents: what another program has written since.
type eventsSeenMsg struct {
	night  string
	events []journal.Event
	upTo   int64          // the last ordinal that was read, of whatever night
	writer *journal.Owner // nil if nobody writes any more
	err    error
}

// nightOpenedMsg comes from loadNight when the site's noon begins another night.
type nightOpenedMsg struct {
	night  string
	events []journal.Event
	err    error
}

// alarmRungMsg comes from ring when a command of the operator's failed.
type alarmRungMsg struct{ err error }

// retriedMsg comes from retryWriting.
type retriedMsg struct {
	err     error
	pending int // how many events still wait in memory
}

// takenOverMsg comes from takeOver when the journal could not be taken over.
type takenOverMsg struct{ err error }

// lettersTakenMsg comes from takeLetters: what scripts have said since.
type lettersTakenMsg struct {
	letters []inbox.Message
	err     error
}

// programsRanMsg comes from runPrograms when the operator's programs have ended.
type programsRanMsg struct {
	night  string
	failed []checklist.CommandFailedBody
}

// answeredMsg comes from answerLetter.
type answeredMsg struct{ err error }

// foundMsg comes from search with the answer to a question of the Decide screen. Number is the question's;
// answers to earlier ones are dropped. err is that of a computation that was given up.
type foundMsg[A any] struct {
	number int
	answer A
	err    error
}

// searchingMsg comes from search while that takes long; again goes on waiting.
type searchingMsg[A any] struct {
	number, done, total int
	again               tea.Cmd
}

// backedUpMsg comes from backUp.
type backedUpMsg struct{ err error }

// alarmTimeout bounds an alarm command of the operator's: it must not pile up.
const alarmTimeout = 20 * time.Second

// typedBeforeMsg comes from openForm: what was typed into the form when the program ran before.
type typedBeforeMsg struct {
	typed map[string]string
	err   error
}

// kitOpenedMsg comes from kitWritten: what to go on with, now that a new kit is on the disk.
type kitOpenedMsg struct {
	config Config
	err    error
}

// exampleClosedMsg comes from closeExample.
type exampleClosedMsg struct{ err error }

// pageSavedMsg says where the page was written.
type pageSavedMsg struct {
	paths []string
	err   error
}

// watchStartedMsg hands over what the watch will say.
type watchStartedMsg struct {
	reports <-chan watch.Report
	err     error
}

// reportedMsg is one thing that the watch said, and the room on the disk, nil if nobody knows.
type reportedMsg struct {
	report  watch.Report
	reports <-chan watch.Report
	free    *uint64
}
