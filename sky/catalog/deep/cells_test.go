package deep

import (
	"encoding/binary"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/sky"
)

// In the package, for the cells and the file are nobody else's business.

// Places by the C code of Debian's python3-astropy-healpix 0.6, healpix_ring_to_lonlat, NSIDE 55.
func TestCellsAreHEALPix(t *testing.T) {
	for _, c := range []struct {
		number              int
		u, v, raDeg, decDeg float64
	}{
		{0, 0.5, 0.5, 45, 89.149413861},
		{3, 0.5, 0.5, 315, 89.149413861},
		{4, 0.5, 0.5, 22.5, 88.298780851},
		{17, 0.5, 0.5, 165, 87.448054080},
		{5939, 0.5, 0.5, 359.166666667, 42.740398975},
		{5940, 0.5, 0.5, 0.818181818, 41.810314896}, // where cap and belt meet
		{5941, 0.5, 0.5, 2.454545455, 41.810314896},
		{6159, 0.5, 0.5, 359.181818182, 41.810314896},
		{6160, 0.5, 0.5, 0, 40.885192893},
		{12345, 0.5, 0.5, 40.909090909, 18.369960865},
		{18039, 0.5, 0.5, 359.181818182, 0.694511305},
		{18150, 0.5, 0.5, 180, 0},
		{24000, 0.5, 0.5, 33.545454545, -19.103324477},
		{30140, 0.5, 0.5, 0.818181818, -41.810314896},
		{30359, 0.5, 0.5, 359.181818182, -41.810314896},
		{30360, 0.5, 0.5, 0.833333333, -42.740398975},
		{36000, 0.5, 0.5, 93.75, -79.779514861},
		{36299, 0.5, 0.5, 315, -89.149413861},
		{0, 0.25, 0.75, 22.5, 89.149413861},
		{3000, 0.1, 0.9, 83.307692308, 56.345729391},
		{6100, 0.9, 0.2, 263.278688525, 41.903474159}, // of the belt's last ring, but in the cap
		{18000, 0.3, 0.3, 295.363636364, 0.416700252},
		{30400, 0.8, 0.6, 67.5, -42.368765674},
		{36299, 0.1, 0.2, 300, -89.744826291},
	} {
		got := cellNumbered(t, c.number).point(c.u, c.v)
		want := sky.J2000{RA: sky.Angle(c.raDeg) * sky.Degree, Dec: sky.Angle(c.decDeg) * sky.Degree}
		off := got.Direction().Separation(want.Direction()).Arcseconds()
		assert.Less(t, off, 1e-5, "cell %d at %v, %v: %v, not %v", c.number, c.u, c.v, got, want) // the table's last digit
	}
}

func cellNumbered(t *testing.T, number int) cell {
	for i := 1; i <= lastRing; i++ {
		if r := ringAt(i); number < r.start+r.count {
			return r.cell(number - r.start)
		}
	}
	t.Fatalf("no cell %d", number)
	return cell{}
}

func TestRingsHoldEveryCellOnceAndNoneReachesFurtherThanSaid(t *testing.T) {
	next, furthest := 0, sky.Angle(0)
	for i := 1; i <= lastRing; i++ {
		r := ringAt(i)
		require.Equal(t, next, r.start, "ring %d", i)
		next += r.count
		for _, j := range []int{0, 1, r.count / 8, r.count / 4} {
			c := r.cell(j)
			middle := c.point(0.5, 0.5).Direction()
			for _, corner := range [][2]float64{{0, 0}, {0, 1}, {1, 0}, {1, 1}} {
				furthest = max(furthest, middle.Separation(c.point(corner[0], corner[1]).Direction()))
			}
		}
	}
	assert.Equal(t, cellCount, next)
	t.Logf("furthest corner %v", furthest)
	assert.Less(t, furthest, cellReach)
	assert.Greater(t, furthest, 0.8*cellReach, "cellReach could be smaller")
}

// The file is what the constants say, and every cell of it can be read.
func TestTheFileIsWhatItSays(t *testing.T) {
	head := []byte(packed[:headBytes])
	assert.Equal(t, "DEEP", string(head[:4]))
	assert.EqualValues(t, version, binary.LittleEndian.Uint16(head[4:]))
	assert.EqualValues(t, cellsAcross, binary.LittleEndian.Uint16(head[6:]))
	stars := int(binary.LittleEndian.Uint32(head[8:]))
	require.Len(t, packed, starsFrom+stars*starBytes)
	assert.Equal(t, stars, uint32At(limitsFrom-4), "the end of the last cell")
	poor := 0
	for number := range cellCount {
		c := cell{number: number}
		require.LessOrEqual(t, c.first(), c.end(), "cell %d", number)
		require.LessOrEqual(t, c.drawn(), c.end(), "cell %d", number)
		for i := c.first() + 1; i < c.end(); i++ {
			at := starsFrom + i*starBytes
			if i != c.drawn() { // the fainter rest has a code of its own
				if packed[at-starBytes] > packed[at] { // a million times: an assertion would take a second
					t.Fatalf("star %d is out of order", i)
				}
			}
		}
		require.LessOrEqual(t, c.complete(), 11.0, "cell %d", number)
		if c.complete() < 10 {
			poor++
		}
	}
	// gen/pack.py counts 196 cells near a crowded cell of the finest index; four of them have a tenth star
	// fainter than VT 10 all the same.
	assert.Equal(t, 192, poor, "cells with the core of a dense cluster")
}
