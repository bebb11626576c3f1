package journal_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"duskhand/checklist/journal"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// files are the bytes of a journal as a killed program leaves them, by the end of the file name.
type files map[string][]byte

func snapshot(t *testing.T, path string) files {
	t.Helper()
	taken := files{}
	for _, end := range []string{"", "-wal", ".mark"} {
		content, err := os.ReadFile(path + end)
		if os.IsNotExist(err) {
			continue
		}
		require.NoError(t, err)
		taken[end] = content
	}
	return taken
}

// put writes the files into a new folder, with one of them replaced.
func (f files) put(t *testing.T, end string, content []byte) (path string) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "journal.db")
	for name, bytes := range f {
		if name == end {
			bytes = content
		}
		if bytes != nil {
			require.NoError(t, os.WriteFile(path+name, bytes, 0o600))
		}
	}
	return path
}

// fill appends events of all sizes, long ones over several pages included.
func fill(t *testing.T, j *journal.Journal, from, count int) (events []journal.Event) {
	t.Helper()
	for i := from; i < from+count; i++ {
		text := strings.Repeat(fmt.Sprint(i, " "), i%7*10)
		if i%50 == 49 {
			text = strings.Repeat("a long note ", 1200)
		}
		e, err := j.Append(night, "noted", evening.Add(time.Duration(i)*time.Minute), body{Count: i, Text: text})
		require.NoError(t, err)
		events = append(events, e)
	}
	return events
}

// left is a journal of 160 events, some only in its write-ahead log; clean is one that was closed.
func left(t *testing.T) (crashed, clean files, want []journal.Event) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "journal.db")
	j := open(t, path)
	want = fill(t, j, 0, 100)
	require.NoError(t, j.Close())
	j = open(t, path)
	want = append(want, fill(t, j, 100, 60)...)
	crashed = snapshot(t, path)
	require.NotEmpty(t, crashed["-wal"])
	require.NoError(t, j.Close())
	return crashed, snapshot(t, path), want
}

// checkDamaged opens a damaged journal and asserts the promise: no panic, each event is there exactly
// as it was appended or counted as lost, and the damaged file is untouched if it was set aside.
func checkDamaged(t *testing.T, path string, want []journal.Event, what string) journal.Report {
	t.Helper()
	before, err := os.ReadFile(path)
	require.NoError(t, err, what)
	j, err := journal.Open(path, "test", ticking())
	require.NoError(t, err, what)
	report, reported := j.Salvage()
	got, err := j.Since(0)
	require.NoError(t, err, what)
	proved := 0
	for _, e := range got {
		if e.Kind != journal.KindSalvaged {
			require.Equal(t, want[e.Ordinal-1], e, what)
			proved++
		}
	}
	require.Equal(t, len(want)-proved, report.Count(), "lost events not counted: %s", what)
	if proved < len(want) {
		require.True(t, reported, what)
		require.Contains(t, report.Words(time.UTC), "Events lost: ", what)
	}
	if report.SetAside != "" {
		aside, err := os.ReadFile(report.SetAside)
		require.NoError(t, err, what)
		require.Equal(t, before, aside, "the damaged file was touched: %s", what)
	}
	more := add(t, j, 1)[0]
	require.Greater(t, more.Ordinal, int64(len(want)), "no ordinal twice: %s", what)
	require.NoError(t, j.Close(), what)
	j = open(t, path)
	_, again := j.Salvage()
	require.False(t, again, "what was said once is not said again: %s", what)
	require.NoError(t, j.Close(), what)
	return report
}

func TestTruncatedFiles(t *testing.T) {
	crashed, clean, want := left(t)
	for name, state := range map[string]files{"closed": clean, "killed": crashed} {
		for _, end := range []string{"", "-wal"} {
			whole := state[end]
			for i := 0; i < 5**sweep && len(whole) > 0; i++ {
				length := len(whole) * i / (5 * *sweep)
				path := state.put(t, end, whole[:length])
				checkDamaged(t, path, want, fmt.Sprintf("%s, journal.db%s cut to %d of %d bytes", name, end, length, len(whole)))
			}
		}
	}
}

func TestFlippedBytes(t *testing.T) {
	crashed, clean, want := left(t)
	const seed = 20261205
	random := rand.New(rand.NewPCG(seed, 0))
	for name, state := range map[string]files{"closed": clean, "killed": crashed} {
		for _, end := range []string{"", "-wal", ".mark"} {
			for range 8 * *sweep {
				content := append([]byte{}, state[end]...)
				if len(content) == 0 {
					continue
				}
				what := fmt.Sprintf("%s, journal.db%s, flipped", name, end)
				for range 1 + random.IntN(4) {
					at := random.IntN(len(content))
					if random.IntN(4) == 0 { // the headers are a small part and matter most
						at = random.IntN(min(len(content), 120))
					}
					content[at] ^= byte(1 + random.IntN(255))
					what += fmt.Sprintf(" %d", at)
				}
				checkDamaged(t, state.put(t, end, content), want, what)
			}
		}
	}
}

func TestADamagedHeaderCostsNothing(t *testing.T) {
	_, clean, want := left(t)
	content := append(make([]byte, 100), clean[""][100:]...)
	report := checkDamaged(t, clean.put(t, "", content), want, "no header")
	assert.Equal(t, len(want), report.Carried)
	assert.Contains(t, report.Words(time.UTC), "No event is known to be lost.")
}

func TestADamagedPageLosesWhatWasInItAndSaysWhen(t *testing.T) {
	_, clean, want := left(t)
	content := append([]byte{}, clean[""]...)
	for i := 3 * 4096; i < 4*4096; i++ {
		content[i] = 0
	}
	report := checkDamaged(t, clean.put(t, "", content), want, "an empty page")
	require.NotEmpty(t, report.Lost)
	for _, gap := range report.Lost {
		if gap.From > 1 {
			assert.Equal(t, want[gap.From-2].At, *gap.After)
		}
		assert.Equal(t, want[gap.To].At, *gap.Before)
	}
}

func TestALostEndIsToldByTheMark(t *testing.T) {
	crashed, _, want := left(t)
	report := checkDamaged(t, crashed.put(t, "-wal", nil), want, "no write-ahead log")
	require.Len(t, report.Lost, 1)
	assert.EqualValues(t, 101, report.Lost[0].From)
	assert.EqualValues(t, 160, report.Lost[0].To)
	assert.Equal(t, want[99].At, *report.Lost[0].After)
	assert.Equal(t, want[159].Written, *report.Lost[0].Before)
}

func TestAMissingMarkIsSaid(t *testing.T) {
	_, clean, want := left(t)
	report := checkDamaged(t, clean.put(t, ".mark", nil), want, "no mark")
	assert.True(t, report.EndUnproved)
	assert.Empty(t, report.SetAside)
}

func TestTwoDamagesOneAfterTheOther(t *testing.T) {
	crashed, _, want := left(t)
	path := crashed.put(t, "-wal", nil)
	checkDamaged(t, path, want, "first")
	state := snapshot(t, path)
	content := state[""]
	for i := range content[2*4096 : 4*4096] {
		content[2*4096+i] = 0xff
	}
	j, err := journal.Open(state.put(t, "", content), "test", ticking())
	require.NoError(t, err)
	second, reported := j.Salvage()
	require.True(t, reported)
	got, err := j.Since(0)
	require.NoError(t, err)
	// Before the second damage there were 100 events, the report of the first and one more; the report
	// of the second is there on top.
	assert.Equal(t, 100+2, len(got)-1+second.Count(), "what was lost the first time is not counted again")
	require.NoError(t, j.Close())
}

func TestASalvageThatWasCutShortIsCompleted(t *testing.T) {
	_, clean, want := left(t)
	path := clean.put(t, "", nil) // the damaged file is aside already,
	require.NoError(t, os.WriteFile(path+".new", clean[""], 0o600))
	require.NoError(t, os.WriteFile(path+"-wal", []byte("left over"), 0o600))
	j := open(t, path) // and the new one not yet in its place
	got, err := j.Since(0)
	require.NoError(t, err)
	assert.Equal(t, want, got)
	require.NoError(t, j.Close())
}

func TestAReaderFollowsTheNewFile(t *testing.T) {
	_, clean, want := left(t)
	path := clean.put(t, "none", nil)
	reader, err := journal.OpenReader(path)
	require.NoError(t, err)
	_, err = reader.Since(0)
	require.NoError(t, err)
	content := append([]byte{}, clean[""]...)
	content[18] = 77
	require.NoError(t, os.WriteFile(path, content, 0o600))
	j := open(t, path)
	_, reported := j.Salvage()
	require.True(t, reported)
	got, err := reader.Since(0)
	require.NoError(t, err)
	assert.Equal(t, want, got[:len(want)])
	assert.Equal(t, journal.KindSalvaged, got[len(want)].Kind)
	require.NoError(t, reader.Close())
	require.NoError(t, j.Close())
}

func TestSomethingThatIsNoJournalIsSetAside(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	require.NoError(t, os.WriteFile(path, []byte("shopping list"), 0o600))
	report := checkDamaged(t, path, nil, "another file")
	assert.NotEmpty(t, report.SetAside)
	assert.True(t, report.EndUnproved)
}
