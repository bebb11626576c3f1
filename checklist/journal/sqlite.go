package journal

import (
	"database/sql"
	"errors"
	"net/url"
	"path/filepath"
	"strings"
)

// Pragmas of the connections. FULL makes the write-ahead log durable at each commit; the busy timeout
// outlasts a reader's checkpoint; cell_size_check finds damage earlier.
const (
	writerPragmas = "_txlock=immediate&_pragma=busy_timeout(5000)&_pragma=journal_mode(WAL)" +
		"&_pragma=synchronous(FULL)&_pragma=cell_size_check(ON)"
	readerPragmas = "mode=ro&_pragma=busy_timeout(5000)&_pragma=query_only(ON)"
	// checkPragmas read a file that nobody writes and that has no write-ahead log, touching nothing.
	checkPragmas = "mode=ro&immutable=1&_pragma=cell_size_check(ON)"
)

// fileURI returns an absolute path as a file: address.
func fileURI(path string) string { return addressOf(filepath.ToSlash(path)) }

// addressOf returns the file: address of a path with slashes, with the characters that mean something there
// escaped. A drive of Windows comes behind the third slash.
//
// Source: RFC 8089, appendix E.2; "Uniform Resource Identifiers" of the SQLite documentation, 3.1.
func addressOf(slashed string) string {
	if !strings.HasPrefix(slashed, "/") {
		slashed = "/" + slashed
	}
	return (&url.URL{Scheme: "file", Path: slashed}).String()
}

// openDB opens one connection and makes sure that it works.
func openDB(address string) (*sql.DB, error) {
	db, err := sql.Open("sqlite", address)
	if err != nil {
		return nil, err
	}
	// One connection: a second one would see another database when it is in memory, and wait for the
	// first one's transaction when it is not.
	db.SetMaxOpenConns(1)
	if err := db.Ping(); err != nil {
		return nil, errors.Join(err, db.Close())
	}
	return db, nil
}

// quoted returns s as an SQL text literal, for statements that take no parameters.
func quoted(s string) string { return "'" + strings.ReplaceAll(s, "'", "''") + "'" }
