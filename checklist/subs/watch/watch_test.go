package watch_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs/arrival"
	"duskhand/checklist/subs/watch"
)

// modes are with the system's notices and without. The notices of a temporary folder are real ones.
func modes(t *testing.T, test func(t *testing.T, change func(*watch.Settings))) {
	t.Run("by notices", func(t *testing.T) {
		// A poll so rare that only notices can explain what is found.
		test(t, func(s *watch.Settings) { s.PollOnly, s.Poll = false, 1000*time.Hour })
	})
	t.Run("by walks alone", func(t *testing.T) { test(t, nil) })
}

func TestANewFrameIsHandedOn(t *testing.T) {
	modes(t, func(t *testing.T, change func(*watch.Settings)) {
		folder := t.TempDir()
		b := start(t, change, folder)
		b.rests(1)
		path := filepath.Join(folder, "L_001.fits")
		write(t, path, 2880, 60)
		f := b.frame()
		assert.Equal(t, arrival.File{Path: path, Size: 2880, Changed: dusk.Add(time.Minute)}, f.File)
		assert.Equal(t, "L", f.Header.Filter)
		assert.Equal(t, 7, f.Measured.Count)
		assert.False(t, f.Already)
		assert.Empty(t, f.Unread)
		b.silent()
	})
}

func TestAGrowingFrameIsAwaited(t *testing.T) {
	folder := t.TempDir()
	b := start(t, nil, folder)
	b.rests(1)
	path := filepath.Join(folder, "a.fit")
	write(t, path, 100, 0)
	b.clock.advance(poll)
	for step := range 5 { // after each look it has grown again
		b.rests(2)
		write(t, path, 200+100*step, step)
		b.clock.advance(settle)
	}
	b.rests(2) // 600 bytes were seen once: that does not do
	b.clock.advance(settle)
	f := b.frame()
	assert.Equal(t, int64(600), f.Size)
	assert.Equal(t, dusk.Add(poll+5*settle), f.Seen, "the look that first saw 600 bytes")
	assert.Equal(t, settle, f.Late, "the look before saw 500")
	assert.Equal(t, []string{"a.fit"}, b.read, "not read while it grew")
}

func TestAFrameOfTheSameSizeThatIsStillWrittenIsAwaited(t *testing.T) {
	folder := t.TempDir()
	b := start(t, nil, folder)
	b.rests(1)
	path := filepath.Join(folder, "a.fits")
	for step := range 4 { // its size is set aside at once, its time goes on
		write(t, path, 2880, step)
		b.clock.advance(poll)
		b.rests(2)
	}
	assert.Equal(t, dusk.Add(3*time.Second), b.frame().Changed)
}

func TestAnEmptyFrameIsOneThatSomebodyHasBegun(t *testing.T) {
	modes(t, func(t *testing.T, change func(*watch.Settings)) {
		folder := t.TempDir()
		b := start(t, change, folder)
		b.rests(1)
		path := filepath.Join(folder, "a.fits")
		write(t, path, 0, 0)
		b.silent()
		b.rests(1) // and nobody waits for it busily
		write(t, path, 2880, 90)
		assert.Equal(t, int64(2880), b.frame().Size)
	})
}

func TestATemporaryNameIsAwaited(t *testing.T) {
	for _, name := range []string{".a.fits", "~a.fits", "a.fits.tmp", "a.fits.part", "a.tmp.fits", "a"} {
		t.Run(name, func(t *testing.T) {
			modes(t, func(t *testing.T, change func(*watch.Settings)) {
				folder := t.TempDir()
				b := start(t, change, folder)
				b.rests(1)
				write(t, filepath.Join(folder, name), 2880, 0)
				b.silent()
				require.NoError(t, os.Rename(filepath.Join(folder, name), filepath.Join(folder, "a.fits")))
				f := b.frame()
				assert.Equal(t, filepath.Join(folder, "a.fits"), f.Path)
				assert.Empty(t, f.Was)
			})
		})
	}
}

func TestARenamedFrameSaysWhatItWas(t *testing.T) {
	modes(t, func(t *testing.T, change func(*watch.Settings)) {
		folder := t.TempDir()
		b := start(t, change, folder)
		b.rests(1)
		first, then := filepath.Join(folder, "a.fits"), filepath.Join(folder, "kept", "a_good.fits")
		write(t, first, 2880, 0)
		assert.Equal(t, first, b.frame().Path)
		require.NoError(t, os.Mkdir(filepath.Dir(then), 0o755))
		require.NoError(t, os.Rename(first, then))
		f := b.frame()
		assert.Equal(t, then, f.Path)
		assert.Equal(t, first, f.Was)
		b.silent()
	})
}

func TestNestedFoldersMayComeLater(t *testing.T) {
	modes(t, func(t *testing.T, change func(*watch.Settings)) {
		folder := t.TempDir()
		b := start(t, change, folder)
		b.rests(1)
		for i, name := range []string{"2026-12-05/NGC 2070/L/a.fits", "2026-12-05/NGC 2070/R/b.fits", "2026-12-06/c.fits"} {
			path := filepath.Join(folder, filepath.FromSlash(name))
			write(t, path, 2880, i)
			assert.Equal(t, path, b.frame().Path)
		}
	})
}

func TestFramesInFoldersOfTheSystemAreNone(t *testing.T) {
	folder := t.TempDir()
	write(t, filepath.Join(folder, "$RECYCLE.BIN", "a.fits"), 2880, 0)
	write(t, filepath.Join(folder, ".thumbs", "b.fits"), 2880, 0)
	b := start(t, nil, folder)
	b.silent()
}

func TestEndings(t *testing.T) {
	cases := []struct{ name, unread string }{
		{"a.FITS", ""}, {"a.Fit", ""}, {"a.fts", ""},
		{"a.fit.gz", ""}, {"a.fits.fz", ""},
		{"a.CR2", "a.CR2 is not a FITS file"}, {"a.nef", "a.nef is not a FITS file"}, {"a.xisf", "a.xisf is not a FITS file"},
		{"a.tiff", "a.tiff is not a FITS file"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			folder := t.TempDir()
			for _, other := range []string{"a.jpg", "a.txt", "notes.gz", "fits"} {
				write(t, filepath.Join(folder, other), 10, 0)
			}
			write(t, filepath.Join(folder, c.name), 2880, 0)
			b := start(t, nil, folder)
			f := b.frame()
			assert.Equal(t, c.name, filepath.Base(f.Path))
			assert.Equal(t, int64(2880), f.Size)
			if c.unread == "" {
				assert.Empty(t, f.Unread)
			} else {
				assert.Contains(t, f.Unread, c.unread)
				assert.Empty(t, b.read)
			}
			b.silent()
		})
	}
}

func TestAFrameThatIsHeldIsReadAgain(t *testing.T) {
	folder := t.TempDir()
	write(t, filepath.Join(folder, "held.fits"), 2880, 0)
	write(t, filepath.Join(folder, "never.fits"), 2880, 1)
	b := start(t, func(s *watch.Settings) { s.Workers = 2 }, folder)
	b.rests(2)
	b.mu.Lock()
	b.faults["held.fits"], b.faults["never.fits"] = 2, 1000
	b.mu.Unlock()
	held, never := b.frame(), b.frame()
	assert.Equal(t, "held.fits", filepath.Base(held.Path))
	assert.Empty(t, held.Unread)
	assert.Equal(t, "never.fits", filepath.Base(never.Path))
	assert.Equal(t, errHeld.Error(), never.Unread)
	b.silent()
	assert.Equal(t, 996, b.faults["never.fits"], "four times, then not again")
}

func TestAFrameThatChangesWhileItIsRead(t *testing.T) {
	cases := []struct {
		name      string
		meanwhile func(path string)
		want      string
		size      int64
	}{
		{"is read again when it has grown", func(path string) { write(t, path, 5760, 9) }, "a.fits", 5760},
		{"is read under its new name when it was renamed", func(path string) {
			require.NoError(t, os.Rename(path, filepath.Join(filepath.Dir(path), "b.fits")))
		}, "b.fits", 2880},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			folder := t.TempDir()
			path := filepath.Join(folder, "a.fits")
			write(t, path, 2880, 0)
			first := true // of one worker only
			b := start(t, func(s *watch.Settings) {
				plain := s.Read
				s.Read = func(ctx context.Context, path string, already bool) (watch.Look, error) {
					if first {
						first = false
						c.meanwhile(path)
					}
					return plain(ctx, path, already)
				}
			}, folder)
			f := b.frame()
			assert.Equal(t, c.want, filepath.Base(f.Path))
			assert.Equal(t, c.size, f.Size)
			b.silent()
		})
	}
}

func TestAFrameThatChangesIsToldAgain(t *testing.T) {
	modes(t, func(t *testing.T, change func(*watch.Settings)) {
		folder := t.TempDir()
		path := filepath.Join(folder, "a.fits")
		write(t, path, 2880, 0)
		b := start(t, change, folder)
		assert.Equal(t, int64(2880), b.frame().Size)
		write(t, path, 5760, 0)
		assert.Equal(t, int64(5760), b.frame().Size)
	})
}

func TestWhatWasThereComesOldestFirst(t *testing.T) {
	folder := t.TempDir()
	write(t, filepath.Join(folder, "before.fits"), 2880, -1)
	write(t, filepath.Join(folder, "known.fits"), 2880, 1)
	write(t, filepath.Join(folder, "changed.fits"), 2880, 4)
	write(t, filepath.Join(folder, "b", "2.fits"), 2880, 2)
	write(t, filepath.Join(folder, "a", "3.fits"), 2880, 3)
	b := start(t, func(s *watch.Settings) {
		s.Since, s.Workers = dusk, 2
		s.Known = []arrival.File{
			{Path: filepath.Join(folder, "known.fits"), Size: 2880, Changed: dusk.Add(time.Second)},
			{Path: filepath.Join(folder, "changed.fits"), Size: 2879, Changed: dusk.Add(4 * time.Second)},
		}
	}, folder)
	for _, name := range []string{"2.fits", "3.fits", "changed.fits"} {
		f := b.frame()
		assert.Equal(t, name, filepath.Base(f.Path))
		assert.True(t, f.Already)
	}
	b.silent()
	// A capture computer whose clock is days behind: what comes later is told whatever its time.
	write(t, filepath.Join(folder, "new.fits"), 2880, -200000)
	f := b.frame()
	assert.Equal(t, "new.fits", filepath.Base(f.Path))
	assert.False(t, f.Already)
}

func TestAThousandFramesComeInOrder(t *testing.T) {
	folder := t.TempDir()
	const many = 1000
	for i := range many { // names in another order than times
		write(t, filepath.Join(folder, fmt.Sprint(i%7), fmt.Sprintf("%04d.fits", many-i)), 100, i)
	}
	b := start(t, func(s *watch.Settings) { s.Workers = 2 }, folder)
	for i := range many {
		f := b.frame()
		require.Equal(t, dusk.Add(time.Duration(i)*time.Second), f.Changed)
	}
	b.silent()
	assert.Len(t, b.read, many, "each read once")
}

func TestTwoAtOnceInTwoFolders(t *testing.T) {
	modes(t, func(t *testing.T, change func(*watch.Settings)) {
		one, other := t.TempDir(), t.TempDir()
		b := start(t, change, one, other)
		b.rests(1)
		write(t, filepath.Join(one, "a.fits"), 2880, 0)
		write(t, filepath.Join(other, "b.fits"), 2880, 1)
		paths := []string{b.frame().Path, b.frame().Path}
		assert.ElementsMatch(t, []string{filepath.Join(one, "a.fits"), filepath.Join(other, "b.fits")}, paths)
	})
}

func TestASlowFrameHoldsUpTheNext(t *testing.T) {
	folder := t.TempDir()
	for i := range 20 {
		write(t, filepath.Join(folder, fmt.Sprintf("%02d.fits", i)), 100, i)
	}
	slow := make(chan struct{})
	b := start(t, func(s *watch.Settings) {
		s.Workers = 2
		plain := s.Read
		s.Read = func(ctx context.Context, path string, already bool) (watch.Look, error) {
			if filepath.Base(path) == "00.fits" {
				select {
				case <-slow:
				case <-ctx.Done():
				}
			}
			return plain(ctx, path, already)
		}
	}, folder)
	ahead := func() int { b.mu.Lock(); defer b.mu.Unlock(); return len(b.read) }
	b.until("the other worker has gone ahead", func() bool { b.clock.advance(time.Second); return ahead() >= 3 })
	b.silent()
	assert.Equal(t, 3, ahead(), "no further ahead than four frames for two workers, the slow one among them")
	close(slow)
	for i := range 20 {
		assert.Equal(t, fmt.Sprintf("%02d.fits", i), filepath.Base(b.frame().Path))
	}
}

func TestIdleCostsNothing(t *testing.T) {
	folder := t.TempDir()
	write(t, filepath.Join(folder, "a.fits"), 2880, 0)
	b := start(t, nil, folder)
	b.frame()
	for range 100 {
		b.rests(1) // only the poll's timer
		b.clock.advance(poll)
	}
	assert.Len(t, b.read, 1)
}

func TestSettingsThatCannotBeWatchedBy(t *testing.T) {
	_, err := watch.Start(t.Context(), watch.Settings{})
	require.ErrorContains(t, err, "no folder to watch")
	_, err = watch.Start(t.Context(), watch.Settings{Folders: []string{"/subs"}})
	require.ErrorContains(t, err, "a watch needs")
}
