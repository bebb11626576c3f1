package command_test

import (
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/inbox"
	"duskhand/checklist/journal"
	"duskhand/checklist/told"
	"duskhand/plan/kit"
	"duskhand/ui/command"
)

// inTheDark is a shell with a kit of its own on the example's night, half an hour into the dark.
func inTheDark(t *testing.T) *shell {
	s := newShell(t)
	s.ownKit()
	s.now = time.Date(2026, 12, 5, 11, 40, 0, 0, time.UTC)
	return s
}

func (s *shell) journal() string {
	return filepath.Join(s.home, ".local", "state", "duskhand", "journal.db")
}

// tell says what must be taken, a minute after what was said before.
func (s *shell) tell(words ...string) {
	s.t.Helper()
	s.now = s.now.Add(time.Minute)
	require.Equal(s.t, command.Done, s.run("", append([]string{"tell"}, words...)...), s.err)
}

func (s *shell) kinds() (kinds []string) {
	s.t.Helper()
	j, err := journal.OpenReader(s.journal())
	require.NoError(s.t, err)
	events, err := j.Events("2026-12-05")
	require.NoError(s.t, err)
	require.NoError(s.t, j.Close())
	for _, e := range events {
		kinds = append(kinds, e.Kind)
	}
	return kinds
}

func TestTellWritesWhenNoProgramRuns(t *testing.T) {
	s := inTheDark(t)
	s.tell("derotator-on", "-16")
	assert.Equal(t, "derotator on at −16°, 22:11:00\n", s.out) // 11:41 UTC
	s.tell("subs-started", "l")
	s.tell("note", "thin", "cloud")
	s.tell("undo")
	assert.Equal(t, []string{checklist.KindNightOpened, checklist.KindDerotatorOn, checklist.KindSubsStarted, checklist.KindNoted, checklist.KindUndone}, s.kinds())

	assert.Equal(t, command.Failed, s.run("", "tell", "derotator-on"))
	assert.Equal(t, "duskhand: the derotator is already on since 22:11; to move it say rewound, to correct its angle give a reading\n", s.err)
	assert.Len(t, s.kinds(), 5, "what is refused is not written")
}

// In a night that the kit's shares divide, the first run gets the target whose turn it is, and room counts for it.
func TestTellSaysTheTargetOfADividedNight(t *testing.T) {
	s := newShell(t)
	s.ownKit("name = \"NGC 2070\"", "name = \"NGC 2070\"\nshare = 2", "name = \"NGC 1365\"", "name = \"NGC 1365\"\nshare = 1")
	s.now = time.Date(2026, 12, 5, 11, 40, 0, 0, time.UTC)
	assert.NotEqual(t, command.Done, s.run("", "tell", "subs-stopped"))
	s.tell("derotator-on", "-16")
	s.tell("subs-started", "l")
	assert.Equal(t, []string{checklist.KindNightOpened, checklist.KindTargetChosen, checklist.KindDerotatorOn, checklist.KindSubsStarted}, s.kinds())
	assert.Equal(t, command.Done, s.run("", "room", "60"), s.out)
}

func TestTellRefusesWhatIsNoSaying(t *testing.T) {
	s := inTheDark(t)
	for said, want := range map[string]string{
		"tell":                       "nothing is said; say one of",
		"tell rewind":                `"rewind" can't be said`,
		"tell rewound 90":            "is no angle that the derotator can have; give -16 to 16 degrees",
		"tell --wait 0 undo":         "--wait is 0; give more than 0",
		"tell --wait x undo":         `--wait is "x"; give a number, as 2.5 or 2,5, for SECONDS`,
		"tell subs-started Infrared": `the kit has no filter "Infrared"`,
	} {
		assert.Equal(t, command.WrongUse, s.run("", strings.Fields(said)...), said)
		assert.Contains(t, s.err, want)
	}
	assert.NoFileExists(t, s.journal())
	example := newShell(t)
	assert.Equal(t, command.Failed, example.run("", "tell", "undo"))
	assert.Contains(t, example.err, "there is no kit file")
}

// screens stands in for the running program: it holds the journal, and once in a while takes what is said
// and judges it, as the screens do. It ends when the function that it returns is called.
func screens(t *testing.T, s *shell) (end func()) {
	j, err := journal.Open(s.journal(), "screens", func() time.Time { return s.now })
	require.NoError(t, err)
	var log checklist.Night
	k := kit.Example()
	judge := func(m inbox.Message) inbox.Answer {
		action, err := told.Action(k, m.Words)
		if err != nil {
			return inbox.Answer{Text: err.Error()}
		}
		kind, body, err := checklist.Say(log, action, k.Site.Zone)
		if err != nil {
			return inbox.Answer{Text: err.Error()}
		}
		e, err := j.Append("2026-12-05", kind, m.Sent, body)
		if err != nil {
			return inbox.Answer{Text: err.Error()}
		}
		log = log.Next(e)
		return inbox.Answer{Accepted: true, Text: checklist.Words(e)}
	}
	stop, stopped := make(chan struct{}), make(chan struct{})
	now := s.now
	go func() {
		defer close(stopped)
		for {
			messages, err := inbox.Take(inbox.Beside(s.journal()), now)
			assert.NoError(t, err)
			for _, m := range messages {
				assert.NoError(t, m.Answer(judge(m)))
			}
			select {
			case <-stop:
				return
			case <-time.After(5 * time.Millisecond):
			}
		}
	}()
	return func() { close(stop); <-stopped; require.NoError(t, j.Close()) }
}

func TestTellHandsOverToTheRunningProgram(t *testing.T) {
	s := inTheDark(t)
	end := screens(t, s)
	assert.Equal(t, command.Done, s.run("", "tell", "derotator-on", "-16"), s.err)
	assert.Equal(t, "derotator on at −16°\n", s.out)
	assert.Equal(t, command.Failed, s.run("", "tell", "subs-stopped"))
	assert.Equal(t, "duskhand: no subs are being taken; say when they start\n", s.err)
	assert.Equal(t, []string{checklist.KindDerotatorOn}, s.kinds())
	end()
}

func TestTellSaysWhenTheRunningProgramDoesNotListen(t *testing.T) {
	s := inTheDark(t)
	j, err := journal.Open(s.journal(), "an older version", func() time.Time { return s.now })
	require.NoError(t, err)
	assert.Equal(t, command.Failed, s.run("", "tell", "--wait", "0.1", "derotator-on"))
	assert.Equal(t, "duskhand: the program that writes the journal did not take it within 100ms; nothing was written\n", s.err)
	require.NoError(t, j.Close())
	assert.Empty(t, s.kinds())
}

func TestTellWritesItselfWhenTheProgramEndsMeanwhile(t *testing.T) {
	s := inTheDark(t)
	j, err := journal.Open(s.journal(), "an older version", func() time.Time { return s.now })
	require.NoError(t, err)
	closed := make(chan error)
	go func() { // as soon as the message lies there
		for {
			lying, err := filepath.Glob(filepath.Join(inbox.Beside(s.journal()), "*.said"))
			if err != nil || len(lying) > 0 {
				closed <- j.Close()
				return
			}
			time.Sleep(time.Millisecond)
		}
	}()
	assert.Equal(t, command.Done, s.run("", "tell", "--wait", "30", "derotator-on", "3"), s.err)
	require.NoError(t, <-closed)
	assert.Equal(t, []string{checklist.KindNightOpened, checklist.KindDerotatorOn}, s.kinds(), "once")
}
