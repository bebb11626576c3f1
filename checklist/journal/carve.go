package journal

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"slices"
	"strings"
	"time"
)

// carve returns the events that can be found in the bytes of the file and its write-ahead log, in
// order, whatever state they are in. It trusts nothing in the file but rows that prove themselves by
// their checksum: it tries every offset as the start of a table row. Events are never changed or
// erased, so a row that proves itself is an event that was appended, however stale its page.
//
// Source of the row format: sqlite.org/fileformat2.html, sections 1.6, 2.1 and 4.
func carve(path string) ([]Event, error) {
	var image image
	var err error
	if image.file, err = readIfThere(path); err != nil {
		return nil, err
	}
	if image.log, err = readIfThere(path + "-wal"); err != nil {
		return nil, err
	}
	found := map[int64]Event{}
	for _, area := range [][]byte{image.file, image.log} {
		for offset := range area {
			e, ok := image.row(area[offset:])
			// Two events can prove themselves for one ordinal if the first never got past the log of
			// a program that died; the later one is the journal's.
			if old, twice := found[e.Ordinal]; ok && (!twice || e.Written.After(old.Written)) {
				found[e.Ordinal] = e
			}
		}
	}
	events := make([]Event, 0, len(found))
	for _, e := range found {
		events = append(events, e)
	}
	slices.SortFunc(events, func(a, b Event) int { return int(a.Ordinal - b.Ordinal) })
	return events, nil
}

func readIfThere(path string) ([]byte, error) {
	content, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	return content, err
}

// image is the content of the file and of its write-ahead log.
type image struct{ file, log []byte }

// row reads the table row that starts at cell, if one does.
func (m image) row(cell []byte) (Event, bool) {
	length, rest, ok := varint(cell)
	if !ok {
		return Event{}, false
	}
	ordinal, rest, ok := varint(rest)
	// The record begins with its header's length, about a dozen, and the type NULL of the ordinal,
	// which is kept as the row's key. This turns nearly every offset away at once.
	if !ok || ordinal == 0 || len(rest) < 2 || rest[0] < 9 || rest[0] > 40 || rest[1] != 0 {
		return Event{}, false
	}
	columns, ok := columnLengths(rest[1:min(int(rest[0]), len(rest))])
	if !ok || length != uint64(rest[0])+columns.total() {
		return Event{}, false
	}
	for _, logFirst := range []bool{true, false} {
		if record, ok := m.payload(rest, length, logFirst); ok {
			e, ok := columns.event(record[rest[0]:], int64(ordinal))
			if ok {
				return e, true
			}
		}
	}
	return Event{}, false
}

// payload returns the record of the given length that starts at local and may go on in overflow pages.
func (m image) payload(local []byte, length uint64, logFirst bool) ([]byte, bool) {
	const most, least = pageSize - 35, (pageSize-12)*32/255 - 23 // bytes kept in the leaf page
	if length <= most {
		return local[:min(length, uint64(len(local)))], uint64(len(local)) >= length
	}
	keep := least + (length-least)%(pageSize-4)
	if keep > most {
		keep = least
	}
	if uint64(len(local)) < keep+4 || length > uint64(len(m.file)+len(m.log)) {
		return nil, false
	}
	record := slices.Clone(local[:keep])
	next := binary.BigEndian.Uint32(local[keep:])
	for uint64(len(record)) < length {
		page := m.page(next, logFirst)
		if page == nil {
			return nil, false
		}
		next = binary.BigEndian.Uint32(page)
		record = append(record, page[4:]...)
	}
	return record[:length], true
}

// page returns page number n: its newest copy in the log, or that in the file.
func (m image) page(n uint32, logFirst bool) []byte {
	const logHeader, frameHeader = 32, 24
	if logFirst {
		frames := (len(m.log) - logHeader) / (frameHeader + pageSize)
		for i := frames - 1; i >= 0; i-- {
			frame := m.log[logHeader+i*(frameHeader+pageSize):]
			if binary.BigEndian.Uint32(frame) == n {
				return frame[frameHeader : frameHeader+pageSize]
			}
		}
	}
	if n == 0 || int64(n)*pageSize > int64(len(m.file)) {
		return nil
	}
	return m.file[int64(n-1)*pageSize : int64(n)*pageSize]
}

// columnSizes are the lengths in bytes of the row's columns but the ordinal, in the table's order.
type columnSizes struct {
	size     [7]uint64
	constant [7]int64 // the value of an integer column of no length
}

func (c columnSizes) total() (bytes uint64) {
	for _, size := range c.size {
		bytes += size
	}
	return bytes
}

// columnLengths reads the types of a record's header: NULL, text, two integers, three texts, 32 bytes.
func columnLengths(header []byte) (c columnSizes, ok bool) {
	header = header[1:]
	for i, kind := range "tiitttb" {
		code, rest, ok := varint(header)
		if !ok {
			return c, false
		}
		header = rest
		if code > 1<<32 { // keeps the sum of the sizes from wrapping round
			return c, false
		}
		switch {
		case kind == 't' && code >= 13 && code%2 == 1:
			c.size[i] = (code - 13) / 2
		case kind == 'b' && code == 12+2*32:
			c.size[i] = 32
		case kind == 'i' && code >= 1 && code <= 6:
			c.size[i] = [...]uint64{1: 1, 2: 2, 3: 3, 4: 4, 5: 6, 6: 8}[code]
		case kind == 'i' && (code == 8 || code == 9):
			c.constant[i] = int64(code - 8)
		default:
			return c, false
		}
	}
	return c, len(header) == 0
}

// event takes the columns apart and proves them by the checksum among them.
func (c columnSizes) event(content []byte, ordinal int64) (Event, bool) {
	var column [7][]byte
	for i, size := range c.size {
		column[i], content = content[:size], content[size:]
	}
	e := Event{
		Ordinal: ordinal,
		Night:   string(column[0]),
		At:      time.Unix(0, c.constant[1]+integer(column[1])).UTC(),
		Written: time.Unix(0, c.constant[2]+integer(column[2])).UTC(),
		Writer:  string(column[3]),
		Kind:    strings.Clone(string(column[4])),
		Body:    json.RawMessage(slices.Clone(column[5])),
	}
	sum := checksum(e)
	return e, bytes.Equal(sum[:], column[6])
}

// integer reads a big-endian signed integer of 0 to 8 bytes.
func integer(b []byte) (value int64) {
	if len(b) > 0 && b[0]&0x80 != 0 {
		value = -1
	}
	for _, octet := range b {
		value = value<<8 | int64(octet)
	}
	return value
}

// varint reads SQLite's variable-length integer of one to nine bytes.
func varint(b []byte) (value uint64, rest []byte, ok bool) {
	for i := 0; i < min(len(b), 9); i++ {
		if i == 8 {
			return value<<8 | uint64(b[i]), b[9:], true
		}
		value = value<<7 | uint64(b[i]&0x7f)
		if b[i] < 0x80 {
			return value, b[i+1:], true
		}
	}
	return 0, nil, false
}
