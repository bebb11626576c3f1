package watch_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs/watch"
)

func TestAFolderThatVanishesAndReturns(t *testing.T) {
	modes(t, func(t *testing.T, change func(*watch.Settings)) {
		poll := func(s *watch.Settings) {
			if change != nil {
				change(s)
			}
			s.Poll = poll // a folder that is gone gives no notice of its coming back
		}
		folder, away := filepath.Join(t.TempDir(), "subs"), filepath.Join(t.TempDir(), "away")
		write(t, filepath.Join(folder, "n", "a.fits"), 2880, 0)
		b := start(t, poll, folder)
		assert.Equal(t, "a.fits", filepath.Base(b.frame().Path))

		require.NoError(t, os.Rename(folder, away))
		trouble := b.trouble()
		assert.Equal(t, folder, trouble.Folder)
		assert.False(t, trouble.Over)
		assert.Contains(t, trouble.Text, "is missing; connect the share that it is on")
		b.silent() // it is said once

		require.NoError(t, os.Rename(away, folder))
		assert.True(t, b.trouble().Over)
		write(t, filepath.Join(folder, "n", "b.fits"), 2880, 1)
		f := b.frame()
		assert.Equal(t, "b.fits", filepath.Base(f.Path), "what was told is not told again")
		assert.False(t, f.Already)
		b.silent()
	})
}

func TestAFolderThatIsMissingAtFirst(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "subs")
	b := start(t, func(s *watch.Settings) { s.Since = dusk }, folder)
	assert.Equal(t, dusk, b.atOnce().At, "at its first look")
	write(t, filepath.Join(folder, "old.fits"), 2880, -5)
	write(t, filepath.Join(folder, "a.fits"), 2880, 5)
	assert.True(t, b.trouble().Over)
	f := b.frame()
	assert.Equal(t, "a.fits", filepath.Base(f.Path))
	assert.True(t, f.Already, "nobody knows since when it has been there")
}

func TestOneFolderOfTwoIsMissing(t *testing.T) {
	here, missing := t.TempDir(), filepath.Join(t.TempDir(), "subs")
	b := start(t, nil, missing, here)
	b.trouble()
	write(t, filepath.Join(here, "a.fits"), 2880, 0)
	assert.Equal(t, "a.fits", filepath.Base(b.frame().Path))
}

func TestAFileForAFolder(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.fits")
	write(t, path, 2880, 0)
	b := start(t, nil, path)
	assert.Contains(t, b.trouble().Text, "is a file; give the folder")
}

func TestAFolderInsideThatMayNotBeRead(t *testing.T) {
	folder := t.TempDir()
	write(t, filepath.Join(folder, "open", "a.fits"), 2880, 0)
	shut := filepath.Join(folder, "shut")
	write(t, filepath.Join(shut, "b.fits"), 2880, 1)
	require.NoError(t, os.Chmod(shut, 0))
	t.Cleanup(func() { require.NoError(t, os.Chmod(shut, 0o755)) })
	b := start(t, nil, folder)
	if os.Geteuid() != 0 { // the superuser may read everything
		assert.Contains(t, b.trouble().Text, "may not be read; give yourself the right")
	}
	assert.Equal(t, "a.fits", filepath.Base(b.frame().Path))
	if os.Geteuid() == 0 {
		assert.Equal(t, "b.fits", filepath.Base(b.frame().Path))
	}
	b.silent()
}

func TestNothingOfTheOperatorsIsChanged(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "a.fits")
	write(t, path, 2880, 0)
	require.NoError(t, os.Chmod(path, 0o444))
	require.NoError(t, os.Chmod(folder, 0o555))
	t.Cleanup(func() { require.NoError(t, os.Chmod(folder, 0o755)) })
	before, err := os.Stat(path)
	require.NoError(t, err)
	b := start(t, nil, folder)
	b.frame()
	after, err := os.Stat(path)
	require.NoError(t, err)
	assert.Equal(t, before.ModTime(), after.ModTime())
	assert.Equal(t, before.Mode(), after.Mode())
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	assert.Len(t, entries, 1)
}

func TestFreeBytes(t *testing.T) {
	free, err := watch.FreeBytes(t.TempDir())
	require.NoError(t, err)
	assert.Positive(t, free)
	assert.Less(t, free, uint64(1)<<60, "an exabyte: the unit is bytes")
	_, err = watch.FreeBytes(filepath.Join(t.TempDir(), "missing"))
	require.ErrorContains(t, err, "how much room is left")
}
