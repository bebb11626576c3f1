package journal

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"time"

	"duskhand/sky/words"

	"github.com/gofrs/flock"
)

// Owner is the program that writes a journal.
type Owner struct {
	Writer string    `json:"writer"`
	PID    int       `json:"pid"`
	Since  time.Time `json:"since"` // UTC
}

// HeldError says that another live program writes the journal.
type HeldError struct{ Owner Owner }

func (e *HeldError) Error() string {
	return fmt.Sprintf("the journal is being written by %s since %s UTC; follow it, or take it over",
		e.Owner.name(), words.DateMinute(e.Owner.Since, time.UTC))
}

// TakenOverError says that another program has taken the journal over from this one.
type TakenOverError struct{ Owner Owner }

func (e *TakenOverError) Error() string {
	return fmt.Sprintf("the journal was taken over by %s; follow it, or take it back", e.Owner.name())
}

func (o Owner) name() string {
	if o.Writer == "" {
		return "another program"
	}
	return fmt.Sprintf("%s (process %d)", o.Writer, o.PID)
}

// ownership is the lock that the writer holds. The operating system frees it when the process ends,
// however it ends. Its methods do nothing on nil, for a reader and for a journal in memory.
type ownership struct {
	lock *flock.Flock
	path string // of the journal
	over bool   // taken from a program that may still run

	unsigned error // why the owner could not be noted; told when the lock is freed
}

func lockPath(path string) string { return path + ".lock" }

// ownerPath is a file of its own because some systems let nobody read a locked one.
func ownerPath(path string) string { return path + ".owner" }

// acquire takes the lock if it is free.
func acquire(path, writer string, now time.Time) (*ownership, error) {
	for {
		own := &ownership{lock: flock.New(lockPath(path)), path: path}
		got, err := own.lock.TryLock()
		if err != nil {
			return nil, fmt.Errorf("locking the journal: %w", err)
		}
		if !got {
			return nil, errors.Join(&HeldError{Owner: readOwner(path)}, own.lock.Close())
		}
		if own.stillOurs() == nil {
			own.sign(writer, now)
			return own, nil
		}
		// Someone took over between the opening of the lock file and its locking.
		if err := own.lock.Close(); err != nil {
			return nil, fmt.Errorf("locking the journal: %w", err)
		}
	}
}

// seize puts a lock file of its own, locked already, in the place of whatever is there. From then on the
// writer before finds that the lock is not its own; settle waits for the transaction it may be in.
func seize(path, writer string, now time.Time) (*ownership, error) {
	fresh := fmt.Sprintf("%s.%d", lockPath(path), os.Getpid())
	own := &ownership{lock: flock.New(fresh), path: path, over: true}
	got, err := own.lock.TryLock()
	if err == nil && !got {
		err = errors.New("another take-over is under way")
	}
	if err == nil {
		err = os.Rename(fresh, lockPath(path))
	}
	if err != nil {
		return nil, errors.Join(fmt.Errorf("taking the journal over: %w", err), own.lock.Close())
	}
	own.sign(writer, now)
	return own, nil
}

// sign notes who holds the lock. That it can fail, on a full disk, is no reason to refuse the night: the
// lock holds all the same, and whoever meets it is told of "another program".
func (o *ownership) sign(writer string, now time.Time) {
	text, err := json.Marshal(Owner{Writer: writer, PID: os.Getpid(), Since: wallClock(now)})
	var file *os.File
	if err == nil {
		file, err = openOwn(ownerPath(o.path))
	}
	if err == nil {
		_, err = file.Write(text)
		err = errors.Join(err, file.Truncate(int64(len(text))), file.Close())
	}
	o.unsigned = err
}

// Writing returns who writes the journal at path; ok is false if nobody does, as when the writer has ended, however it
// ended. Its question is a shared lock for an instant, in which a writer that opens the journal must try again.
func Writing(path string) (owner Owner, ok bool) {
	probe := flock.New(lockPath(path), flock.SetFlag(os.O_RDONLY))
	free, err := probe.TryRLock()
	if free || err != nil { // no lock file: nobody has written there yet
		_ = probe.Close() // nothing was written
		return Owner{}, false
	}
	return readOwner(path), true
}

// readOwner returns who signed last; the zero Owner if that cannot be read.
func readOwner(path string) (owner Owner) {
	text, err := os.ReadFile(ownerPath(path))
	if err != nil || json.Unmarshal(text, &owner) != nil {
		return Owner{}
	}
	return owner
}

// stillOurs returns *TakenOverError if the lock file at path is not the one that we hold.
func (o *ownership) stillOurs() error {
	if o == nil {
		return nil
	}
	held, err := o.lock.Stat()
	if err != nil {
		return err
	}
	there, err := os.Stat(lockPath(o.path))
	switch {
	case errors.Is(err, fs.ErrNotExist): // swept away; nobody has come in our place yet
		return nil
	case err != nil:
		return err
	case !os.SameFile(held, there):
		return &TakenOverError{Owner: readOwner(o.path)}
	}
	return nil
}

// standing tells whether the lock file is at its path.
func (o *ownership) standing() bool {
	held, err := o.lock.Stat()
	if err != nil {
		return false
	}
	there, err := os.Stat(lockPath(o.path))
	return err == nil && os.SameFile(held, there)
}

// renew returns a lock whose file is at its path, in the place of one whose file was removed.
func (o *ownership) renew(writer string, now time.Time) (*ownership, error) {
	if o.standing() {
		return o, nil
	}
	fresh, err := acquire(o.path, writer, now)
	if err != nil {
		return nil, err
	}
	_ = o.lock.Close() // of a file that nobody has any more
	return fresh, nil
}

func (o *ownership) release() error {
	if o == nil {
		return nil
	}
	return errors.Join(o.unsigned, o.lock.Close())
}
