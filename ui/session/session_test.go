package session_test

import (
	"bytes"
	"path/filepath"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/inbox"
	"duskhand/checklist/journal"
	"duskhand/plan/kit"
	"duskhand/ui/draw"
	"duskhand/ui/session"
	"duskhand/ui/testdata/clocks"
)

// night drives a session without screens: what it commands is carried out at once, in order, but for what is held.
type night struct {
	t       *testing.T
	now     time.Time
	path    string
	session session.Session
	quit    bool
}

// lived opens the session of an evening with a kit of one's own and the journal in a folder.
func lived(t *testing.T, folder string, change func(*session.Config)) *night {
	t.Helper()
	n := &night{t: t, now: time.Date(2026, 12, 5, 12, 44, 0, 0, time.UTC), path: filepath.Join(folder, "journal.db")}
	k := kit.Example()
	k.Example = false
	c := session.Config{Kit: k, Steps: checklist.Steps(), Clock: clocks.Led(func() time.Time { return n.now }), JournalPath: n.path, Out: &bytes.Buffer{}}
	if change != nil {
		change(&c)
	}
	n.session = session.New(c, draw.Unicode)
	n.do(n.session.Open())
	t.Cleanup(func() { _ = n.session.Close() })
	return n
}

func (n *night) do(cmd tea.Cmd) {
	if cmd == nil {
		return
	}
	switch msg := cmd().(type) {
	case nil:
	case tea.BatchMsg:
		for _, c := range msg {
			n.do(c)
		}
	case tea.QuitMsg:
		n.quit = true
	default:
		next, more, ok := n.session.Update(msg)
		require.True(n.t, ok, "%T is a message of the session's", msg)
		n.session = next
		n.do(more)
	}
}

// says returns what saying commands, for now or later.
func (n *night) says(a checklist.Action) tea.Cmd {
	next, cmd := n.session.Say(a)
	n.session = next
	return cmd
}

// second lets one pass.
func (n *night) second() *night {
	n.now = n.now.Add(time.Second)
	next, cmd := n.session.At()
	n.session = next
	n.do(cmd)
	n.do(func() tea.Msg { return session.Second{} })
	return n
}

func (n *night) notes() []string {
	var texts []string
	for _, note := range n.session.Status.Log.Notes {
		texts = append(texts, note.Text)
	}
	return texts
}

// kinds reads the journal as another program would.
func (n *night) kinds() []string {
	n.t.Helper()
	j, err := journal.OpenReader(n.path)
	require.NoError(n.t, err)
	events, err := j.Since(0)
	require.NoError(n.t, err)
	require.NoError(n.t, j.Close())
	var kinds []string
	for _, e := range events {
		kinds = append(kinds, e.Kind)
	}
	return kinds
}

func TestWhatCountsIsInTheJournal(t *testing.T) {
	n := lived(t, t.TempDir(), nil)
	require.True(t, n.session.IsOpen())
	before := n.kinds()
	written := n.says(checklist.WriteNote{Text: "thin cloud"})
	assert.True(t, n.session.IsBusy())
	assert.Empty(t, n.notes(), "not shown before it is on the disk")
	n.do(written)
	assert.False(t, n.session.IsBusy())
	assert.Equal(t, []string{"thin cloud"}, n.notes())
	assert.Len(t, n.kinds(), len(before)+1)
}

func TestWhatIsSaidMeanwhileWaitsItsTurn(t *testing.T) {
	n := lived(t, t.TempDir(), nil)
	first := n.says(checklist.WriteNote{Text: "first"})
	for _, text := range []string{"second", "third"} {
		n.do(n.says(checklist.WriteNote{Text: text}))
	}
	assert.Empty(t, n.notes())
	n.do(first)
	assert.Equal(t, []string{"first", "second", "third"}, n.notes())
}

func TestWhatMakesNoSenseIsRefusedAndNotWritten(t *testing.T) {
	n := lived(t, t.TempDir(), nil)
	before := n.kinds()
	n.do(n.says(checklist.StopSubs{}))
	assert.NotEmpty(t, n.session.Notice)
	assert.Equal(t, before, n.kinds())
	assert.False(t, n.session.IsBusy(), "nothing is waited for")
}

func TestWhatWaitsIsJudgedByTheNightAsItThenIs(t *testing.T) {
	n := lived(t, t.TempDir(), nil)
	first := n.says(checklist.WriteNote{Text: "first"})
	n.do(n.says(checklist.Undo{}))
	n.do(first)
	assert.Empty(t, n.notes(), "taken back, though nothing was there to take back when that was said")
	assert.Contains(t, n.kinds(), "undone")
}

func TestTheProgramIsLeftWhenAllIsWritten(t *testing.T) {
	n := lived(t, t.TempDir(), nil)
	first := n.says(checklist.WriteNote{Text: "first"})
	n.do(n.says(checklist.WriteNote{Text: "last"}))
	next, cmd := n.session.Leave()
	n.session = next
	n.do(cmd)
	assert.False(t, n.quit, "an event is on its way")
	assert.True(t, n.session.Leaving())
	n.do(first)
	assert.True(t, n.quit)
	assert.Equal(t, []string{"first", "last"}, n.notes())

	n = lived(t, t.TempDir(), nil)
	first = n.says(checklist.WriteNote{Text: "first"})
	next, _ = n.session.Leave()
	n.session = next.Stay()
	n.do(first)
	assert.False(t, n.quit, "who stays is not thrown out")
	_, cmd = n.session.Leave()
	n.do(cmd)
	assert.True(t, n.quit, "nothing is on its way")
}

func TestASecondProgramFollowsTheFirst(t *testing.T) {
	folder := t.TempDir()
	writer, follower := lived(t, folder, nil), lived(t, folder, nil)
	_, wants := follower.session.Ask()
	assert.True(t, wants.AskWriter && wants.Open)
	assert.NotEmpty(t, follower.session.Status.Follows)
	writer.do(writer.says(checklist.WriteNote{Text: "seen by both"}))
	assert.Empty(t, follower.notes())
	assert.Equal(t, []string{"seen by both"}, follower.second().notes())
	asked, _ := follower.session.Ask()
	_, again := asked.Ask()
	assert.Zero(t, again, "what is wanted is asked for once")
}

func TestAScriptIsAnswered(t *testing.T) {
	n := lived(t, t.TempDir(), nil)
	for _, c := range []struct {
		words    []string
		accepted bool
	}{
		{[]string{"note", "from", "a", "script"}, true},
		{[]string{"no", "such", "words"}, false},
		{[]string{"subs", "stopped"}, false},
	} {
		letter, err := inbox.Post(inbox.Beside(n.path), c.words, n.now, time.Minute)
		require.NoError(t, err)
		n.second()
		answer, ok, err := letter.Answer()
		require.NoError(t, err)
		require.True(t, ok, "%v", c.words)
		assert.Equal(t, c.accepted, answer.Accepted, "%v: %s", c.words, answer.Text)
		assert.NotEmpty(t, answer.Text)
	}
	assert.Equal(t, []string{"from a script"}, n.notes())
}

func TestTheNightIsThereAgainAtTheNextStart(t *testing.T) {
	folder := t.TempDir()
	first := lived(t, folder, nil)
	first.do(first.says(checklist.WriteNote{Text: "before the power failed"}))
	require.NoError(t, first.session.Close())
	assert.Equal(t, []string{"before the power failed"}, lived(t, folder, nil).notes())
}

func TestWhatIsKept(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*session.Config)
		unkept string
	}{
		{"a night of one's own", nil, ""},
		{"the example", func(c *session.Config) { c.Kit.Example = true }, "example"},
		{"a replay", func(c *session.Config) { c.Clock = c.Clock.Replay(c.Clock.Now(), 1) }, "replay"},
	} {
		t.Run(c.name, func(t *testing.T) {
			n := lived(t, t.TempDir(), c.change)
			assert.False(t, n.session.LosesWhatWasSaid(), "nothing was said")
			n.do(n.says(checklist.WriteNote{Text: "x"}))
			assert.Contains(t, n.notes(), "x")
			assert.Contains(t, n.session.Status.Unkept, c.unkept)
			assert.Equal(t, c.unkept != "", n.session.LosesWhatWasSaid())
			if c.unkept != "" {
				assert.NoFileExists(t, n.path)
			} else {
				assert.FileExists(t, n.path)
			}
		})
	}
}

func TestMessagesOfOthersAreLeftToThem(t *testing.T) {
	n := lived(t, t.TempDir(), nil)
	next, cmd, ok := n.session.Update(tea.WindowSizeMsg{Width: 80, Height: 24})
	assert.False(t, ok)
	assert.Nil(t, cmd)
	assert.Equal(t, n.notes(), (&night{session: next}).notes())
	assert.Nil(t, n.says(nil), "nothing said, nothing done")
}
