package fits

import (
	"encoding/binary"
	"errors"
	"fmt"
	"math"
	"strconv"
)

// column is where a value of a table stands within a row, and what it is: the letter of its TFORM, and for one in
// the heap the letter of what lies there, and whether its descriptor has numbers of 64 bits.
type column struct {
	at     int64
	letter byte
	heap   bool
	wide   bool
}

// formSizes are the bytes of one value by the letter of its TFORM (section 7.3.1, table 18).
var formSizes = map[byte]int64{
	'L': 1, 'B': 1, 'I': 2, 'J': 4, 'K': 8, 'A': 1, 'E': 4, 'D': 8, 'C': 8, 'M': 16, 'P': 8, 'Q': 16,
}

// table is a binary table that lies whole in the file (section 7.3).
type table struct {
	rows, width    int64 // number of rows, and bytes of one
	start          int64 // of the first row in the file
	heap, heapSize int64
	columns        map[string]column
}

// table reads what the header says of its table, and checks it against the size of the file.
func (u unit) table(fileSize int64) (table, error) {
	if size, ok := u.dataSize(fileSize - u.data); !ok || u.data+size > fileSize {
		return table{}, fmt.Errorf("its compressed tiles do not fit into the file: %w", ErrCutShort)
	}
	t := table{start: u.data}
	t.width, _ = u.whole("NAXIS1")
	t.rows, _ = u.whole("NAXIS2")
	behind, _ := u.whole("PCOUNT")
	size, bits := t.width*t.rows, u.cards["BITPIX"].text
	axes, _ := u.whole("NAXIS")
	groups, _ := u.whole("GCOUNT")
	if bits != "8" || axes != 2 || groups != 1 {
		return table{}, errors.New("its table of compressed tiles has not BITPIX 8, NAXIS 2 and GCOUNT 1 as each table has")
	}
	t.heap = u.data + size
	if from, said := u.whole("THEAP"); said {
		if from < size || from > size+behind {
			return table{}, fmt.Errorf("THEAP is %d; the heap lies behind the table's %d bytes, within %d more", from, size, behind)
		}
		t.heap = u.data + from
	}
	t.heapSize = u.data + size + behind - t.heap
	var err error
	t.columns, err = u.columns(t.width)
	return t, err
}

// columns reads TTYPEn and TFORMn.
func (u unit) columns(width int64) (map[string]column, error) {
	all := map[string]column{}
	fields, _ := u.whole("TFIELDS")
	at := int64(0)
	for i := range min(max(fields, 0), 999) {
		keyword := fmt.Sprintf("TFORM%d", i+1)
		c, size, ok := form(u.cards[keyword].text)
		if !ok || size > width-at {
			return nil, fmt.Errorf("%s is %s; it is the form of a column of a table, which fits into the row's %d bytes",
				keyword, u.show(keyword, false), width)
		}
		if c.at = at; size > 0 {
			all[u.words(fmt.Sprintf("TTYPE%d", i+1))] = c
		}
		at += size
	}
	return all, nil
}

// form reads a TFORM such as 1D, 17A or 1PB(200).
func form(text string) (c column, size int64, ok bool) {
	digits := 0
	for digits < len(text) && text[digits] >= '0' && text[digits] <= '9' {
		digits++
	}
	count := int64(1)
	if digits > 0 {
		n, err := strconv.ParseInt(text[:digits], 10, 32)
		if err != nil {
			return column{}, 0, false
		}
		count = n
	}
	if digits == len(text) {
		return column{}, 0, false
	}
	letter := text[digits]
	if letter == 'X' {
		return column{letter: letter}, (count + 7) / 8, true
	}
	size, ok = formSizes[letter]
	c = column{letter: letter, heap: letter == 'P' || letter == 'Q', wide: letter == 'Q'}
	if c.heap {
		if digits+1 == len(text) || count != 1 {
			return column{}, 0, false
		}
		c.letter = text[digits+1]
	}
	return c, count * size, ok
}

// number returns a number of floating point or a whole one of a row.
func (c column) number(row []byte) float64 {
	b := row[c.at:]
	switch c.letter {
	case 'D':
		return math.Float64frombits(binary.BigEndian.Uint64(b))
	case 'E':
		return float64(math.Float32frombits(binary.BigEndian.Uint32(b)))
	case 'J':
		return float64(int32(binary.BigEndian.Uint32(b)))
	case 'I':
		return float64(int16(binary.BigEndian.Uint16(b)))
	case 'B':
		return float64(b[0])
	}
	return math.NaN()
}

// lies returns the bytes of a row's value that lies in the heap, and from which byte of it on; none of a column that
// is not there. ok is false where they do not lie within the heap.
func (t *table) lies(name string, row []byte) (from, size int64, ok bool) {
	c, has := t.columns[name]
	if !has || !c.heap {
		return 0, 0, true
	}
	each := formSizes[c.letter]
	if c.wide {
		size, from = int64(binary.BigEndian.Uint64(row[c.at:])), int64(binary.BigEndian.Uint64(row[c.at+8:]))
	} else {
		size, from = int64(binary.BigEndian.Uint32(row[c.at:])), int64(binary.BigEndian.Uint32(row[c.at+4:]))
	}
	if size < 0 || from < 0 || each == 0 || size > t.heapSize/each || from > t.heapSize-size*each {
		return 0, 0, false
	}
	return from, size * each, true
}
