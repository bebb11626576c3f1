package fits

import (
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
)

// errTile is in the error of a tile that does not hold what it should.
var errTile = errors.New("does not hold the pixels that it should: the frame is damaged; copy it anew")

// untiler uncompresses tiles one by one, in memory that serves for all of them.
type untiler struct {
	*tiles
	file   io.ReaderAt
	code   []byte // a tile as it stands in the file
	plain  bytes.Buffer
	whole  []int32
	values []float32
	zip    gzip.Reader
}

// fill makes the plane as it would stand uncompressed in a file. make gives its memory, and is asked after the tiles
// were seen to be able to fill it.
func (t *tiles) fill(file io.ReaderAt, memory func() []byte) error {
	rows := make([]byte, t.rows*t.width) // lies within the file, as table has checked
	if _, err := file.ReadAt(rows, t.start); err != nil {
		return err
	}
	if err := t.believable(rows); err != nil {
		return err
	}
	u := &untiler{tiles: t, file: file}
	plane := memory()
	for n := range t.rows {
		box, ok := t.box(n)
		if !ok {
			continue
		}
		if err := u.tileInto(plane, rows[n*t.width:][:t.width], n, box); err != nil {
			return fmt.Errorf("tile %d of %d %w", n+1, t.rows, err)
		}
	}
	return nil
}

// believable holds that tiles lie in the heap, not over one another, and are not more pixels than can be packed in
// their bytes.
func (t *tiles) believable(rows []byte) error {
	left := t.heapSize
	for n := range t.rows {
		box, _ := t.box(n)
		_, size, err := t.kept(rows[n*t.width:][:t.width])
		if left -= size; err != nil || left < 0 || box.pixels()/mostRatio > size {
			return fmt.Errorf("tile %d of %d %w", n+1, t.rows, errTile)
		}
	}
	return nil
}

// kept returns where the data of a tile lie, and how many bytes they have.
func (t *tiles) kept(row []byte) (in string, size int64, err error) {
	for _, in = range []string{inCode, inGzip, inPlain} {
		_, size, ok := t.lies(in, row)
		if !ok {
			return "", 0, errTile
		}
		if size > 0 {
			return in, size, nil
		}
	}
	return "", 0, errTile
}

// box is where a tile lies in the image: its first pixel, and how many it has along each axis.
type box struct{ first, length [3]int64 }

func (b box) pixels() int64 { return b.length[0] * b.length[1] * b.length[2] }

// box returns where tile n, from nought, lies; false when not in the plane that is read.
func (t *tiles) box(n int64) (b box, ok bool) {
	for i := range b.first {
		along := (t.size[i] + t.tile[i] - 1) / t.tile[i]
		b.first[i] = n % along * t.tile[i]
		b.length[i] = min(t.tile[i], t.size[i]-b.first[i])
		n /= along
	}
	return b, t.plane >= b.first[2] && t.plane < b.first[2]+b.length[2]
}

// tileInto uncompresses tile n and writes its rows where they belong in the plane.
func (u *untiler) tileInto(plane, row []byte, n int64, b box) error {
	in, size, err := u.kept(row)
	if err != nil {
		return err
	}
	from, _, _ := u.lies(in, row)
	u.code = resized(u.code, size)
	if _, err := u.file.ReadAt(u.code, u.heap+from); err != nil {
		return err
	}
	data, each, err := u.decode(in, row, n, b.pixels())
	if err != nil {
		return err
	}
	to := int64(max(u.bitpix, -32))
	to = max(to, -to) / 8
	for y := range b.length[1] {
		pixel := ((u.plane-b.first[2])*b.length[1] + y) * b.length[0]
		place := ((b.first[1]+y)*u.size[0] + b.first[0]) * to
		recoded(plane[place:][:b.length[0]*to], int(to), data[pixel*each:], int(each), u.bitpix < 0)
	}
	return nil
}

// decode returns a tile's pixels as they would stand in a file, and the bytes of each.
func (u *untiler) decode(in string, row []byte, n, pixels int64) (data []byte, each int64, err error) {
	if in == inCode && u.method[0] == 'R' {
		u.whole = resized(u.whole, pixels)
		if !u.rice.decode(u.code, u.whole) {
			return nil, 0, errTile
		}
		if u.scaled() {
			return u.unquantised(row, n), 4, nil
		}
		u.code = resized(u.code, 4*pixels)
		for i, v := range u.whole {
			binary.BigEndian.PutUint32(u.code[4*i:], uint32(v))
		}
		return u.code, 4, nil
	}
	if data, each, err = u.bytes(in, pixels); err != nil || in != inCode || !u.scaled() {
		return data, each, err
	}
	if each != 4 {
		return nil, 0, errTile
	}
	u.whole = resized(u.whole, pixels)
	for i := range u.whole {
		u.whole[i] = int32(binary.BigEndian.Uint32(data[4*i:]))
	}
	return u.unquantised(row, n), 4, nil
}

// bytes returns a tile that is kept as it would stand in a file, packed or not, and the bytes of each pixel. A writer
// may keep whole numbers in fewer or more bytes than the image had.
func (u *untiler) bytes(in string, pixels int64) (data []byte, each int64, err error) {
	data = u.code
	if in == inGzip || in == inCode && u.method != "NOCOMPRESS" {
		if data, err = u.unzipped(8 * pixels); err != nil {
			return nil, 0, err
		}
	}
	each = int64(len(data)) / pixels
	switch {
	case int64(len(data)) != each*pixels,
		each != 4 && each != 8 && (u.bitpix < 0 || each != 1 && each != 2):
		return nil, 0, errTile
	case in == inCode && u.method == "GZIP_2":
		data = u.unshuffled(data, each)
	}
	return data, each, nil
}

// scaled tells whether the image's floating point was made whole.
func (u *untiler) scaled() bool {
	_, column := u.columns["ZSCALE"]
	_, card := u.cards["ZSCALE"]
	return u.bitpix < 0 && (column || card)
}

// unquantised returns the floating point that u.whole stands for.
func (u *untiler) unquantised(row []byte, n int64) []byte {
	q := u.quantised
	q.seed += n
	for _, of := range []struct {
		name string
		set  func(float64)
	}{
		{"ZSCALE", func(v float64) { q.scale = v }},
		{"ZZERO", func(v float64) { q.zero = v }},
		{"ZBLANK", func(v float64) { q.blank, q.blanks = int64(v), true }},
	} {
		if c, has := u.columns[of.name]; has {
			of.set(c.number(row))
		} else if v, ok := u.cards.number(of.name); ok {
			of.set(v)
		}
	}
	u.values = resized(u.values, int64(len(u.whole)))
	q.floats(u.whole, u.values)
	u.code = resized(u.code, 4*int64(len(u.whole)))
	putFloats(u.code, u.values)
	return u.code
}

// unzipped returns what is packed in u.code, up to most bytes.
func (u *untiler) unzipped(most int64) ([]byte, error) {
	if err := u.zip.Reset(bytes.NewReader(u.code)); err != nil {
		return nil, errTile
	}
	u.plain.Reset()
	if _, err := io.Copy(&u.plain, io.LimitReader(&u.zip, most+1)); err != nil {
		return nil, errTile
	}
	return u.plain.Bytes(), nil
}

// unshuffled puts the bytes of each pixel together, which GZIP_2 keeps by rank: the highest of all first (10.4.2).
func (u *untiler) unshuffled(data []byte, each int64) []byte {
	count := int64(len(data)) / each
	u.code = resized(u.code, int64(len(data)))
	for i := range count {
		for k := range each {
			u.code[i*each+k] = data[k*count+i]
		}
	}
	return u.code
}
