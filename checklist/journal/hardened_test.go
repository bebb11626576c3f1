package journal_test

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"duskhand/checklist/journal"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// After a power cut the end of the journal is proved by a mark that was on the disk before the event was confirmed.
func TestTheMarkIsSyncedBeforeAnEventIsConfirmed(t *testing.T) {
	j := open(t, filepath.Join(t.TempDir(), "journal.db"))
	calls := j.RecordMark()
	add(t, j, 1)
	assert.Equal(t, []string{"write", "sync"}, calls())
	require.NoError(t, j.Close())
}

// What lies beside the journal is written to in its own name: a link that somebody put there leads nowhere.
func TestLinksBesideTheJournalAreNotFollowed(t *testing.T) {
	for _, end := range []string{".mark", ".owner"} {
		folder := t.TempDir()
		path, other := filepath.Join(folder, "journal.db"), filepath.Join(folder, "another's file")
		require.NoError(t, os.WriteFile(other, []byte("untouched"), 0o600))
		require.NoError(t, os.Symlink(other, path+end))
		j := open(t, path)
		add(t, j, 2)
		require.NoError(t, j.Close())
		text, err := os.ReadFile(other)
		require.NoError(t, err)
		assert.Equal(t, "untouched", string(text), end)
		info, err := os.Lstat(path + end)
		require.NoError(t, err)
		assert.True(t, info.Mode().IsRegular(), end)
		require.NoError(t, open(t, path).Close())
	}
}

func TestAFolderOpenToOthersIsTold(t *testing.T) {
	folder := t.TempDir()
	require.NoError(t, os.Chmod(folder, 0o700))
	path := filepath.Join(folder, "journal.db")
	j := open(t, path)
	assert.Empty(t, j.Exposed())
	require.NoError(t, j.Close())
	require.NoError(t, os.Chmod(folder, 0o777))
	j = open(t, path)
	assert.Contains(t, j.Exposed(), "mode 0777")
	assert.Contains(t, j.Exposed(), "chmod 700 "+folder)
	require.NoError(t, j.Close())
}

// A journal that was written anew holds what the old one held, and is as private.
func TestASalvagedJournalIsNobodyElsesToRead(t *testing.T) {
	_, clean, _ := left(t)
	path := clean.put(t, "", append(make([]byte, 100), clean[""][100:]...))
	require.NoError(t, open(t, path).Close())
	info, err := os.Stat(path)
	require.NoError(t, err)
	assert.EqualValues(t, 0o600, info.Mode().Perm())
}

// What is said of a salvage does not say at once that nothing is lost and that nobody knows.
func TestASalvageDoesNotContradictItself(t *testing.T) {
	report := journal.Report{Salvaged: journal.Salvaged{Reason: "its header", SetAside: "aside", Carried: 3}, EndUnproved: true}
	assert.Equal(t, "The journal was damaged (its header). It lies untouched in aside; 3 events were carried into a new one. "+
		"None is missing among them. Whether any came after the last one cannot be told: the mark that would prove it is missing or damaged.",
		report.Words(time.UTC))
	report.Carried = 0
	assert.Equal(t, "The journal was damaged (its header). It lies untouched in aside; no event could be carried into a new one. "+
		"Whether it held any cannot be told.", report.Words(time.UTC))
}

func TestWhoWritesIsKnownUntilItEnds(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	_, held := journal.Writing(path)
	assert.False(t, held, "there is none yet")
	j := open(t, path)
	owner, held := journal.Writing(path)
	assert.True(t, held)
	assert.Equal(t, "test", owner.Writer)
	require.NoError(t, j.Close())
	_, held = journal.Writing(path)
	assert.False(t, held, "the writer has ended")
	require.NoError(t, open(t, path).Close())
}

func TestAJournalThatIsSoonFreeIsWaitedFor(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	brief, asked := open(t, path), 0
	j, err := journal.OpenOnceFree(path, "screens", ticking(), func(owner journal.Owner) bool {
		assert.Equal(t, "test", owner.Writer)
		if asked++; asked == 3 {
			require.NoError(t, brief.Close())
		}
		return true
	})
	require.NoError(t, err)
	assert.Equal(t, 3, asked)
	_, err = journal.OpenOnceFree(path, "others", ticking(), func(journal.Owner) bool { return false })
	var held *journal.HeldError
	require.ErrorAs(t, err, &held, "and no longer than was asked for")
	require.NoError(t, j.Close())
}
