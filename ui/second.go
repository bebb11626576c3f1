package ui

import (
	"fmt"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/plan"
)

// What happens by itself, once a second.

// slowFacts is how old the slow facts may grow: they depend on the instant only through the plan of what
// is left when nothing is going on.
const slowFacts = time.Minute

// triesAgain is how long after a vain attempt the journal is tried again.
const triesAgain = 10 * time.Second

func (m Model) ticked(msg tickMsg) (Model, tea.Cmd) {
	if msg.generation != m.generation {
		return m, nil
	}
	var cmd tea.Cmd
	cmds := []tea.Cmd{tick(m.config.Clock, m.generation)}
	if m.store == nil {
		return m, tea.Batch(cmds...)
	}
	if date := plan.DateOf(m.config.Kit.Site.Place, m.now); date != m.date {
		m = m.stopWatching()
		m.date, m.scroll = date, 0
		if m.log.DerotatorOn {
			m.notice = "A new night begins. The derotator was on in the last one: switch it off, or say on at which angle it stands."
		}
		return m, tea.Batch(append(cmds, loadNight(m.store, m.night()), backUp(m.store))...)
	}
	if m, cmd = m.followScript(); cmd != nil {
		cmds = append(cmds, cmd)
	}
	if m.config.onDisk() && m.follows == "" {
		cmds = append(cmds, takeLetters(m.config.JournalPath, m.now))
		if !m.writing { // each write looks by itself, and one that hangs would have others queue behind it
			cmds = append(cmds, checkFiles(m.store))
		}
		m = m.tellHung()
	}
	if m.follows != "" {
		cmds = append(cmds, followEvents(m.config, m.store, m.night(), m.seen))
	} else if !m.writing && (m.pending > 0 || m.unwritten != "") && m.now.Sub(m.tried).Abs() >= triesAgain {
		m.tried, m.writing, m.begun = m.now, true, m.now // what is said meanwhile waits
		cmds = append(cmds, retryWriting(m.store))
	}
	if m.tonight == nil || m.now.Sub(m.derived).Abs() >= slowFacts {
		m = m.derive()
	} else {
		m = m.judge()
	}
	m = m.weighSubs()
	if m, cmd = m.rehearseSubs(); cmd != nil {
		cmds = append(cmds, cmd)
	}
	if m, cmd = m.rested(); cmd != nil {
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
func (m Model) tellHung() Model {
	if m.writing && !m.rereading && m.unwritten == "" && m.now.Sub(m.begun) >= longestWrite {
		m.unwritten = fmt.Sprintf("the disk has not answered for %s: what was said last is not written yet, and what is said now waits", duration(longestWrite))
	}
	return m
}

// followScript says what a replay's night said next, when its time has come.
func (m Model) followScript() (Model, tea.Cmd) {
	if len(m.script) == 0 || m.writing || m.script[0].At.After(m.now) {
		return m, nil
	}
	e := m.script[0]
	m.script, m.writing = m.script[1:], true
	store, night := m.store, m.night()
	return m, func() tea.Msg {
		written := appendEvent(store, night, e.Kind, e.At, e.Body)
		written.recorded = true
		return written
	}
}
