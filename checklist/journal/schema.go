package journal

import (
	"database/sql"
	"fmt"
	"time"
)

// A migration leads from one schema version (PRAGMA user_version) to the next. Schema is what
// sqlite_schema holds afterwards, word for word: a file whose schema reads otherwise is damaged.
type migration struct {
	statements []string
	schema     []string
}

// There is no index: quick_check does not compare an index with its table, so a damaged one could
// hide events, and a night is found fast enough without.
const (
	createEvents = `CREATE TABLE events(
	ordinal INTEGER PRIMARY KEY,
	night TEXT NOT NULL,
	utc_ns INTEGER NOT NULL,
	written_ns INTEGER NOT NULL,
	writer TEXT NOT NULL,
	kind TEXT NOT NULL,
	body TEXT NOT NULL,
	checksum BLOB NOT NULL)`
	refuseUpdate = `CREATE TRIGGER events_are_not_changed BEFORE UPDATE ON events
BEGIN SELECT raise(ABORT, 'events of the journal are never changed'); END`
	refuseDelete = `CREATE TRIGGER events_are_not_erased BEFORE DELETE ON events
BEGIN SELECT raise(ABORT, 'events of the journal are never erased'); END`
	// INSERT OR REPLACE erases without firing a delete trigger, unless recursive triggers are on.
	refuseReplace = `CREATE TRIGGER events_are_not_replaced BEFORE INSERT ON events
WHEN EXISTS (SELECT 1 FROM events WHERE ordinal = new.ordinal)
BEGIN SELECT raise(ABORT, 'events of the journal are never replaced'); END`
)

func migrations() []migration {
	first := []string{createEvents, refuseUpdate, refuseDelete, refuseReplace}
	return []migration{{statements: first, schema: first}}
}

// NewerError says that the file was made by a newer version of this program.
type NewerError struct{ Version, Known int }

func (e *NewerError) Error() string {
	return fmt.Sprintf("the file has format %d and this program knows formats up to %d; "+
		"use the newer version of duskhand that made it", e.Version, e.Known)
}

func userVersion(db *sql.DB) (version int, err error) {
	err = db.QueryRow(`PRAGMA user_version`).Scan(&version)
	return version, err
}

// migrate brings the file to the newest version, each step in one transaction, after a backup copy
// beside the file if there is anything in it yet.
func migrate(db *sql.DB, path string, steps []migration, now func() time.Time) error {
	version, err := userVersion(db)
	switch {
	case err != nil:
		return err
	case version > len(steps):
		return &NewerError{Version: version, Known: len(steps)}
	case version == len(steps):
		return nil
	}
	if version > 0 && path != "" {
		copyPath := freeName(fmt.Sprintf("%s.format-%d-%s", path, version, stamp(now())))
		if err := copyInto(db, copyPath); err != nil {
			return fmt.Errorf("backing up before the change to format %d: %w", len(steps), err)
		}
	}
	for ; version < len(steps); version++ {
		if err := applyStep(db, steps[version], version+1); err != nil {
			return fmt.Errorf("changing to format %d: %w", version+1, err)
		}
	}
	return nil
}

func applyStep(db *sql.DB, step migration, version int) error {
	tx, err := db.Begin()
	if err != nil {
		return err
	}
	defer tx.Rollback() // a no-op after Commit
	for _, statement := range step.statements {
		if _, err := tx.Exec(statement); err != nil {
			return err
		}
	}
	if _, err := tx.Exec(fmt.Sprintf(`PRAGMA user_version = %d`, version)); err != nil {
		return err
	}
	return tx.Commit()
}
