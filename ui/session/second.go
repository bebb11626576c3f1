package session

import (
	"fmt"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/plan"
	"duskhand/sky/words"
	"duskhand/ui/follow"
)

// What happens by itself, once a second.

// triesAgain is how long after a vain attempt the journal is tried again.
const triesAgain = 10 * time.Second

// second is what a second brings once the journal is open.
func (m Session) second() (Session, tea.Cmd) {
	if m.store == nil {
		return m, nil
	}
	var cmd tea.Cmd
	var cmds []tea.Cmd
	if date := plan.DateOf(m.config.Kit.Site.Place, m.Status.Now); date != m.Status.Date {
		m = m.stopWatching()
		m.Status.Date = date
		if m.Status.Log.DerotatorOn {
			m.Notice = "A new night begins. The derotator was on in the last one: switch it off, or say on at which angle it stands."
		}
		return m, tea.Batch(append(cmds, loadNight(m.store, m.Status.Name()), backUp(m.store))...)
	}
	if m, cmd = m.followScript(); cmd != nil {
		cmds = append(cmds, cmd)
	}
	if m.config.onDisk() && m.Status.Follows == "" {
		cmds = append(cmds, takeLetters(m.config.JournalPath, m.Status.Now))
		if !m.writing { // each write looks by itself, and one that hangs would have others queue behind it
			cmds = append(cmds, checkFiles(m.store))
		}
		m = m.tellHung()
	}
	if m.Status.Follows != "" {
		cmds = append(cmds, followEvents(m.config, m.store, m.Status.Name(), m.seen))
	} else if !m.writing && (m.pending > 0 || m.Unwritten != "") && m.Status.Now.Sub(m.tried).Abs() >= triesAgain {
		m.tried, m.writing, m.begun = m.Status.Now, true, m.Status.Now // what is said meanwhile waits
		cmds = append(cmds, retryWriting(m.store))
	}
	if m.Status.Tonight == nil || follow.Stale(m.derived, m.Status.Now) {
		m = m.derive()
	} else {
		m = m.judge()
	}
	if m, cmd = m.priceAxis(); cmd != nil {
		cmds = append(cmds, cmd)
	}
	m = m.weighSubs()
	if m, cmd = m.rehearseSubs(); cmd != nil {
		cmds = append(cmds, cmd)
	}
	if m, cmd = m.sound(); cmd != nil {
		cmds = append(cmds, cmd)
	}
	return m, tea.Batch(cmds...)
}

// longestWrite is how long an event may take to reach the disk before that is said.
const longestWrite = 2 * time.Second

// tellHung says that an event is not on the disk yet, when that takes longer than a disk in order does.
func (m Session) tellHung() Session {
	if m.writing && !m.rereading && m.Unwritten == "" && m.Status.Now.Sub(m.begun) >= longestWrite {
		m.Unwritten = fmt.Sprintf("the disk has not answered for %s: what was said last is not written yet, and what is said now waits",
			words.Lasting(longestWrite))
	}
	return m
}

// followScript says what a replay's night said next, when its time has come.
func (m Session) followScript() (Session, tea.Cmd) {
	if len(m.script) == 0 || m.writing || m.script[0].At.After(m.Status.Now) {
		return m, nil
	}
	e := m.script[0]
	m.script, m.writing = m.script[1:], true
	store, night := m.store, m.Status.Name()
	return m, func() tea.Msg {
		written := appendEvent(store, night, e.Kind, e.At, e.Body)
		written.recorded = true
		return written
	}
}
