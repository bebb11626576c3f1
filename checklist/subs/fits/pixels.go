package fits

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
)

// Pixels are the pixels of one plane of a frame, kept as they stand in the file: as large as its data, no
// larger. The zero value is ready to be filled; filled again, it keeps its memory.
type Pixels struct {
	layout
	raw []byte
}

// Fill reads the frame's pixels into p in place of those that were there.
func (f *Frame) Fill(p *Pixels) error {
	p.layout = f.layout
	var err error
	if f.tiles != nil {
		err = f.tiles.fill(f.file, func() []byte { return p.room() })
	} else {
		_, err = f.file.ReadAt(p.room(), f.layout.offset)
	}
	if err != nil {
		p.layout, p.raw = layout{}, p.raw[:0]
		if errors.Is(err, io.EOF) {
			return fmt.Errorf("%s: its pixels end early: %w", f.name, ErrCutShort)
		}
		return fmt.Errorf("reading the pixels of %s: %w", f.name, err)
	}
	return nil
}

// room returns memory for the plane, which fits into the file or into what can be packed in it: layout and tiles have
// checked that.
func (p *Pixels) room() []byte {
	size := int(p.planeSize())
	if cap(p.raw) < size {
		p.raw = nil // let go before asking for more
		p.raw = make([]byte, size)
	}
	p.raw = p.raw[:size]
	return p.raw
}

// Planes returns how many planes the frame has, of which one is read.
func (f *Frame) Planes() int { return int(f.layout.planes) }

// Size returns width and height, pixels.
func (p *Pixels) Size() (width, height int) { return p.width, p.height }

// Top returns the largest value that a pixel can have, ADU: +Inf for floating point.
func (p *Pixels) Top() float64 {
	if p.bitpix < 0 {
		return math.Inf(1)
	}
	least, most := 0.0, 255.0 // 8 bits count from nought (section 5.2.1), the others have a sign
	if p.bitpix > 8 {
		most = math.Ldexp(1, p.bitpix-1) - 1
		least = -most - 1
	}
	return p.zero + math.Max(p.scale*least, p.scale*most)
}

// Step returns the least difference between two values, ADU: 0 for floating point.
func (p *Pixels) Step() float64 {
	if p.bitpix < 0 {
		return 0
	}
	return math.Abs(p.scale)
}

// Span writes the values of len(values) pixels from (x, y) on along the row, in ADU, to 24 bits. Pixels
// without a value (BLANK) are not a number.
func (p *Pixels) Span(x, y int, values []float32) {
	size := p.pixelSize()
	from := (y*p.width + x) * size
	raw := p.raw[from : from+len(values)*size]
	switch p.bitpix {
	case 8:
		for i, b := range raw[:len(values)] {
			values[i] = p.value(int64(b))
		}
	case 16:
		p.span16(raw, values)
	case 32:
		for i := range values {
			values[i] = p.value(int64(int32(binary.BigEndian.Uint32(raw[4*i:]))))
		}
	case 64:
		for i := range values {
			values[i] = p.value(int64(binary.BigEndian.Uint64(raw[8*i:])))
		}
	case -32:
		for i := range values {
			values[i] = p.scaled(float64(math.Float32frombits(binary.BigEndian.Uint32(raw[4*i:]))))
		}
	case -64:
		for i := range values {
			values[i] = p.scaled(math.Float64frombits(binary.BigEndian.Uint64(raw[8*i:])))
		}
	}
}

// span16 has a way of its own for what nearly every camera writes: 16 bits without a sign.
func (p *Pixels) span16(raw []byte, values []float32) {
	if p.scale == 1 && p.zero == 1<<15 && p.blank == nil {
		for len(values) >= 4 { // four at a time take half as long
			four := binary.BigEndian.Uint64(raw) ^ 1<<63 ^ 1<<47 ^ 1<<31 ^ 1<<15
			v := values[:4:4]
			v[0], v[1] = float32(int32(four>>48)), float32(int32(four>>32&0xffff))
			v[2], v[3] = float32(int32(four>>16&0xffff)), float32(int32(four&0xffff))
			raw, values = raw[8:], values[4:]
		}
		for i := range values {
			values[i] = float32(int32(binary.BigEndian.Uint16(raw[2*i:]) ^ 1<<15))
		}
		return
	}
	for i := range values {
		values[i] = p.value(int64(int16(binary.BigEndian.Uint16(raw[2*i:]))))
	}
}

func (p *Pixels) value(raw int64) float32 {
	if p.blank != nil && raw == *p.blank {
		return float32(math.NaN())
	}
	return p.scaled(float64(raw))
}

func (p *Pixels) scaled(raw float64) float32 { return float32(p.zero + p.scale*raw) }
