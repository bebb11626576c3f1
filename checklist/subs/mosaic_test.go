package subs_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"duskhand/checklist/subs"
)

func TestAMosaicTurnsWithItsFirstPixel(t *testing.T) {
	for _, c := range []struct {
		columns, rows int
		want          subs.Mosaic
	}{{0, 0, "RGGB"}, {1, 0, "GRBG"}, {0, 1, "GBRG"}, {1, 1, "BGGR"}, {2, 4, "RGGB"}, {-1, 0, "GRBG"}} {
		assert.Equal(t, c.want, subs.Mosaic("RGGB").Shifted(c.columns, c.rows), "%d, %d", c.columns, c.rows)
	}
	m, ok := subs.MosaicOf(" rggb")
	assert.True(t, ok)
	assert.Equal(t, byte('B'), m.At(7, 3))
	_, ok = subs.MosaicOf("RGBG")
	assert.False(t, ok)
}
