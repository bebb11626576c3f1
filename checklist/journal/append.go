package journal

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"time"
)

// insertEvent passes over a row that is there already: a commit that reported an error may have
// reached the disk all the same. A different row under the same ordinal is refused by a trigger.
const insertEvent = `INSERT INTO events(ordinal, night, utc_ns, written_ns, writer, kind, body, checksum)
SELECT ?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8
WHERE NOT EXISTS (SELECT 1 FROM events WHERE ordinal = ?1 AND checksum = ?8)`

// WaitingError says that events could not be written and wait in memory. The night goes on; the next
// Append or Retry tries again, oldest first.
type WaitingError struct {
	Count int   // events that wait
	Cause error // of the last try
}

func (e *WaitingError) Error() string {
	noun := "events wait"
	if e.Count == 1 {
		noun = "event waits"
	}
	return fmt.Sprintf("the journal cannot be written (%v): %d %s in memory and will be tried again; "+
		"make room or make the disk writable", e.Cause, e.Count, noun)
}

func (e *WaitingError) Unwrap() error { return e.Cause }

// ErrReader is returned when a journal opened for reading is asked to write.
var ErrReader = errors.New("this journal was opened for reading only; open it for writing first")

// Append adds an event that happened at the instant at, with body as JSON, and returns it. It is
// committed and synced when Append returns without an error.
//
// Error: *WaitingError if the disk refused; the event returned is then valid, counts in Events and
// Since, and waits in memory. With any other error the event was not taken: ErrReader,
// *TakenOverError, or a body that is no JSON.
func (j *Journal) Append(night, kind string, at time.Time, body any) (Event, error) {
	if j.insert == nil {
		return Event{}, ErrReader
	}
	encoded, err := json.Marshal(body)
	if err != nil {
		return Event{}, fmt.Errorf("writing %q to the journal: %w", kind, err)
	}
	j.mu.Lock()
	defer j.mu.Unlock()
	event := Event{
		Ordinal: j.last + 1, Night: night, At: wallClock(at), Written: wallClock(j.now()),
		Writer: j.writer, Kind: kind, Body: encoded,
	}
	j.pending = append(j.pending, event)
	j.last++
	err = j.flush()
	var taken *TakenOverError
	if errors.As(err, &taken) && len(j.pending) > 0 { // another program gives this ordinal out now
		j.pending = j.pending[:len(j.pending)-1]
		j.last--
		return Event{}, err
	}
	return event, err
}

// Retry tries again to write what waits in memory; nil if nothing waits any more.
func (j *Journal) Retry() error {
	j.mu.Lock()
	defer j.mu.Unlock()
	return j.flush()
}

// Pending returns how many events wait in memory to be written.
func (j *Journal) Pending() int {
	j.mu.Lock()
	defer j.mu.Unlock()
	if !j.adrift {
		return len(j.pending)
	}
	return len(j.atRisk())
}

// Unwritten returns, after Close, the events that are not on the disk, in order.
func (j *Journal) Unwritten() []Event {
	j.mu.Lock()
	defer j.mu.Unlock()
	return slices.Clone(j.left)
}

// flush writes all pending events in one transaction, into files that are where they belong before and after it.
func (j *Journal) flush() error {
	if j.insert == nil { // a reader
		return nil
	}
	err := j.stand()
	if err == nil && len(j.pending) > 0 {
		if err = j.commit(); err == nil {
			j.wrote = j.pending[len(j.pending)-1].Written
			j.pending = nil
			j.writeMark()
			err = confirmed(j.stand())
		}
	}
	return j.waits(err)
}

// confirmed passes over that another program has taken the journal over since the commit: what was committed before is
// in the file that it goes on with.
func confirmed(err error) error {
	var taken *TakenOverError
	if errors.As(err, &taken) {
		return nil
	}
	return err
}

func (j *Journal) commit() error {
	tx, err := j.db.Begin()
	if err != nil {
		return err
	}
	defer tx.Rollback() // a no-op after Commit
	// Asked inside the transaction: whoever takes over waits for it to end before reading the file.
	if err := j.lock.stillOurs(); err != nil {
		return err
	}
	insert := tx.Stmt(j.insert)
	for _, e := range j.pending {
		sum := checksum(e)
		if _, err := insert.Exec(e.Ordinal, e.Night, e.At.UnixNano(), e.Written.UnixNano(),
			e.Writer, e.Kind, string(e.Body), sum[:]); err != nil {
			return err
		}
	}
	return tx.Commit()
}

// writeMark notes the last event on disk. A mark that cannot be written lags; that weakens the proof
// of the journal's end and loses nothing, so the next one makes it good and Close reports the last.
func (j *Journal) writeMark() {
	if j.mark != nil {
		j.mark.write(j.last, j.wrote)
	}
}

// wallClock returns t in UTC without its monotonic part, as it comes back from the disk.
func wallClock(t time.Time) time.Time { return time.Unix(0, t.UnixNano()).UTC() }
