package command_test

import (
	"compress/gzip"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs/testdata/simulate"
	"duskhand/plan"
	"duskhand/ui/command"
)

// A copy of the last frame changes nothing of what the group says.
func TestSubsWithACopyAtTheEnd(t *testing.T) {
	s := newShell(t)
	s.ownKit(smallCamera()...)
	folder := filepath.Join(s.home, "frames")
	shots(t, folder, 5, nil)
	last, err := os.ReadFile(filepath.Join(folder, "sub01.fits"))
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(folder, "sub01 (copy).fits"), last, 0o600))
	require.Equal(t, command.Done, s.run("", "subs", folder), s.err)
	assert.Contains(t, s.out, "5 lights (5 compared)")
	assert.Contains(t, s.out, "At its end: The field holds still")
	assert.Contains(t, s.out, "not compared: a copy of the light before, by its DATE-OBS")
}

// DATE-OBS in local time puts a night's lights into the day; that is said of each.
func TestSubsInDaylight(t *testing.T) {
	s := newShell(t)
	s.ownKit(smallCamera()...)
	folder := filepath.Join(s.home, "frames")
	shots(t, folder, 2, func(i int, _ *plan.Course, _ time.Time, shot *simulate.Shot) {
		shot.Start = shot.Start.Add(10*time.Hour + 30*time.Minute) // the example's zone is that much ahead of UTC
	})
	require.Equal(t, command.Done, s.run("", "subs", folder), s.err)
	assert.Equal(t, 2, strings.Count(s.out, "begins in daylight by its DATE-OBS, and in the dark if that is local time"))
	require.NoError(t, os.RemoveAll(folder))
	shots(t, folder, 2, nil)
	require.Equal(t, command.Done, s.run("", "subs", folder), s.err)
	assert.NotContains(t, s.out, "daylight")
}

// A frame compressed in tiles is read; one that says so and is something else is named, not passed over.
func TestSubsOfCompressedFrames(t *testing.T) {
	s := newShell(t)
	folder := filepath.Join(s.home, "frames")
	require.NoError(t, os.MkdirAll(folder, 0o700))
	tiled, err := os.ReadFile(filepath.Join("..", "..", "checklist", "subs", "fits", "testdata", "riceu16.fits.fz"))
	require.NoError(t, err)
	for name, content := range map[string][]byte{"a.fits.fz": []byte("x"), "b.notes.gz": []byte("x"), "c.fits.fz": tiled} {
		require.NoError(t, os.WriteFile(filepath.Join(folder, name), content, 0o600))
	}
	s.run("", "subs", folder)
	assert.Contains(t, s.out, "a.fits.fz  not read: the file ends before its header does")
	assert.Contains(t, s.out, "c.fits.fz  2026-10-03 21:15:30     60 s  Ha 3nm  light")
	assert.Contains(t, s.out, "17 × 11 pixels", "its size is that of the image, not of the table of its tiles")
	assert.NotContains(t, s.out, "b.notes.gz")
}

// Frames packed with gzip are read as others are.
func TestSubsOfPackedFrames(t *testing.T) {
	s := newShell(t)
	s.ownKit(smallCamera()...)
	folder := filepath.Join(s.home, "frames")
	shots(t, folder, 2, nil)
	for _, name := range []string{"sub01.fits", "sub02.fits"} {
		plain, err := os.ReadFile(filepath.Join(folder, name))
		require.NoError(t, err)
		file, err := os.Create(filepath.Join(folder, name+".gz"))
		require.NoError(t, err)
		packed := gzip.NewWriter(file)
		_, err = packed.Write(plain)
		require.NoError(t, err)
		require.NoError(t, packed.Close())
		require.NoError(t, file.Close())
		require.NoError(t, os.Remove(filepath.Join(folder, name)))
	}
	require.Equal(t, command.Done, s.run("", "subs", folder), s.err)
	assert.Contains(t, s.out, "sub01.fits.gz")
	assert.Contains(t, s.out, "2 lights (2 compared)")
}
