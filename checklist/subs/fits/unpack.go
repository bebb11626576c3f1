package fits

import (
	"compress/gzip"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
)

// The bounds of a file packed with gzip. No deflated data unpack to more than 1032 times their size (RFC 1951: a
// match of 258 bytes takes two bits); the other is a choice of ours, several times what a camera's frame has.
const (
	mostRatio    = 1032
	mostUnpacked = 1 << 30 // bytes
	keptHead     = 1 << 20 // bytes of the beginning that are kept, where headers are read
)

// packed tells a file that is packed with gzip by its first bytes.
func packed(file io.ReaderAt) bool {
	var magic [2]byte
	_, err := file.ReadAt(magic[:], 0)
	return err == nil && magic == [2]byte{0x1f, 0x8b}
}

// unpacked reads a file packed with gzip as if it were not. It unpacks forward, so that the pixels behind a header
// are unpacked once and straight to where they go; reading backwards begins anew. It serves one reader at a time.
type unpacked struct {
	file io.ReaderAt
	size int64 // of the packed file
	zip  *gzip.Reader
	at   int64  // of the next byte that zip gives
	head []byte // the first bytes
}

// unpack returns a packed file as an unpacked one, with the size that it says to have.
//
// Error: what it says is more than can be in it, or more than is unpacked here.
func unpack(file io.ReaderAt, size int64) (u *unpacked, unpackedSize int64, err error) {
	var last [4]byte
	if _, err := file.ReadAt(last[:], max(0, size-4)); err != nil {
		return nil, 0, fmt.Errorf("its end can't be read: %w", ErrCutShort)
	}
	says := int64(binary.LittleEndian.Uint32(last[:])) // RFC 1952, ISIZE
	if says > mostUnpacked || says/mostRatio > size {
		return nil, 0, fmt.Errorf("says that %d bytes are packed in its %d, which can't be, or is no frame; up to %d are unpacked: %w",
			says, size, mostUnpacked, ErrCutShort)
	}
	u = &unpacked{file: file, size: size}
	if err := u.begin(); err != nil {
		return nil, 0, fmt.Errorf("is not packed with gzip as it should be: %w", err)
	}
	return u, says, nil
}

func (u *unpacked) begin() (err error) {
	u.at = 0
	u.zip, err = gzip.NewReader(io.NewSectionReader(u.file, 0, u.size))
	return err
}

// ReadAt reads unpacked bytes.
func (u *unpacked) ReadAt(p []byte, off int64) (n int, err error) {
	if end := off + int64(len(p)); end <= keptHead {
		if err := u.fillHead(end); err != nil && !errors.Is(err, io.EOF) {
			return 0, err
		}
		if off >= int64(len(u.head)) {
			return 0, io.EOF
		}
		if n = copy(p, u.head[off:]); n < len(p) {
			return n, io.EOF
		}
		return n, nil
	}
	if off < u.at {
		if err := u.begin(); err != nil {
			return 0, err
		}
	}
	skipped, err := io.CopyN(io.Discard, u.zip, off-u.at)
	u.at += skipped
	if err != nil {
		return 0, ended(err)
	}
	n, err = io.ReadFull(u.zip, p)
	u.at += int64(n)
	return n, ended(err)
}

// fillHead has the first bytes up to end, or as many as there are, kept.
func (u *unpacked) fillHead(end int64) error {
	more := end - int64(len(u.head))
	if more <= 0 {
		return nil
	}
	if u.at != int64(len(u.head)) {
		if err := u.begin(); err != nil {
			return err
		}
		u.head = u.head[:0]
		more = end
	}
	next := make([]byte, more)
	n, err := io.ReadFull(u.zip, next)
	u.at += int64(n)
	u.head = append(u.head, next[:n]...)
	return ended(err)
}

// ended makes of every way in which packed data end early the one that readers of files know, and says of what
// else is wrong that it is in the packing.
func ended(err error) error {
	switch {
	case err == nil, errors.Is(err, io.EOF):
		return err
	case errors.Is(err, io.ErrUnexpectedEOF):
		return io.EOF
	}
	return fmt.Errorf("it is not packed with gzip as it should be: %w", err)
}
