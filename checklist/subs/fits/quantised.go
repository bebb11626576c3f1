package fits

import (
	"math"
	"sync"
)

// How the noise is put on before whole numbers are made of floating point (ZQUANTIZ, section 10.2).
const (
	noDither    = "NO_DITHER"
	dither      = "SUBTRACTIVE_DITHER_1"
	ditherZeros = "SUBTRACTIVE_DITHER_2" // keeps an exact nought
)

// Whole numbers that stand for something else (section 10.2.2).
const exactNought = -2147483646

// randomCount is how many random numbers all writers and readers share.
const randomCount = 10_000

// randoms are these numbers, from 0 to 1: Park & Miller's generator from 1 on.
//
// Source: FITS Standard 4.0, appendix I; its last state is 1043618065.
var randoms = sync.OnceValue(func() *[randomCount]float32 {
	var all [randomCount]float32
	state := int64(1)
	for i := range all {
		state = state * 16807 % math.MaxInt32
		all[i] = float32(float64(state) / math.MaxInt32)
	}
	return &all
})

// quantised is how the whole numbers of one tile become floating point again.
type quantised struct {
	scale, zero float64 // ZSCALE and ZZERO
	blank       int64   // ZBLANK
	blanks      bool    // whether there is one
	method      string  // ZQUANTIZ
	seed        int64   // ZDITHER0 - 1 plus the tile's number from nought
}

// floats writes the values of whole numbers.
func (q quantised) floats(whole []int32, values []float32) {
	randoms := randoms()
	seed := int(q.seed % randomCount)
	next := int(randoms[seed] * 500)
	for i, v := range whole {
		offset := 0.0
		if q.method != noDither {
			offset = 0.5 - float64(randoms[next])
			if next++; next == randomCount {
				seed = (seed + 1) % randomCount
				next = int(randoms[seed] * 500)
			}
		}
		switch {
		case q.blanks && int64(v) == q.blank:
			values[i] = float32(math.NaN())
		case q.method == ditherZeros && v == exactNought:
			values[i] = 0
		default:
			values[i] = float32((float64(v)+offset)*q.scale + q.zero)
		}
	}
}
