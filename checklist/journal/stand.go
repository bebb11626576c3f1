package journal

import (
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"duskhand/checklist/durable"
)

// A writer's files can be taken from under it: the folder is removed or renamed, another one put in its place. The
// system lets it write on into files that no longer have a name, which end with it. So at each commit, before it and
// after it, the writer looks whether its files are at their paths, and else writes the journal anew from those that
// it still has open.

// identity is which files a writer has open, by device and number.
type identity struct{ file, log os.FileInfo }

func identityOf(path string) (i identity, err error) {
	if i.file, err = os.Stat(path); err != nil {
		return i, err
	}
	i.log, err = os.Stat(path + "-wal")
	if errors.Is(err, fs.ErrNotExist) {
		err = nil
	}
	return i, err
}

// standing tells whether all files of a writer are where they were opened.
func (j *Journal) standing() bool {
	if j.lock == nil { // in memory, or a reader
		return true
	}
	there, err := identityOf(j.path)
	return err == nil && os.SameFile(there.file, j.opened.file) && (j.opened.log == nil || there.log != nil && os.SameFile(there.log, j.opened.log)) &&
		j.mark.standing(j.path) && j.lock.standing()
}

// Check looks whether the journal's files are where they belong, as each commit does, and writes them anew if they
// are not.
//
// Error: *WaitingError if that can't be done; what the journal held is then in memory only. *TakenOverError as of
// Append.
func (j *Journal) Check() error {
	j.mu.Lock()
	defer j.mu.Unlock()
	if j.insert == nil {
		return nil
	}
	return j.waits(j.stand())
}

// Renewed returns, once, what the person must know of a journal that was written anew; "" if it was not.
func (j *Journal) Renewed() (said string) {
	j.mu.Lock()
	defer j.mu.Unlock()
	said, j.renewed = j.renewed, ""
	return said
}

// stand makes sure that the journal's files are at their paths, with all that is known in them.
func (j *Journal) stand() error {
	if j.standing() {
		j.adrift = false
		return nil
	}
	if err := j.lock.stillOurs(); err != nil && j.known() {
		return err // taken over in the orderly way: the other has all that we wrote
	}
	j.adrift = true
	all, err := j.allEvents()
	if err != nil {
		return fmt.Errorf("the journal's files are gone from %s, and what it held can't be read any more: %w", j.path, err)
	}
	if err := j.writeAnew(all); err != nil {
		return fmt.Errorf("the journal's files are gone from %s and can't be written anew: %w", j.path, err)
	}
	j.adrift = false
	return nil
}

func (j *Journal) allEvents() (all []Event, err error) {
	err = eachEvent(j.db, `ORDER BY ordinal`, func(e Event) { all = append(all, e) })
	return all, err
}

// atRisk returns the events that end with the program: those that wait, and all if the files are gone.
func (j *Journal) atRisk() []Event {
	if !j.adrift {
		return slices.Clone(j.pending)
	}
	all, _ := j.allEvents() // what can be read is all there is
	return append(all, j.pending...)
}

// waits says that events wait because of err, unless it is that another program has taken over.
func (j *Journal) waits(err error) error {
	var taken *TakenOverError
	if err == nil || errors.As(err, &taken) {
		return err
	}
	return &WaitingError{Count: len(j.atRisk()), Cause: err}
}

// known tells whether the journal that is at the path now has what we wrote last.
func (j *Journal) known() bool {
	if there, err := os.Stat(j.path); err == nil && os.SameFile(there, j.opened.file) {
		return true
	}
	other, err := OpenReader(j.path)
	if err != nil {
		return false
	}
	defer other.Close() // only read
	var ours, theirs []Event
	where := `WHERE ordinal = (SELECT max(ordinal) FROM events)`
	if eachEvent(j.db, where, func(e Event) { ours = append(ours, e) }) != nil || len(ours) == 0 {
		return false
	}
	err = eachEvent(other.db, `WHERE ordinal = ?`, func(e Event) { theirs = append(theirs, e) }, ours[0].Ordinal)
	return err == nil && len(theirs) == 1 && checksum(theirs[0]) == checksum(ours[0])
}

// writeAnew puts a journal of these events in its place and opens it. What is there is set aside. Until the new one
// is whole the files open so far stay so; if the last step fails all is kept in memory.
func (j *Journal) writeAnew(all []Event) error {
	if err := os.MkdirAll(filepath.Dir(j.path), 0o700); err != nil {
		return err
	}
	lock, err := j.lock.renew(j.writer, j.now())
	if err != nil {
		return err
	}
	j.lock = lock
	if err := j.build(newPath(j.path), all, j.steps); err != nil {
		return err
	}
	aside, err := j.makeWay()
	if err != nil {
		return err
	}
	if err := j.moveInto(all); err != nil {
		return err
	}
	j.renewed = fmt.Sprintf("The journal's files had been removed or replaced while the program ran. The journal is written anew at %s, with all %d events.", j.path, len(all))
	if aside != "" {
		j.renewed += fmt.Sprintf(" Another one lay there; it is in %s now, and is taken in with: duskhand record --import %s (after leaving).", aside, aside)
	}
	return nil
}

// makeWay sets aside what lies at the path and is not ours. SQLite removes the log at the path, whose ever it is,
// when our file is closed.
func (j *Journal) makeWay() (aside string, err error) {
	there, err := os.Stat(j.path)
	if err == nil && j.opened.file != nil && !os.SameFile(there, j.opened.file) && there.Size() > 0 {
		aside = freeName(j.path + ".other-" + stamp(j.now()))
	} else {
		return "", nil
	}
	for _, end := range []string{"", "-wal", "-shm"} {
		if err := renameIfThere(j.path+end, aside+end); err != nil {
			return "", err
		}
	}
	return aside, nil
}

// moveInto closes the files open so far and opens the new one under the journal's name.
func (j *Journal) moveInto(all []Event) error {
	memory, err := InMemory(j.writer, j.now)
	if err != nil {
		return err
	}
	memory.pending = all
	if err := memory.commit(); err != nil {
		return errors.Join(err, memory.closeFiles())
	}
	// What closing says is about files that nobody has any more.
	_ = j.closeFiles()
	j.db, j.insert, j.mark, j.opened = memory.db, memory.insert, nil, identity{}
	for _, end := range []string{"-wal", "-shm"} {
		if err := os.RemoveAll(j.path + end); err != nil {
			return err
		}
	}
	if err := errors.Join(os.Rename(newPath(j.path), j.path), durable.Names(filepath.Dir(j.path))); err != nil {
		return err
	}
	err = j.openNew()
	if err != nil {
		j.db, j.insert, j.mark, j.opened = memory.db, memory.insert, nil, identity{}
		return err
	}
	return memory.closeFiles()
}

// openNew opens what has just been written, with a mark of its own.
func (j *Journal) openNew() (err error) {
	last := j.last
	var db *sql.DB
	if db, err = openDB(fileURI(j.path) + "?" + writerPragmas); err != nil {
		return err
	}
	j.db, j.insert = db, nil
	if err = j.start(j.steps); err == nil {
		j.mark, err = openMark(j.path, len(j.steps))
	}
	if err == nil {
		j.writeMark()
		j.opened, err = identityOf(j.path)
	}
	j.last = max(last, j.last)
	if err != nil {
		return errors.Join(err, j.closeFiles())
	}
	return nil
}
