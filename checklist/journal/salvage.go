package journal

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"duskhand/checklist/durable"
)

// soundFile leaves a file at the journal's path that passes inspection, or none; j.report says what
// had to be done for it.
func (j *Journal) soundFile(steps []migration) (err error) {
	if j.lock.over {
		free := settle(j.path)
		defer func() { err = errors.Join(err, free()) }()
	}
	if err := j.finishSalvage(); err != nil {
		return err
	}
	m, err := readMark(j.path)
	if err != nil {
		return err
	}
	found, err := inspect(j.path, m, steps)
	if err != nil {
		return err
	}
	if found.damage != "" {
		return j.salvage(m, found.damage, steps)
	}
	if m.broken || !m.found && found.events > 0 {
		j.report = &Report{EndUnproved: true, Salvaged: Salvaged{Carried: found.events}}
	}
	return nil
}

// settle waits until the writer before has ended the transaction it may be in, and keeps its
// write-ahead log from being reset until the returned function is called. A file too damaged for that
// is one that nobody can write to either.
func settle(path string) (free func() error) {
	none := func() error { return nil }
	if size, err := fileSize(path); err != nil || size == 0 {
		return none
	}
	db, err := openDB(fileURI(path) + "?mode=rw&_txlock=immediate&_pragma=busy_timeout(5000)")
	if err != nil {
		return none
	}
	tx, err := db.Begin()
	if err != nil {
		return db.Close
	}
	return func() error { return errors.Join(tx.Rollback(), db.Close()) }
}

// salvage builds a new file beside the damaged one from what its checksums prove, sets the damaged
// one aside untouched, and puts the new one in its place.
func (j *Journal) salvage(m mark, reason string, steps []migration) error {
	events, err := carve(j.path)
	if err != nil {
		return fmt.Errorf("salvaging: %w", err)
	}
	aside := freeName(j.path + ".damaged-" + stamp(j.now()))
	j.report = &Report{EndUnproved: !m.found, Salvaged: Salvaged{
		Reason: reason, SetAside: aside, Carried: len(events), Lost: gapsIn(events, m),
	}}
	event, err := j.salvageEvent(events, m)
	if err != nil {
		return fmt.Errorf("salvaging: %w", err)
	}
	if err := j.build(newPath(j.path), append(events, event), steps); err != nil {
		return fmt.Errorf("salvaging into a new file: %w", err)
	}
	if err := j.swap(aside); err != nil {
		return fmt.Errorf("setting the damaged journal aside: %w", err)
	}
	return nil
}

// gapsIn returns what is missing among the events.
func gapsIn(events []Event, m mark) []Gap {
	var counted ledger
	for _, e := range events {
		counted.take(e)
	}
	return counted.lost(m)
}

// salvageEvent is the entry about the salvage itself, after all ordinals that may ever have been used.
func (j *Journal) salvageEvent(events []Event, m mark) (Event, error) {
	body, err := json.Marshal(j.report.Salvaged)
	if err != nil {
		return Event{}, err
	}
	at := wallClock(j.now())
	event := Event{Ordinal: m.last + 1, At: at, Written: at, Writer: j.writer, Kind: KindSalvaged, Body: body}
	if len(events) > 0 {
		last := events[len(events)-1]
		event.Ordinal, event.Night = max(event.Ordinal, last.Ordinal+1), last.Night
	}
	return event, nil
}

func newPath(path string) string { return path + ".new" }

// build writes the events into a new database at path, durable when it returns.
func (j *Journal) build(path string, events []Event, steps []migration) error {
	for _, name := range []string{path, path + "-wal", path + "-shm"} {
		if err := os.RemoveAll(name); err != nil {
			return err
		}
	}
	// SQLite would make it readable for everybody.
	file, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o600)
	if err == nil {
		err = file.Close()
	}
	if err != nil {
		return err
	}
	db, err := openDB(fileURI(path) + "?" + writerPragmas)
	if err != nil {
		return err
	}
	fresh := &Journal{db: db, now: j.now, pending: events}
	if err = fresh.start(steps); err == nil {
		err = fresh.commit()
	}
	return errors.Join(err, fresh.closeFiles())
}

// swap renames the damaged file with its write-ahead log and shared memory to aside, then the new one
// to the journal's path. A program that dies in between leaves finishSalvage the rest.
func (j *Journal) swap(aside string) error {
	for _, end := range []string{"", "-wal", "-shm"} {
		if err := renameIfThere(j.path+end, aside+end); err != nil {
			return err
		}
	}
	if err := os.Rename(newPath(j.path), j.path); err != nil {
		return err
	}
	return durable.Names(filepath.Dir(j.path))
}

// finishSalvage completes a swap that was cut short: the damaged file is aside, the new one is whole
// but not in its place yet. A new file beside one still in place is an unfinished one, built again.
func (j *Journal) finishSalvage() error {
	there, err := fileSize(j.path)
	if err != nil || there > 0 {
		return err
	}
	fresh, err := fileSize(newPath(j.path))
	if err != nil || fresh == 0 {
		return err
	}
	return j.swap(freeName(j.path + ".damaged-" + stamp(j.now())))
}
