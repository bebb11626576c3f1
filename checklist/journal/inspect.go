package journal

import (
	"bytes"
	"database/sql"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
)

// pageSize is the size of the file's pages in bytes, SQLite's default since 3.12.
const pageSize = 4096

// finding is what the check of a file says: why it is damaged, or "" and how many events it holds.
type finding struct {
	damage string
	events int
}

// inspect checks the file at path without changing a byte of it.
//
// Error: the file could not be looked at, or it is of a newer format.
func inspect(path string, m mark, steps []migration) (finding, error) {
	damage, blank, err := readHeader(path)
	if err != nil || damage != "" {
		return finding{damage: damage}, err
	}
	log, err := fileSize(path + "-wal")
	if err != nil {
		return finding{}, err
	}
	if blank {
		if m.last > 0 || log > 0 {
			return finding{damage: "the file is missing or empty"}, nil
		}
		return finding{}, nil
	}
	if log == 0 {
		return inspectDatabase(fileURI(path)+"?"+checkPragmas, m, steps)
	}
	// Opening a file with a write-ahead log folds the log in, so look at a copy.
	folder, err := copyAside(path)
	if err != nil {
		return finding{}, err
	}
	found, err := inspectDatabase(fileURI(filepath.Join(folder, "journal"))+"?_pragma=cell_size_check(ON)", m, steps)
	return found, errors.Join(err, os.RemoveAll(folder))
}

// readHeader checks what SQLite would take for another kind of file. Blank means missing or empty.
// Source: sqlite.org/fileformat2.html, section 1.3.
func readHeader(path string) (damage string, blank bool, err error) {
	file, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return "", true, nil
	}
	if err != nil {
		return "", false, err
	}
	defer file.Close()
	header := make([]byte, 100)
	n, err := io.ReadFull(file, header)
	switch {
	case n == 0 && errors.Is(err, io.EOF):
		return "", true, nil
	case errors.Is(err, io.ErrUnexpectedEOF):
		return "the file ends within its header", false, nil
	case err != nil:
		return "", false, err
	case !bytes.HasPrefix(header, []byte("SQLite format 3\x00")) ||
		header[16] != pageSize>>8 || header[17] != 0 || header[18] > 2 || header[19] > 2 || header[20] != 0:
		return "the header of the file is damaged", false, nil
	}
	return "", false, nil
}

func inspectDatabase(address string, m mark, steps []migration) (found finding, err error) {
	db, err := openDB(address)
	if err != nil { // the file itself can be read: readHeader has done so
		return finding{damage: err.Error()}, nil
	}
	found, err = inspectTables(db, m, steps)
	if closing := db.Close(); closing != nil && found.damage == "" {
		found.damage = closing.Error()
	}
	return found, err
}

func inspectTables(db *sql.DB, m mark, steps []migration) (finding, error) {
	var verdict string
	if err := db.QueryRow(`PRAGMA quick_check(1)`).Scan(&verdict); err != nil {
		return finding{damage: err.Error()}, nil
	}
	if verdict != "ok" {
		return finding{damage: verdict}, nil
	}
	version, err := userVersion(db)
	if err != nil {
		return finding{damage: err.Error()}, nil
	}
	believable := m.found && m.schema <= len(steps)
	switch {
	case version > len(steps) && !believable:
		return finding{}, &NewerError{Version: version, Known: len(steps)}
	case version > len(steps) || version < m.schema || version < 0:
		return finding{damage: fmt.Sprintf("the file says that its format is %d, which it is not", version)}, nil
	}
	if damage := inspectSchema(db, version, steps); damage != "" {
		return finding{damage: damage}, nil
	}
	if version == 0 { // nothing in it yet: its maker died at once
		return finding{}, nil
	}
	return inspectEvents(db, m), nil
}

// inspectSchema compares the tables and triggers with what the migrations make, word for word.
func inspectSchema(db *sql.DB, version int, steps []migration) (damage string) {
	var want []string
	if version > 0 {
		want = slices.Sorted(slices.Values(steps[version-1].schema))
	}
	rows, err := db.Query(`SELECT sql FROM sqlite_schema`)
	if err != nil {
		return err.Error()
	}
	var got []string
	for rows.Next() {
		var text sql.NullString
		if err = rows.Scan(&text); err != nil {
			break
		}
		got = append(got, text.String)
	}
	if err = errors.Join(err, rows.Err(), rows.Close()); err != nil {
		return err.Error()
	}
	slices.Sort(got)
	if !slices.Equal(got, want) {
		return "the tables of the file are not those of a journal"
	}
	return ""
}

// inspectEvents proves each event and that none is missing but those already reported as lost.
func inspectEvents(db *sql.DB, m mark) finding {
	var counted ledger
	err := eachEvent(db, `ORDER BY ordinal`, counted.take)
	var damaged *DamagedError
	switch {
	case errors.As(err, &damaged):
		return finding{damage: fmt.Sprintf("event %d fails its checksum", damaged.Ordinal)}
	case err != nil:
		return finding{damage: err.Error()}
	}
	if lost := counted.lost(m); len(lost) > 0 {
		return finding{damage: fmt.Sprintf("events %d to %d are missing", lost[0].From, lost[0].To)}
	}
	return finding{events: counted.events}
}
