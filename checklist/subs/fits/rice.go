package fits

import "math/bits"

// riceBlocks are the numbers of pixels that may share a way of coding (section 10.4.1, BLOCKSIZE).
var riceBlocks = map[int64]bool{16: true, 32: true}

// riceWidth is how one size of pixel is coded: the bits of a block's code, the code whose differences stand as
// they are, and the bits of these.
type riceWidth struct{ code, plain, whole int }

var riceWidths = map[int64]riceWidth{1: {3, 6, 8}, 2: {4, 14, 16}, 4: {5, 25, 32}}

// rice decodes tiles of RICE_1: each pixel is the one before plus a difference, which is folded into a number
// without a sign; of a block's differences the lowest bits stand as they are, and the rest of each is as many
// zeros, ended by a one.
//
// Source: FITS Standard 4.0, section 10.4.1; Rice, Yeh & Miller, JPL 91-3 (1993).
type rice struct {
	bytes, block int64 // BYTEPIX and BLOCKSIZE
	bits         bitReader
}

// decode fills pixels from packed; false when packed says too little or nonsense.
func (r *rice) decode(packed []byte, pixels []int32) bool {
	width := riceWidths[r.bytes]
	r.bits = bitReader{data: packed}
	first, ok := r.bits.take(width.whole)
	last := int32(first)
	for len(pixels) > 0 && ok {
		block := pixels[:min(int(r.block), len(pixels))]
		pixels = pixels[len(block):]
		var code uint32
		if code, ok = r.bits.take(width.code); ok {
			last, ok = r.differences(block, int(code)-1, width, last)
		}
	}
	return ok
}

// differences decodes one block with that many low bits, and returns its last pixel.
func (r *rice) differences(block []int32, low int, width riceWidth, last int32) (int32, bool) {
	if low > width.plain {
		return 0, false
	}
	for i := range block {
		var folded, high uint32
		ok := true
		switch {
		case low == width.plain:
			folded, ok = r.bits.take(width.whole)
		case low >= 0:
			if high, ok = r.bits.zeros(); ok {
				folded, ok = r.bits.take(low)
			}
			folded |= high << low
		}
		if !ok {
			return 0, false
		}
		last = r.fits(last + int32(folded>>1^-(folded&1)))
		block[i] = last
	}
	return last, true
}

// fits lets a pixel go round at the ends of its size, as the writer's did.
func (r *rice) fits(v int32) int32 {
	switch r.bytes {
	case 1:
		return int32(uint8(v))
	case 2:
		return int32(int16(v))
	}
	return v
}

// bitReader reads bits from the highest of the first byte on.
type bitReader struct {
	data []byte
	held uint64 // the next bits, in its highest
	n    int    // how many of them are there
}

func (b *bitReader) fill() {
	for b.n <= 56 && len(b.data) > 0 {
		b.held |= uint64(b.data[0]) << (56 - b.n)
		b.data, b.n = b.data[1:], b.n+8
	}
}

// take returns the next count bits, 0 to 32.
func (b *bitReader) take(count int) (v uint32, ok bool) {
	if b.n < count {
		if b.fill(); b.n < count {
			return 0, false
		}
	}
	v = uint32(b.held >> 32 >> (32 - count))
	b.held, b.n = b.held<<count, b.n-count
	return v, true
}

// zeros returns how many zeros stand before the next one, and passes over that.
func (b *bitReader) zeros() (count uint32, ok bool) {
	for {
		if lead := bits.LeadingZeros64(b.held); lead < b.n {
			b.held, b.n = b.held<<(lead+1), b.n-lead-1
			return count + uint32(lead), true
		}
		count += uint32(b.n)
		b.held, b.n = 0, 0
		if b.fill(); b.n == 0 {
			return 0, false
		}
	}
}
