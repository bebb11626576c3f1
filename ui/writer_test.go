package ui_test

import (
	"context"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/journal"
	"duskhand/checklist/subs"
	"duskhand/checklist/subs/arrival"
	"duskhand/checklist/subs/watch"
	"duskhand/plan/kit"
	"duskhand/ui"
	"duskhand/ui/testdata/clocks"
)

// ownAt is a config of a night of one's own with its journal at a path.
func ownAt(path string) func(*ui.Config) {
	k := kit.Example()
	k.Example = false
	return func(c *ui.Config) { c.Kit, c.JournalPath = k, path }
}

// A window that follows is told when nobody writes any more, however the writer ended, and offers to.
func TestAFollowerLearnsThatItsWriterHasEnded(t *testing.T) {
	own := ownAt(filepath.Join(t.TempDir(), "journal.db"))
	first := start(t, 120, 40, own)
	first.press("tab", "space").sees("turned on at 23:14")
	second := start(t, 120, 40, own).press("enter").sees("FOLLOWING").wait(time.Second)
	second.seesNot("has ended", "NOBODY")
	require.NoError(t, first.model.Close()) // the lock is free, as after a kill
	second.wait(time.Second).sees("FOLLOWING NOBODY", "the program that wrote this night has ended: enter writes here from now on")
	second.press("enter").seesNot("FOLLOWING").press("tab", "esc", "1", "space").sees("sub 1 has")
}

// Another program may write in the dead one's place: then that is followed.
func TestAFollowerFollowsWhoeverWrites(t *testing.T) {
	own := ownAt(filepath.Join(t.TempDir(), "journal.db"))
	first := start(t, 120, 40, own)
	follower := start(t, 120, 40, own).press("enter")
	require.NoError(t, first.model.Close())
	follower.wait(time.Second).sees("FOLLOWING NOBODY").press("esc")
	other := start(t, 120, 40, own).press("1", "space").sees("turned on at 23:14")
	follower.wait(time.Second).press("1").sees("FOLLOWING", "turned on at 23:14").seesNot("NOBODY")
	require.NoError(t, other.model.Close()) // held until here: what is collected as garbage lets its lock go
}

// A script that says something holds the journal for a moment: screens that start meanwhile write the night.
func TestScreensWaitForAScriptThatSaysSomething(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	brief, err := journal.Open(path, "duskhand tell", func() time.Time { return opened })
	require.NoError(t, err)
	looks := 0
	s := start(t, 120, 40, func(c *ui.Config) {
		ownAt(path)(c)
		c.Clock = clocks.Led(func() time.Time {
			if looks++; looks == 8 { // of which each try takes one
				require.NoError(t, brief.Close())
			}
			return opened
		})
	})
	s.seesNot("FOLLOWING", "another duskhand").press("1", "space").sees("turned on at 23:14")
}

// Screens that are started in the same moment, with no journal yet: one writes, the others follow, none is left with
// a night of its own in memory.
func TestFirstStartsAtOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "new", "journal.db")
	const screens = 4
	var all sync.WaitGroup
	var shown [screens]string
	for i := range screens {
		all.Go(func() { shown[i] = start(t, 120, 40, ownAt(path)).text() })
	}
	all.Wait()
	following := 0
	for _, text := range shown {
		assert.NotContains(t, text, "in memory")
		following += strings.Count(text, "FOLLOWING")
	}
	assert.Equal(t, screens-1, following)
}

// A disk that does not answer is told of after two seconds, until it does.
func TestADiskThatHangsIsTold(t *testing.T) {
	s := start(t, 120, 40, ownAt(filepath.Join(t.TempDir(), "journal.db")))
	s.press("1")
	writing := s.hold(tea.KeyMsg{Type: tea.KeySpace, Runes: []rune(" ")})
	s.wait(time.Second).seesNot("has not answered")
	s.wait(time.Second).sees("the disk has not answered for 2 s", "not written yet")
	s.carryOut(writing)
	s.sees("turned on at 23:14").seesNot("has not answered")
}

// Thousands of frames that lie there at once wait for what a person says, and not the other way about: no more are
// taken than are written.
func TestFramesDoNotStarveWhatIsSaid(t *testing.T) {
	const frames = 50
	reports := make(chan watch.Report, frames)
	exposure := time.Minute
	for i := range frames {
		began := opened.Add(-time.Hour)
		reports <- watch.Report{Frame: &arrival.Frame{
			File: arrival.File{Path: "/subs/L_" + string(rune('A'+i)) + ".fits", Size: 1, Changed: began.Add(exposure)}, Seen: opened,
			Header: subs.Header{Start: &began, Exposure: &exposure, Filter: "L", Kind: subs.Dark},
		}}
	}
	s := &session{t: t, now: opened}
	config := ui.Config{Clock: clocks.Led(func() time.Time { return s.now }), Out: &s.out}
	ownAt(filepath.Join(t.TempDir(), "journal.db"))(&config)
	config.Kit.Watch.Folders = []string{"/subs"}
	config.Watch = func(context.Context, watch.Settings) (<-chan watch.Report, error) { return reports, nil }
	s.model = ui.New(config)
	// Whatever is commanded last is carried out first: the watch is quick and the disk slow.
	var later []tea.Cmd
	put := func(cmd tea.Cmd) {
		if cmd != nil {
			later = append(later, cmd)
		}
	}
	put(s.model.Init())
	said := false
	for len(later) > 0 && len(reports) > 0 {
		cmd := later[len(later)-1]
		later = later[:len(later)-1]
		switch msg := cmd().(type) {
		case nil:
		case tea.BatchMsg:
			for _, c := range msg {
				put(c)
			}
		default:
			put(s.hold(msg))
		}
		if len(reports) == frames-5 && !said {
			said = true
			put(s.hold(tea.WindowSizeMsg{Width: 120, Height: 40}))
			put(s.hold(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("n")}))
			put(s.hold(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("cloud")}))
			put(s.hold(tea.KeyMsg{Type: tea.KeyEnter}))
		}
		if said && strings.Contains(s.text(), "undo: note") {
			break
		}
	}
	require.True(t, said)
	assert.Greater(t, len(reports), frames-10, "the note is written before the frames that were to come")
}
