package ui_test

import (
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/inbox"
	"duskhand/plan/kit"
	"duskhand/ui"
)

// The night of two targets: divided by a key, followed by all screens, handed over by the one key.
func TestANightDividedAmongTwoTargets(t *testing.T) {
	k := kit.Example()
	k.Example = false
	path := t.TempDir() + "/journal.db"
	s := &session{t: t, now: time.Date(2026, 12, 5, 10, 40, 0, 0, time.UTC)}
	startWith(s, 120, 40, func(c *ui.Config) { c.Kit, c.JournalPath = k, path })
	s.press("2").seesNot("planned, NGC")
	s.press("/").sees("divide the rest of the night among NGC 2070, NGC 1365").press("enter")
	s.sees("as planned at dusk", "planned, NGC 1365", "u undo: night divided among")
	first := s.text()
	s.press("u")
	assert.NotEqual(t, first, s.text(), "undone")
	s.press("y", "1").sees("NGC 2070")

	s.press("o", "enter").wait(30 * time.Minute).press("s")
	for range 60 { // an operator who does what the program says, for as long as it takes
		s.pass(10 * time.Minute)
		if s.now.Hour() >= 17 {
			break
		}
		for range 4 {
			s.press("space")
		}
	}
	s.press("2").sees("NGC 1365, Great Barred", "5 h", "taken")
}

func TestNightOfOneTargetIsNotDivided(t *testing.T) {
	k := kit.Example()
	k.Example, k.Targets = false, k.Targets[:1]
	s := start(t, 120, 40, func(c *ui.Config) { c.Kit, c.JournalPath = k, t.TempDir()+"/journal.db" })
	before := s.text()
	s.press("/")
	assert.Equal(t, before, s.text())
}

// Nobody chooses a target: with the first thing said of a run the program says it, once, for keys and scripts.
func TestTheTargetOfADividedNightIsSaidWithItsFirstRun(t *testing.T) {
	k := kit.Example()
	k.Example, k.Targets[0].Share, k.Targets[1].Share = false, 1, 1
	path := filepath.Join(t.TempDir(), "journal.db")
	s := start(t, 120, 40, func(c *ui.Config) { c.Kit, c.JournalPath = k, path })
	letter, err := inbox.Post(inbox.Beside(path), []string{"derotator-on", "-16"}, s.now, time.Minute)
	require.NoError(t, err)
	refused, err := inbox.Post(inbox.Beside(path), []string{"subs-stopped"}, s.now.Add(time.Millisecond), time.Minute)
	require.NoError(t, err)
	s.wait(2 * time.Second)
	answer, ok, err := letter.Answer()
	require.NoError(t, err)
	require.True(t, ok)
	assert.Equal(t, "derotator on at −16°", answer.Text)
	answer, ok, err = refused.Answer()
	require.NoError(t, err)
	require.True(t, ok)
	assert.False(t, answer.Accepted)
	s.press("s")
	events, err := readAll(path)
	require.NoError(t, err)
	var kinds []string
	for _, e := range events {
		kinds = append(kinds, e.Kind)
	}
	assert.Equal(t, []string{checklist.KindNightOpened, checklist.KindTargetChosen, checklist.KindDerotatorOn, checklist.KindSubsStarted}, kinds)
	log := checklist.Fold(events)
	require.Len(t, log.Runs, 1)
	require.NotNil(t, log.Runs[0].Target)
}
