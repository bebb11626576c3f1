package journal

import (
	"fmt"
	"time"
)

// AddressOf is the address under which SQLite opens a path.
func AddressOf(slashed string) string { return addressOf(slashed) }

// LimitPages makes the file full at so many pages more than it has, as a full disk would.
func (j *Journal) LimitPages(more int) error {
	var pages int
	if err := j.db.QueryRow(`PRAGMA page_count`).Scan(&pages); err != nil {
		return err
	}
	return j.db.QueryRow(fmt.Sprintf(`PRAGMA max_page_count = %d`, pages+more)).Scan(&pages)
}

// MakeReadOnly makes the connection refuse writing, or take it again.
func (j *Journal) MakeReadOnly(on bool) error {
	_, err := j.db.Exec(fmt.Sprintf(`PRAGMA query_only = %t`, on))
	return err
}

// recorded is a mark's file that notes what is asked of it.
type recorded struct {
	syncedFile
	calls []string
}

func (r *recorded) WriteAt(p []byte, at int64) (int, error) {
	r.calls = append(r.calls, "write")
	return r.syncedFile.WriteAt(p, at)
}

func (r *recorded) Sync() error {
	r.calls = append(r.calls, "sync")
	return r.syncedFile.Sync()
}

// RecordMark returns what is asked of the mark's file from now on, each time it is called.
func (j *Journal) RecordMark() (calls func() []string) {
	r := &recorded{syncedFile: j.mark.file}
	j.mark.file = r
	return func() []string { return r.calls }
}

// OpenWithNextFormat opens the journal as a version would that adds one more table.
func OpenWithNextFormat(path string, now func() time.Time) (*Journal, error) {
	const added = `CREATE TABLE added(x)`
	steps := migrations()
	steps = append(steps, migration{
		statements: []string{added},
		schema:     append(append([]string{}, steps[0].schema...), added),
	})
	return openAs(path, "test", now, steps, acquire)
}
