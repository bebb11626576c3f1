package journal

import (
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"duskhand/checklist/durable"
)

// A mark remembers the ordinal of the last event confirmed. SQLite drops a damaged end of its
// write-ahead log without a word, and takes an emptied file for a new one; the mark is what tells
// such a loss from a journal that ends there. It is written and synced after each commit and before the
// event is confirmed, so it can lag behind the file by an event that never was, and never runs ahead:
// after a power cut, too, the end is proved.
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
	if linked(markPath(path)) {
		return mark{broken: true}, nil
	}
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
	file   syncedFile
	schema int
	fault  error // of the last write
}

// syncedFile is what a mark asks of its file.
type syncedFile interface {
	io.WriterAt
	Sync() error
	Stat() (fs.FileInfo, error)
	Close() error
}

func openMark(path string, schema int) (*markFile, error) {
	file, err := openOwn(markPath(path))
	if err == nil {
		err = durable.Names(filepath.Dir(path))
	}
	if err != nil {
		return nil, err
	}
	return &markFile{file: file, schema: schema}, nil
}

// write replaces the mark in one write of fixed length, which neither a killed program nor a power cut tears: it is
// shorter than a sector.
func (m *markFile) write(last int64, at time.Time) {
	if _, m.fault = m.file.WriteAt(mark{schema: m.schema, last: last, at: at}.bytes(), 0); m.fault == nil {
		m.fault = m.file.Sync()
	}
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
