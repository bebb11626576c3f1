package fits

import (
	"encoding/binary"
	"math"
	"slices"
)

// recoded writes numbers of each bytes as numbers of to bytes, both as they stand in a file: whole ones, which keep
// their lowest bytes and their sign, or floating point. One of 8 bits has no sign (section 5.2.1).
func recoded(out []byte, to int, in []byte, each int, floating bool) {
	if to == each {
		copy(out, in)
		return
	}
	for i := range len(out) / to {
		from, at := in[i*each:], out[i*to:]
		if floating { // from 64 bits to 32
			v := float32(math.Float64frombits(binary.BigEndian.Uint64(from)))
			binary.BigEndian.PutUint32(at, math.Float32bits(v))
			continue
		}
		putWhole(at, to, whole(from, each))
	}
}

func whole(from []byte, each int) int64 {
	switch each {
	case 1:
		return int64(from[0])
	case 2:
		return int64(int16(binary.BigEndian.Uint16(from)))
	case 4:
		return int64(int32(binary.BigEndian.Uint32(from)))
	}
	return int64(binary.BigEndian.Uint64(from))
}

func putWhole(at []byte, to int, v int64) {
	switch to {
	case 1:
		at[0] = byte(v)
	case 2:
		binary.BigEndian.PutUint16(at, uint16(v))
	case 4:
		binary.BigEndian.PutUint32(at, uint32(v))
	case 8:
		binary.BigEndian.PutUint64(at, uint64(v))
	}
}

func putFloats(out []byte, values []float32) {
	for i, v := range values {
		binary.BigEndian.PutUint32(out[4*i:], math.Float32bits(v))
	}
}

// resized returns a slice of that length, in the same memory where it is large enough.
func resized[T any](s []T, length int64) []T { return slices.Grow(s[:0], int(length))[:length] }
