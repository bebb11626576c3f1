package journal

import (
	"bytes"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"
)

const selectEvents = `SELECT ordinal, night, utc_ns, written_ns, writer, kind, body, checksum FROM events `

// DamagedError says that an event read from the file is not the one that was written.
type DamagedError struct{ Ordinal int64 }

func (e *DamagedError) Error() string {
	return fmt.Sprintf("event %d of the journal is damaged; %s", e.Ordinal, remedy)
}

// OpenReader returns the journal at path for reading only, beside its writer if there is one. It sees
// new events as they are committed, also after a damaged file has been replaced. It holds what it reads against
// the ordinals and the mark, as the writer does when it opens the file: a journal is never read silently short.
//
// Error: matches fs.ErrNotExist if there is no journal yet; *ShortError if there was one.
func OpenReader(path string) (*Journal, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return nil, fmt.Errorf("following the journal: %w", err)
	}
	j := &Journal{path: path}
	if err := j.follow(); err != nil {
		return nil, fmt.Errorf("following the journal: %w", err)
	}
	return j, nil
}

// follow makes sure that a reader has the file open that is at its path now.
func (j *Journal) follow() error {
	there, err := os.Stat(j.path)
	if errors.Is(err, fs.ErrNotExist) {
		return j.gone(err)
	}
	if err != nil {
		return err
	}
	if j.db != nil && os.SameFile(there, j.file) {
		return nil
	}
	if j.db != nil {
		if err := j.db.Close(); err != nil {
			return err
		}
	}
	j.db, err = openDB(fileURI(j.path) + "?" + readerPragmas)
	j.file = there
	return err
}

// gone returns what it means that the file is not there: that there is none yet, or that it is lost.
func (j *Journal) gone(missing error) error {
	m, err := readMark(j.path)
	if err != nil || m.last == 0 {
		return errors.Join(missing, err)
	}
	return &ShortError{Lost: []Gap{{From: 1, To: m.last, Before: &m.at}}}
}

// Since returns the events after the given ordinal, in order, those waiting in memory included.
//
// Error: *DamagedError if one fails its checksum, *ShortError if a reader finds that some are missing; all others
// are returned.
func (j *Journal) Since(ordinal int64) ([]Event, error) {
	return j.read(func(e Event) bool { return e.Ordinal > ordinal }, ordinal, `WHERE ordinal > ? ORDER BY ordinal`, ordinal)
}

// Events returns the events of one night, in order, those waiting in memory included.
//
// Error: as Since's. To a reader an event that is missing anywhere may be one of this night.
func (j *Journal) Events(night string) ([]Event, error) {
	return j.read(func(e Event) bool { return e.Night == night }, 0, `WHERE night = ? ORDER BY ordinal`, night)
}

// read returns the events wanted, all of which come after the given ordinal. The writer, which has inspected its
// file, asks for them by a query; a reader counts all after the ordinal.
func (j *Journal) read(wanted func(Event) bool, after int64, where string, arguments ...any) ([]Event, error) {
	j.mu.Lock()
	defer j.mu.Unlock()
	if j.insert == nil {
		return j.readProved(wanted, after)
	}
	var events []Event
	err := eachEvent(j.db, where, func(e Event) { events = append(events, e) }, arguments...)
	if err != nil {
		return events, fmt.Errorf("reading the journal: %w", err)
	}
	for _, e := range j.pending {
		if wanted(e) {
			events = append(events, e)
		}
	}
	return events, nil
}

// triesToRead is how often a reader looks again when something seems to be missing: a mark can be met half-written,
// and a file while it is replaced.
const triesToRead = 3

// readProved reads as a reader does. Once it was short it counts from the first event on until it is whole again,
// so that what is missing is said each time and not passed over.
func (j *Journal) readProved(wanted func(Event) bool, after int64) (events []Event, err error) {
	if j.doubted {
		after = 0
	}
	for range triesToRead {
		events, err = j.readOnce(wanted, after)
		var short *ShortError
		if !errors.As(err, &short) {
			break
		}
	}
	j.doubted = err != nil
	if err != nil {
		return events, fmt.Errorf("reading the journal: %w", err)
	}
	return events, nil
}

func (j *Journal) readOnce(wanted func(Event) bool, after int64) (events []Event, err error) {
	if err := j.follow(); err != nil {
		return nil, err
	}
	m, err := readMark(j.path) // before the events, since a writer goes on meanwhile and the mark may not lead
	if err != nil {
		return nil, err
	}
	counted := ledger{last: after}
	err = eachEvent(j.db, `WHERE ordinal > ? ORDER BY ordinal`, func(e Event) {
		counted.take(e)
		if wanted(e) {
			events = append(events, e)
		}
	}, after)
	if err != nil {
		return events, err
	}
	if lost := counted.lost(m); len(lost) > 0 {
		return events, &ShortError{Lost: lost}
	}
	if !m.found && counted.last > 0 {
		return events, &ShortError{}
	}
	return events, nil
}

// eachEvent calls do with each event that the rest of the query selects, once its checksum is proved.
//
// Error: *DamagedError of the first that fails it; those after it are there all the same.
func eachEvent(db *sql.DB, where string, do func(Event), arguments ...any) (err error) {
	rows, err := db.Query(selectEvents+where, arguments...)
	if err != nil {
		return err
	}
	var damaged error
	defer func() { err = errors.Join(damaged, err, rows.Close()) }()
	for rows.Next() {
		var e Event
		var at, written int64
		var body, sum []byte
		if err := rows.Scan(&e.Ordinal, &e.Night, &at, &written, &e.Writer, &e.Kind, &body, &sum); err != nil {
			return err
		}
		e.At, e.Written, e.Body = time.Unix(0, at).UTC(), time.Unix(0, written).UTC(), json.RawMessage(body)
		if want := checksum(e); !bytes.Equal(sum, want[:]) {
			if damaged == nil {
				damaged = &DamagedError{Ordinal: e.Ordinal}
			}
			continue
		}
		do(e)
	}
	return rows.Err()
}

// Nights returns the nights that have events, in the order in which they were first written.
//
// Error: ErrReader for a reader, which has Since.
func (j *Journal) Nights() ([]string, error) {
	j.mu.Lock()
	defer j.mu.Unlock()
	if j.insert == nil {
		return nil, ErrReader
	}
	nights, err := nightsOf(j.db)
	if err != nil {
		return nil, fmt.Errorf("reading the nights of the journal: %w", err)
	}
	seen := map[string]bool{"": true} // a report of salvage may belong to no night
	for _, night := range nights {
		seen[night] = true
	}
	for _, e := range j.pending {
		if !seen[e.Night] {
			seen[e.Night] = true
			nights = append(nights, e.Night)
		}
	}
	return nights, nil
}

func nightsOf(db *sql.DB) (nights []string, err error) {
	rows, err := db.Query(`SELECT night FROM events WHERE night <> '' GROUP BY night ORDER BY min(ordinal)`)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, rows.Close()) }()
	for rows.Next() {
		var night string
		if err := rows.Scan(&night); err != nil {
			return nil, err
		}
		nights = append(nights, night)
	}
	return nights, rows.Err()
}
