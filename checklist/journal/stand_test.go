package journal_test

import (
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"duskhand/checklist/journal"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Whatever is taken away while the writer runs, the next word and all before it are on the disk afterwards.
func TestFilesTakenFromUnderTheWriterAreWrittenAnew(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Log("there what is open can't be removed")
		return
	}
	for name, take := range map[string]func(path string) error{
		"the folder is removed": func(path string) error { return os.RemoveAll(filepath.Dir(path)) },
		"the folder is renamed": func(path string) error { return os.Rename(filepath.Dir(path), filepath.Dir(path)+".old") },
		"the file is removed":   os.Remove,
		"the log is removed":    func(path string) error { return os.Remove(path + "-wal") },
		"the mark is removed":   func(path string) error { return os.Remove(path + ".mark") },
		"the lock is removed":   func(path string) error { return os.Remove(path + ".lock") },
		"another is in its place": func(path string) error {
			if err := os.RemoveAll(filepath.Dir(path)); err != nil {
				return err
			}
			other, err := journal.Open(path, "other", ticking())
			if err != nil {
				return err
			}
			if _, err := other.Append(night, "noted", evening, body{Text: "other"}); err != nil {
				return err
			}
			return other.Close()
		},
	} {
		for _, said := range []bool{true, false} {
			path := filepath.Join(t.TempDir(), "state", "journal.db")
			j := open(t, path)
			want := add(t, j, 3)
			require.NoError(t, take(path), name)
			if said {
				want = append(want, add(t, j, 1)...)
			} else {
				require.NoError(t, j.Check(), name)
			}
			assert.Contains(t, j.Renewed(), "written anew", name)
			assert.Empty(t, j.Renewed(), "said once")
			reader, err := journal.OpenReader(path)
			require.NoError(t, err, name)
			got, err := reader.Since(0)
			require.NoError(t, err, name)
			assert.Equal(t, want, got, name)
			require.NoError(t, reader.Close())
			_, err = journal.Open(path, "second", ticking())
			var held *journal.HeldError
			require.ErrorAs(t, err, &held, "there is one writer: %s", name)
			want = append(want, add(t, j, 1)...)
			require.NoError(t, j.Close(), name)
			j = open(t, path)
			_, damaged := j.Salvage()
			assert.False(t, damaged, name)
			got, err = j.Since(0)
			require.NoError(t, err)
			assert.Equal(t, want, got, name)
			require.NoError(t, j.Close())
			aside, err := filepath.Glob(path + ".other-*Z")
			require.NoError(t, err)
			assert.Len(t, aside, map[bool]int{true: 1}[name == "another is in its place"], name)
		}
	}
}

func TestWhereNothingCanBeWrittenAnewAllIsKeptInMemory(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Log("there what is open can't be removed")
		return
	}
	folder := filepath.Join(t.TempDir(), "state")
	path := filepath.Join(folder, "journal.db")
	j := open(t, path)
	want := add(t, j, 3)
	require.NoError(t, os.RemoveAll(folder))
	require.NoError(t, os.WriteFile(folder, nil, 0o600))
	var waiting *journal.WaitingError
	require.ErrorAs(t, j.Check(), &waiting)
	assert.Equal(t, 3, waiting.Count)
	e, err := j.Append(night, "noted", evening, body{Text: "more"})
	require.ErrorAs(t, err, &waiting)
	want = append(want, e)
	assert.Equal(t, 4, j.Pending())
	got, err := j.Since(0)
	require.NoError(t, err)
	assert.Equal(t, want, got, "the night goes on")

	require.NoError(t, os.Remove(folder))
	require.NoError(t, j.Retry())
	assert.Zero(t, j.Pending())
	require.NoError(t, os.RemoveAll(folder))
	require.NoError(t, os.WriteFile(folder, nil, 0o600))
	require.ErrorAs(t, j.Close(), &waiting)
	assert.Equal(t, want, j.Unwritten())
}
