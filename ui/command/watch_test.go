package command_test

import (
	"bytes"
	"encoding/json"
	"io"
	"strings"
	"testing"
	"time"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/checklist/rehearsal"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/ui/command"
	"duskhand/ui/testdata/clocks"
)

// liveNight is a night that another program writes while it is watched: the example's operator, through a journal
// that is held open.
type liveNight struct {
	now    time.Time
	end    time.Time
	writer *journal.Journal
	script []journal.Event
	leave  io.Closer
	t      *testing.T
}

// clock goes ten seconds further each time that it is looked at, and has the operator say what is due.
func (n *liveNight) clock() time.Time {
	n.now = n.now.Add(10 * time.Second)
	for len(n.script) > 0 && !n.script[0].At.After(n.now) {
		e := n.script[0]
		n.script = n.script[1:]
		_, err := n.writer.Append("2026-12-05", e.Kind, e.At, e.Body)
		require.NoError(n.t, err)
	}
	if n.now.After(n.end) {
		require.NoError(n.t, n.leave.Close())
	}
	return n.now
}

// watchLive watches such a night from one instant to another and returns what was written.
func watchLive(t *testing.T, from, to time.Time, args ...string) (out, messages string, code int) {
	t.Helper()
	s := newShell(t)
	s.ownKit()
	k := kit.Example()
	script, err := rehearsal.Script(k, checklist.List{}, "", plan.DateOf(k.Site.Place, from), to)
	require.NoError(t, err)
	in, leave := io.Pipe()
	n := &liveNight{now: from, end: to, script: script, leave: leave, t: t}
	n.writer, err = journal.Open(s.journal(), "another", func() time.Time { return n.now })
	require.NoError(t, err)
	defer func() { require.NoError(t, n.writer.Close()) }()
	var written, err2 bytes.Buffer
	program := command.Program{Streams: command.Streams{In: in, Out: &written, Err: &err2}, Env: func(name string) string { return s.env[name] },
		Clock: clocks.Led(n.clock)}
	code = program.Run(append([]string{"watch", "--lines"}, args...))
	return written.String(), err2.String(), code
}

// An hour and a half around the first rewind, from set-up done to the second run, as another duskhand writes it.
func TestWatchTellsANightThatAnotherProgramWrites(t *testing.T) {
	out, messages, code := watchLive(t, at(t, "21:30"), at(t, "23:40"))
	assert.Equal(t, command.Done, code)
	assert.Empty(t, messages)
	golden(t, "watch-lines.golden", out)
	previous := ""
	for _, line := range strings.Split(strings.TrimSuffix(out, "\n"), "\n") {
		require.Regexp(t, `^\d\d:\d\d [A-Z0-9].*[.!?]$`, line, "the local time, and a sentence")
		require.NotContains(t, line, "\x1b")
		require.GreaterOrEqual(t, line[:5], previous, "in order")
		previous = line[:5]
	}
}

// What the Run screen says at the call, in its words: the label and the line that says what to do.
func TestWatchCallsInTheWordsOfTheScreen(t *testing.T) {
	out, _, _ := watchLive(t, at(t, "23:00"), at(t, "23:31"))
	assert.Contains(t, out, "min until the rewind, at 23:30.")
	assert.Contains(t, out, " Soon: after sub 61 stop guiding and rewind to −16°.")
	assert.Contains(t, out, " The last sub is being taken. Then: stop guiding, rewind to −16°, start guiding and see it correct, start subs.")
	assert.Contains(t, out, " REWIND: now, before the limit at 23:33, early 23:32, late 23:34.")
}

func TestWatchInASCII(t *testing.T) {
	out, _, _ := watchLive(t, at(t, "23:25"), at(t, "23:32"), "--ascii")
	assert.Contains(t, out, "rewind to -16d")
	for _, r := range out {
		require.Less(t, r, rune(128), out)
	}
}

// at is a local time of the example's evening.
func at(t *testing.T, clock string) time.Time {
	t.Helper()
	local, err := time.ParseInLocation("2006-01-02 15:04", "2026-12-05 "+clock, kit.Example().Site.Zone)
	require.NoError(t, err)
	return local.UTC()
}

// Before anything is said there is no night; a note from a script opens one, and is told whole.
func TestWatchBeginsBeforeThereIsAJournal(t *testing.T) {
	s := inTheDark(t)
	in, leave := io.Pipe()
	looked := 0
	led := func() time.Time {
		looked++
		switch looked {
		case 8:
			s.tell("note", "thin", "cloud")
		case 16:
			require.NoError(t, leave.Close())
		}
		return s.now.Add(time.Duration(looked) * time.Second)
	}
	var out, messages bytes.Buffer
	p := command.Program{Streams: command.Streams{In: in, Out: &out, Err: &messages}, Env: func(name string) string { return s.env[name] }, Clock: clocks.Led(led)}
	require.Equal(t, command.Done, p.Run([]string{"watch", "--lines"}))
	assert.Empty(t, messages.String())
	assert.Contains(t, out.String(), "No night is open in the journal yet.")
	assert.Contains(t, out.String(), "Note: thin cloud.")
	assert.Equal(t, []string{"night-opened", "noted"}, s.kinds(), "it has written nothing itself")
}

func TestWatchOfAReplayEndsWithItsNight(t *testing.T) {
	s := newShell(t)
	in, leave := io.Pipe()
	defer leave.Close()
	var out, messages bytes.Buffer
	p := command.Program{Streams: command.Streams{In: in, Out: &out, Err: &messages}, Env: func(name string) string { return s.env[name] }, Clock: clocks.Fixed(s.now)}
	code := p.Run([]string{"watch", "--lines", "--at", "2026-12-06 12:30", "--speed", "3600"})
	assert.Equal(t, command.Done, code, messages.String())
	lines := strings.Split(strings.TrimSpace(out.String()), "\n")
	assert.Regexp(t, `EXAMPLE NIGHT: the night of 2026-12-05 at Saltbush Flat, times ACDT \(UTC\+10:30\)\.$`, lines[0])
	assert.Equal(t, "13:04 The night of 2026-12-05 is over.", lines[len(lines)-1])
}

func TestWatchEndsWithItsInputAndRefusesToGuess(t *testing.T) {
	s := newShell(t)
	assert.Equal(t, command.Done, s.run("", "watch", "--lines"))
	assert.Contains(t, s.out, "EXAMPLE NIGHT")
	assert.Equal(t, command.WrongUse, s.run("", "watch"))
	assert.Contains(t, s.err, "duskhand watch --lines; the screens are: duskhand")
	assert.Equal(t, command.WrongUse, s.run("", "watch", "--lines", "all"))
}

// full takes nothing.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, io.ErrClosedPipe }

func TestWatchFailsWhenNobodyTakesItsLines(t *testing.T) {
	s := newShell(t)
	var messages bytes.Buffer
	p := command.Program{Streams: command.Streams{In: strings.NewReader(""), Out: full{}, Err: &messages}, Env: func(name string) string { return s.env[name] }, Clock: clocks.Fixed(s.now)}
	assert.Equal(t, command.Failed, p.Run([]string{"watch", "--lines"}))
	assert.Contains(t, messages.String(), "writing the lines")
}

// What somebody noted is anybody's text: nothing of it drives the terminal.
func TestWatchShowsNotesThatDriveNoTerminal(t *testing.T) {
	s := newShell(t)
	s.ownKit()
	from := at(t, "23:00")
	in, leave := io.Pipe()
	n := &liveNight{now: from, end: from.Add(10 * time.Minute), leave: leave, t: t}
	body, err := json.Marshal(checklist.NotedBody{Text: "cloud\x1b]0;x\x07 \u009b31m\u202e\n23:59 REWIND"})
	require.NoError(t, err)
	n.script = []journal.Event{{Kind: checklist.KindNoted, At: from.Add(5 * time.Minute), Body: body}}
	n.writer, err = journal.Open(s.journal(), "another", func() time.Time { return n.now })
	require.NoError(t, err)
	_, err = n.writer.Append("2026-12-05", checklist.KindNightOpened, from.Add(-time.Hour), checklist.NightOpenedBody{})
	require.NoError(t, err)
	defer func() { require.NoError(t, n.writer.Close()) }()
	var out, messages bytes.Buffer
	program := command.Program{Streams: command.Streams{In: in, Out: &out, Err: &messages}, Env: func(name string) string { return s.env[name] }, Clock: clocks.Led(n.clock)}
	require.Equal(t, command.Done, program.Run([]string{"watch", "--lines"}))
	require.Contains(t, out.String(), "cloud")
	assert.NotContains(t, out.String(), "\n23:59 REWIND")
	for _, r := range out.String() {
		require.True(t, r == '\n' || unicode.IsPrint(r), "%q", out.String())
	}
}
