package ui_test

import (
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/plan/kit"
	"duskhand/ui"
	"duskhand/ui/testdata/clocks"
)

// machine is a computer with a night of one's own: its clock shows the true time and what it is off by.
type machine struct {
	t     *testing.T
	path  string
	kit   kit.Kit
	truth time.Time
	off   time.Duration
	boot  string
	began time.Time // truly
}

func newMachine(t *testing.T) *machine {
	k := kit.Example()
	k.Example = false
	return &machine{t: t, path: filepath.Join(t.TempDir(), "journal.db"), kit: k, truth: opened, boot: "first", began: opened.Add(-time.Hour)}
}

// start opens the screens on it.
func (m *machine) start() *session {
	s := &session{t: m.t, now: m.truth}
	return startWith(s, 120, 40, func(c *ui.Config) {
		c.Kit, c.JournalPath = m.kit, m.path
		c.Clock = clocks.LedBeside(func() time.Time { return s.now.Add(m.off) }, func() time.Duration { return s.now.Sub(m.began) }, m.boot)
	})
}

// stop leaves the screens.
func (m *machine) stop(s *session) {
	m.t.Helper()
	require.NoError(m.t, s.press("q").model.Close())
	m.truth = s.now
}

func (m *machine) events(night string) (kinds []string) {
	m.t.Helper()
	j, err := journal.OpenReader(m.path)
	require.NoError(m.t, err)
	events, err := j.Events(night)
	require.NoError(m.t, err)
	require.NoError(m.t, j.Close())
	for _, e := range events {
		kinds = append(kinds, e.Kind)
	}
	return kinds
}

// A small computer without a clock chip loses its power, is started again 40 minutes slow, and its clock is put right
// while the program runs: the countdown is what it was, and the screens promise nothing meanwhile.
func TestACountdownSurvivesAStartWithASlowClock(t *testing.T) {
	for name, runs := range map[string]time.Duration{"the last word lies later than the slow clock": 10 * time.Minute, "or before it": time.Hour} {
		t.Run(name, func(t *testing.T) {
			m := newMachine(t)
			s := m.start()
			s.press("1", "space").sees("turned on at 23:14", "until the rewind, at 00:49")
			s.wait(runs)
			m.stop(s)
			m.boot, m.began, m.off = "second", m.truth.Add(-time.Minute), -40*time.Minute
			s = m.start()
			if runs < 40*time.Minute {
				s.press("1").sees("later than this computer's clock shows", "Set this computer's clock").seesNot("until the rewind")
			}
			s.wait(5 * time.Minute)
			m.off = 0
			s.wait(time.Second).sees("the computer's clock was put forward by 40 min; noted")
			s.press("1").sees("turned on at 23:14", "at 00:49").seesNot("later than this computer's clock shows")
		})
	}
}

// The program was left, the clock set, and the program started again: noted before anything else is said.
func TestAClockSetWhileNothingRanIsNoted(t *testing.T) {
	m := newMachine(t)
	s := m.start()
	s.press("1", "space").sees("turned on at 23:14")
	m.stop(s)
	m.off = -40 * time.Minute
	s = m.start().sees("the computer's clock was put back by 40 min; what this night has is shifted by that")
	s.press("1").sees("turned on at 22:34", "u undo: derotator on at −16°, 22:34")
	m.stop(s)
	m.start().seesNot("was put back")
	assert.Equal(t, []string{checklist.KindNightOpened, checklist.KindDerotatorOn, checklist.KindClockJumped}, m.events("2026-12-05"))
}

// A clock that is set to another day by mistake, and back: the night is as it was, and the other has nothing of it.
func TestAClockSetToTomorrowAndBack(t *testing.T) {
	m := newMachine(t)
	s := m.start()
	s.press("1", "space").sees("turned on at 23:14", "until the rewind, at 00:49")
	m.off = 26 * time.Hour
	s.wait(time.Second).wait(time.Minute)
	m.off = 0
	s.wait(time.Second).wait(5 * time.Second)
	s.press("1").sees("turned on at 23:14", "until the rewind, at 00:49", "u undo: derotator on at −16°, 23:14")
	assert.Equal(t, []string{checklist.KindNightOpened, checklist.KindDerotatorOn, checklist.KindClockJumped, checklist.KindClockJumped}, m.events("2026-12-05"))
	assert.Empty(t, m.events("2026-12-06"))
}
