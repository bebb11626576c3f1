package ui_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/inbox"
	"duskhand/plan/kit"
	"duskhand/ui"
)

// A script says what the operator would have pressed: the running program judges it, writes it, shows it
// and answers.
func TestScriptsSayWhatHappened(t *testing.T) {
	k := kit.Example()
	k.Example = false
	path := filepath.Join(t.TempDir(), "journal.db")
	s := start(t, 120, 40, func(c *ui.Config) { c.Kit, c.JournalPath = k, path })
	s.press("1")
	folder := inbox.Beside(path)
	say := func(words ...string) inbox.Letter {
		s.now = s.now.Add(time.Millisecond) // they are taken in the order in which they were sent
		letter, err := inbox.Post(folder, words, s.now, time.Minute)
		require.NoError(t, err)
		return letter
	}
	on, again, nonsense := say("derotator-on", "-16"), say("derotator-on", "-16"), say("derotator-sideways")
	s.wait(time.Second).sees("turned on at 23:14")
	for _, c := range []struct {
		letter   inbox.Letter
		accepted bool
		text     string
	}{{on, true, "derotator on at −16°"}, {again, false, "already on"}, {nonsense, false, "derotator-on"}} {
		answer, ok, err := c.letter.Answer()
		require.NoError(t, err)
		require.True(t, ok, "each is answered")
		assert.Equal(t, c.accepted, answer.Accepted, answer.Text)
		assert.Contains(t, answer.Text, c.text)
	}
}

// Programs of the operator's run at the events of the night, once for each, without a shell; one that fails
// is noted and holds nothing up.
func TestProgramsAreToldOfTheNight(t *testing.T) {
	folder := t.TempDir()
	program := filepath.Join(folder, "note")
	require.NoError(t, os.WriteFile(program, []byte("#!/bin/sh\necho \"$DUSKHAND_EVENT\" >> "+folder+"/heard\n"), 0o700))
	k := kit.Example()
	k.Example = false
	k.On = []kit.OnEvent{{Event: "run-started", Command: []string{program}}, {Event: "rewind-due", Command: []string{program}},
		{Event: "rewound", Command: []string{filepath.Join(folder, "missing")}}}
	s := start(t, 120, 40, func(c *ui.Config) { c.Kit, c.JournalPath = k, filepath.Join(folder, "journal.db") })
	s.press("tab", "space").wait(30 * time.Second).press("space")
	s.wait(100 * time.Minute).sees("Stop the subs")
	s.press("space", "space").sees("your program for rewound failed")
	heard, err := os.ReadFile(filepath.Join(folder, "heard"))
	require.NoError(t, err)
	assert.Equal(t, []string{"run-started", "rewind-due"}, strings.Fields(string(heard))[:2])
	events, err := readAll(filepath.Join(folder, "journal.db"))
	require.NoError(t, err)
	kinds := ""
	for _, e := range events {
		kinds += e.Kind + " "
	}
	assert.Contains(t, kinds, "command-failed")
}
