package journal

import (
	"errors"
	"fmt"
	"hash/crc32"
	"io/fs"
	"os"
	"time"
)

// A mark remembers the ordinal of the last event confirmed. SQLite drops a damaged end of its
// write-ahead log without a word, and takes an emptied file for a new one; the mark is what tells
// such a loss from a journal that ends there. It is written after each commit, so it can lag behind
// the file by an event that was never confirmed, and never runs ahead. It is synced when the journal
// is closed; after a power cut it may lag more.
type mark struct {
	found  bool // a readable mark exists
	broken bool // one exists that cannot be read
	schema int
	last   int64
	at     time.Time // when that event was appended
}

const markFormat = "duskhand journal, format %04d, last event %019d, at %020d"

func (m mark) bytes() []byte {
	text := fmt.Sprintf(markFormat, m.schema, m.last, m.at.UnixNano())
	return fmt.Appendf(nil, "%s, sum %08x\n", text, crc32.ChecksumIEEE([]byte(text)))
}

func markPath(path string) string { return path + ".mark" }

func readMark(path string) (mark, error) {
	read, err := os.ReadFile(markPath(path))
	if errors.Is(err, fs.ErrNotExist) {
		return mark{}, nil
	}
	if err != nil {
		return mark{}, err
	}
	m := mark{found: true}
	var ns int64
	if _, err := fmt.Sscanf(string(read), markFormat, &m.schema, &m.last, &ns); err == nil {
		m.at = time.Unix(0, ns).UTC()
		if string(m.bytes()) == string(read) {
			return m, nil
		}
	}
	return mark{broken: true}, nil
}

// markFile is the mark of an open journal. Its methods do nothing on nil, for a journal in memory.
type markFile struct {
	file   *os.File
	schema int
	fault  error // of the last write
}

func openMark(path string, schema int) (*markFile, error) {
	file, err := os.OpenFile(markPath(path), os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return nil, err
	}
	return &markFile{file: file, schema: schema}, nil
}

// write replaces the mark in one write of fixed length, which a killed program cannot tear.
func (m *markFile) write(last int64, at time.Time) {
	_, m.fault = m.file.WriteAt(mark{schema: m.schema, last: last, at: at}.bytes(), 0)
}

// standing tells whether the mark is at its path.
func (m *markFile) standing(path string) bool {
	if m == nil {
		return false
	}
	held, err := m.file.Stat()
	if err != nil {
		return false
	}
	there, err := os.Stat(markPath(path))
	return err == nil && os.SameFile(held, there)
}

func (m *markFile) close() error {
	if m == nil {
		return nil
	}
	return errors.Join(m.fault, m.file.Sync(), m.file.Close())
}
