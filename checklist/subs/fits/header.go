package fits

import (
	"bytes"
	"errors"
	"fmt"
	"io"
)

// maxBlocks is how many blocks a header may have. A capture program writes one to five; a million bytes
// leave room for one that keeps a long history.
const maxBlocks = 360

// unit is one header of the file with where its data begin.
type unit struct {
	cards
	data int64 // offset of the first byte after the header
}

// readUnit reads the header that begins at offset.
func readUnit(r io.ReaderAt, offset int64) (unit, error) {
	u := unit{cards: cards{}}
	block := make([]byte, blockSize)
	last := ""
	for n := range int64(maxBlocks) {
		if _, err := r.ReadAt(block, offset+n*blockSize); err != nil {
			if errors.Is(err, io.EOF) {
				return unit{}, fmt.Errorf("the file ends before its header does (no END card): %w", ErrCutShort)
			}
			return unit{}, fmt.Errorf("reading the header: %w", err)
		}
		for i := 0; i < blockSize; i += cardSize {
			card := block[i : i+cardSize]
			if n == 0 && i == 0 && !begins(card) {
				return unit{}, notAHeader(card)
			}
			if bytes.HasPrefix(card, []byte("END     ")) {
				u.data = offset + (n+1)*blockSize
				return u, nil
			}
			last = u.add(card, last)
		}
	}
	return unit{}, fmt.Errorf("the header has no END card in its first %d bytes; it should end within them",
		maxBlocks*blockSize)
}

// begins tells whether a card is the first of a header (sections 4.4.1.1 and 4.4.1.2).
func begins(card []byte) bool {
	return bytes.HasPrefix(card, []byte("SIMPLE  = ")) || bytes.HasPrefix(card, []byte("XTENSION= "))
}

func notAHeader(card []byte) error {
	if bytes.HasPrefix(card, []byte{0x1f, 0x8b}) {
		return errors.New("is packed with gzip twice; it can be read when unpacked once")
	}
	return fmt.Errorf("is not a FITS file: it begins with %.12q, where a FITS file begins with \"SIMPLE  =\"", card)
}

// dataSize returns how many bytes of data follow the header, without the padding. ok is false when the
// header does not say, says nonsense, or says more than limit; nothing is allocated by it before that.
func (u unit) dataSize(limit int64) (size int64, ok bool) {
	axes, ok := u.whole("NAXIS")
	if !ok || axes < 0 || axes > 999 {
		return 0, false
	}
	if axes == 0 {
		return 0, true
	}
	bitpix, ok := u.whole("BITPIX")
	if !ok || bitpix == 0 || max(bitpix, -bitpix) > 64 {
		return 0, false
	}
	pixels := int64(1)
	for i := range axes {
		length, ok := u.whole(fmt.Sprintf("NAXIS%d", i+1))
		if !ok || length < 0 || length > 0 && pixels > limit/length {
			return 0, false
		}
		pixels *= length
	}
	extra, has := u.whole("PCOUNT")
	if !has {
		extra = 0
	}
	groups, has := u.whole("GCOUNT")
	if !has {
		groups = 1
	}
	if extra < 0 || extra > limit || groups < 1 || groups > limit {
		return 0, false
	}
	each := (pixels + extra) * max(bitpix, -bitpix) / 8 // eq. 2 of the standard
	if each > limit/groups {
		return 0, false
	}
	return each * groups, true
}

// padded returns a size rounded up to whole blocks.
func padded(size int64) int64 { return (size + blockSize - 1) / blockSize * blockSize }
