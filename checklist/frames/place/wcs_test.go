package place_test

import (
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/frames/place"
	"duskhand/checklist/subs/watch"
	"duskhand/plan/framing"
	"duskhand/sky"
)

// card reads a number from cards by FITS' fixed columns: the value ends in column 30.
func card(t *testing.T, cards, key string) float64 {
	t.Helper()
	for line := range strings.Lines(cards) {
		require.Len(t, line, 81, "80 columns and a new line")
		if strings.TrimSpace(line[:8]) == key {
			require.Equal(t, "= ", line[8:10])
			value, err := strconv.ParseFloat(strings.TrimSpace(line[10:30]), 64)
			require.NoError(t, err)
			return value
		}
	}
	require.Fail(t, "no card "+key)
	return 0
}

// A pixel's place by the cards, with the matrix and the projection of the standard written out here, is that by the
// chip's own geometry.
func TestTheCardsSayWhereEachPixelLooks(t *testing.T) {
	for _, mirrored := range []bool{false, true} {
		p := checklist.PlacedBody{RADeg: 84.67, DecDeg: -69.1, CameraAngleDeg: 137.5, ScaleArcsec: 1.5034, Mirrored: mirrored}
		cards := place.Cards(p, 6248, 4176)
		assert.Contains(t, cards, "CTYPE1  = 'RA---TAN'           / ")
		chip := framing.NewChip(framing.Sensor{Width: 6248, Height: 4176, PerPixel: p.PerPixel(), Mirrored: mirrored}, p.Centre(), p.CameraAngle())
		for _, at := range [][2]float64{{1, 1}, {3124.5, 2088.5}, {6000, 300}} {
			dx, dy := at[0]-card(t, cards, "CRPIX1"), at[1]-card(t, cards, "CRPIX2")
			x := (card(t, cards, "CD1_1")*dx + card(t, cards, "CD1_2")*dy) * math.Pi / 180
			y := (card(t, cards, "CD2_1")*dx + card(t, cards, "CD2_2")*dy) * math.Pi / 180
			// Calabretta & Greisen 2002, eq. 54 and 55 for TAN, and 2 with the native pole at the centre.
			theta, phi := math.Atan2(1, math.Hypot(x, y)), math.Atan2(x, -y)
			ra0, dec0 := card(t, cards, "CRVAL1")*math.Pi/180, card(t, cards, "CRVAL2")*math.Pi/180
			ra := ra0 + math.Atan2(-math.Cos(theta)*math.Sin(phi-math.Pi), math.Sin(theta)*math.Cos(dec0)-math.Cos(theta)*math.Sin(dec0)*math.Cos(phi-math.Pi))
			dec := math.Asin(math.Sin(theta)*math.Sin(dec0) + math.Cos(theta)*math.Cos(dec0)*math.Cos(phi-math.Pi))
			want := chip.Sky(framing.Pixel{X: dx, Y: dy})
			off := want.Direction().Separation(sky.J2000{RA: sky.Angle(ra), Dec: sky.Angle(dec)}.Direction())
			assert.Less(t, off.Arcseconds(), 0.001, "pixel %v, mirrored %v", at, mirrored)
		}
	}
}

func TestASideFileStandsBesideTheLightAndIsNoFrame(t *testing.T) {
	light := filepath.Join(t.TempDir(), "L_001.fits")
	require.NoError(t, os.WriteFile(light, []byte("as it was"), 0o444))
	p := checklist.PlacedBody{RADeg: 84.67, DecDeg: -69.1, ScaleArcsec: 1.5}
	require.NoError(t, place.WriteSideFile(light, p, 100, 80))
	require.NoError(t, place.WriteSideFile(light, p, 100, 80), "again")
	written, err := os.ReadFile(light + ".placed.txt")
	require.NoError(t, err)
	assert.Equal(t, place.Cards(p, 100, 80), string(written))
	assert.False(t, watch.IsFITS(light+place.SideEnding))
	kept, err := os.ReadFile(light)
	require.NoError(t, err)
	assert.Equal(t, "as it was", string(kept))
	left, err := os.ReadDir(filepath.Dir(light))
	require.NoError(t, err)
	assert.Len(t, left, 2, "nothing half written stays")
	assert.ErrorContains(t, place.WriteSideFile(filepath.Join(t.TempDir(), "none", "a.fits"), p, 1, 1), "a.fits.placed.txt")
}
