// Package journal keeps the events of all nights in one SQLite file: an append-only table with one
// writer and any number of readers.
//
// An event is a fact in the past tense. It is on the disk, synced, when Append returns. Ordinals count
// 1, 2, 3 … without a gap over all nights and are never used twice, so a missing one is a loss that
// can be counted. Every row carries a checksum over its other columns.
//
// Beside the file journal.db lie journal.db.lock (held by the writer), journal.db.owner (who that is)
// and journal.db.mark (the ordinal of the last event confirmed; see mark.go for why).
package journal

import (
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"time"

	_ "modernc.org/sqlite" // the driver named "sqlite"
)

// Event is one fact of a night.
type Event struct {
	Ordinal int64           // 1, 2, 3 … over all nights
	Night   string          // local date of the evening, 2026-12-05, or the key of a made-up night
	At      time.Time       // when it happened, UTC, to the nanosecond
	Written time.Time       // what the writer's clock showed when it was appended, UTC
	Writer  string          // which program wrote it
	Kind    string          // unknown kinds of newer versions are kept as they are
	Body    json.RawMessage // a JSON value
}

// Journal is an open journal. Its methods may be called from several goroutines.
type Journal struct {
	mu      sync.Mutex
	path    string // "" for one in memory
	writer  string
	now     func() time.Time
	db      *sql.DB
	insert  *sql.Stmt   // nil for a reader
	file    os.FileInfo // of a reader: which file it has open
	doubted bool        // of a reader: what was read last was short
	lock    *ownership  // nil for a reader and in memory
	mark    *markFile   // likewise
	last    int64       // last ordinal given out, pending ones included
	wrote   time.Time   // when the last event on disk was appended
	pending []Event
	report  *Report
	steps   []migration
	opened  identity // of a writer: which files it has open
	adrift  bool     // they are not at their paths, and could not be written anew
	renewed string   // what the person must know of that they were
	left    []Event  // once closed: what is in memory only
	exposed string   // what the person must know of its folder
}

// Open returns the journal at path for writing, making the file and its folders (0700) if need be.
//
// The file is checked first. A damaged one is set aside untouched and what can be proved is carried
// into a new one; Salvage then says what was lost. A file of an older version is backed up beside
// itself before it is migrated.
//
// Error: *HeldError if another live program writes it; *NewerError if a newer version made it. The
// lock of a program that died is free, and taken without asking.
func Open(path, writer string, now func() time.Time) (*Journal, error) {
	return openAs(path, writer, now, migrations(), acquire)
}

// OpenOnceFree is Open for a journal that another program may let go soon: while one holds it, wait is asked, which
// lets some time pass, and then it is tried again.
//
// Error: Open's; *HeldError once wait says that it has waited enough.
func OpenOnceFree(path, writer string, now func() time.Time, wait func(Owner) bool) (*Journal, error) {
	for {
		j, err := Open(path, writer, now)
		var held *HeldError
		if !errors.As(err, &held) || !wait(held.Owner) {
			return j, err
		}
	}
}

// TakeOver opens the journal at path for writing even if another program is writing it. The other's
// next Append fails with *TakenOverError; what it had confirmed until then is kept.
func TakeOver(path, writer string, now func() time.Time) (*Journal, error) {
	return openAs(path, writer, now, migrations(), seize)
}

// InMemory returns an empty journal that behaves like one on disk and leaves nothing there.
func InMemory(writer string, now func() time.Time) (*Journal, error) {
	db, err := openDB("file::memory:?" + writerPragmas)
	if err != nil {
		return nil, fmt.Errorf("making a journal in memory: %w", err)
	}
	j := &Journal{writer: writer, now: now, db: db}
	if err := j.start(migrations()); err != nil {
		return nil, errors.Join(fmt.Errorf("making a journal in memory: %w", err), db.Close())
	}
	return j, nil
}

type takeLock func(path, writer string, now time.Time) (*ownership, error)

func openAs(path, writer string, now func() time.Time, steps []migration, take takeLock) (*Journal, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return nil, fmt.Errorf("opening the journal: %w", err)
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return nil, fmt.Errorf("making the folder of the journal: %w", err)
	}
	lock, err := take(path, writer, now())
	if err != nil {
		return nil, err
	}
	j := &Journal{path: path, writer: writer, now: now, lock: lock, steps: steps, exposed: exposed(filepath.Dir(path))}
	if err := j.openFile(steps); err != nil {
		return nil, errors.Join(fmt.Errorf("opening the journal %s: %w", path, err), lock.release())
	}
	return j, nil
}

// openFile checks the file, puts a sound one in its place if it is damaged, and opens it.
func (j *Journal) openFile(steps []migration) error {
	if err := j.soundFile(steps); err != nil {
		return err
	}
	// SQLite would make it readable for everybody.
	file, err := os.OpenFile(j.path, os.O_CREATE|os.O_RDWR, 0o600)
	if err != nil {
		return err
	}
	if err := file.Close(); err != nil {
		return err
	}
	if j.db, err = openDB(fileURI(j.path) + "?" + writerPragmas); err != nil {
		return err
	}
	if err = j.start(steps); err == nil {
		j.mark, err = openMark(j.path, len(steps))
	}
	if err == nil {
		j.opened, err = identityOf(j.path)
	}
	if err != nil {
		return errors.Join(err, j.closeFiles())
	}
	j.writeMark()
	return nil
}

// start migrates the open file, prepares the insert and finds the last ordinal.
func (j *Journal) start(steps []migration) error {
	if err := migrate(j.db, j.path, steps, j.now); err != nil {
		return err
	}
	var err error
	if j.insert, err = j.db.Prepare(insertEvent); err != nil {
		return err
	}
	var wrote int64
	err = j.db.QueryRow(`SELECT ordinal, written_ns FROM events ORDER BY ordinal DESC LIMIT 1`).Scan(&j.last, &wrote)
	if errors.Is(err, sql.ErrNoRows) {
		err = nil
	}
	j.wrote = time.Unix(0, wrote).UTC()
	return err
}

// Salvage returns what was found wrong when the journal was opened; ok is false if nothing was.
func (j *Journal) Salvage() (report Report, ok bool) {
	if j.report == nil {
		return Report{}, false
	}
	return *j.report, true
}

// Exposed returns what the person must know of the journal's folder: that others can write into it; "" if they can't.
func (j *Journal) Exposed() string { return j.exposed }

// Close writes what is pending if it can, folds the write-ahead log into the file and frees the lock.
//
// Error: *WaitingError if events could not be written; Unwritten still has them.
func (j *Journal) Close() error {
	j.mu.Lock()
	defer j.mu.Unlock()
	unwritten := j.flush()
	if j.left = j.atRisk(); len(j.left) == 0 {
		unwritten = confirmed(unwritten)
	}
	return errors.Join(unwritten, j.closeFiles(), j.lock.release())
}

func (j *Journal) closeFiles() error {
	var faults []error
	if j.insert != nil {
		faults = append(faults, j.insert.Close())
	}
	return errors.Join(append(faults, j.db.Close(), j.mark.close())...)
}
