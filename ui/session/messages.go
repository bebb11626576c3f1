package session

import (
	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/checklist/inbox"
	"duskhand/checklist/journal"
	"duskhand/checklist/journal/fallback"
	"duskhand/checklist/subs/watch"
	"duskhand/plan"
)

// All messages of the session, with who sends them.

// journalOpenedMsg comes from openJournal, once. Script is what a replay will say as its time comes.
type journalOpenedMsg struct {
	fallback.Opened
	night  string
	script []journal.Event
	err    error // what went wrong
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

// pricedMsg comes from priceAxis.
type pricedMsg struct {
	of    advice.Pricing
	price plan.Price
}

// programsRanMsg comes from runPrograms when the operator's programs have ended.
type programsRanMsg struct {
	night  string
	failed []checklist.CommandFailedBody
}

// answeredMsg comes from answerLetter.
type answeredMsg struct{ err error }

// backedUpMsg comes from backUp.
type backedUpMsg struct{ err error }

// watchStartedMsg hands over what the watch will say.
type watchStartedMsg struct {
	reports <-chan watch.Report
	err     error
}

// ReportedMsg is one thing that the watch said, and the room on the disk, nil if nobody knows. Reports is where the next
// one comes from.
type ReportedMsg struct {
	Report  watch.Report
	Reports <-chan watch.Report
	Free    *uint64
}
