package journal

import (
	"bytes"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"
)

const selectEvents = `SELECT ordinal, night, utc_ns, written_ns, writer, kind, body, checksum FROM events `

// DamagedError says that an event read from the file is not the one that was written.
type DamagedError struct{ Ordinal int64 }

func (e *DamagedError) Error() string {
	return fmt.Sprintf("event %d of the journal is damaged; open the journal for writing to salvage the rest", e.Ordinal)
}

// OpenReader returns the journal at path for reading only, beside its writer if there is one. It sees
// new events as they are committed, also after a damaged file has been replaced.
//
// Error: matches fs.ErrNotExist if there is no journal yet.
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

// Since returns the events after the given ordinal, in order, those waiting in memory included.
//
// Error: *DamagedError if one fails its checksum; the events before it are returned.
func (j *Journal) Since(ordinal int64) ([]Event, error) {
	return j.read(func(e Event) bool { return e.Ordinal > ordinal }, `WHERE ordinal > ? ORDER BY ordinal`, ordinal)
}

// Events returns the events of one night, in order, those waiting in memory included.
//
// Error: *DamagedError if one fails its checksum; the events before it are returned.
func (j *Journal) Events(night string) ([]Event, error) {
	return j.read(func(e Event) bool { return e.Night == night }, `WHERE night = ? ORDER BY ordinal`, night)
}

func (j *Journal) read(wanted func(Event) bool, where string, arguments ...any) ([]Event, error) {
	j.mu.Lock()
	defer j.mu.Unlock()
	if err := j.ready(); err != nil {
		return nil, err
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

// ready makes a reader follow a file that was replaced; a writer's is its own.
func (j *Journal) ready() error {
	if j.insert != nil {
		return nil
	}
	if err := j.follow(); err != nil {
		return fmt.Errorf("following the journal: %w", err)
	}
	return nil
}

// eachEvent calls do with each event that the rest of the query selects, once its checksum is proved.
func eachEvent(db *sql.DB, where string, do func(Event), arguments ...any) (err error) {
	rows, err := db.Query(selectEvents+where, arguments...)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, rows.Close()) }()
	for rows.Next() {
		var e Event
		var at, written int64
		var body, sum []byte
		if err := rows.Scan(&e.Ordinal, &e.Night, &at, &written, &e.Writer, &e.Kind, &body, &sum); err != nil {
			return err
		}
		e.At, e.Written, e.Body = time.Unix(0, at).UTC(), time.Unix(0, written).UTC(), json.RawMessage(body)
		if want := checksum(e); !bytes.Equal(sum, want[:]) {
			return &DamagedError{Ordinal: e.Ordinal}
		}
		do(e)
	}
	return rows.Err()
}

// Nights returns the nights that have events, in the order in which they were first written.
func (j *Journal) Nights() ([]string, error) {
	j.mu.Lock()
	defer j.mu.Unlock()
	if err := j.ready(); err != nil {
		return nil, err
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
