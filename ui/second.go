package ui

import (
	"fmt"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/ui/clock"
)

// What happens by itself, once a second.

// slowFacts is how old the slow facts may grow: they depend on the instant only through the plan of what
// is left when nothing is going on.
const slowFacts = time.Minute

// triesAgain is how long after a vain attempt the journal is tried again.
const triesAgain = 10 * time.Second

// jumpWorthTelling is how far the wall clock must part from the monotonic one before it is told.
const jumpWorthTelling = 2 * time.Second

func (m Model) ticked(msg tickMsg) (Model, tea.Cmd) {
	if msg.generation != m.generation {
		return m, nil
	}
	var cmd tea.Cmd
	m, cmd = m.watchClock()
	cmds := []tea.Cmd{tick(m.config.Clock, m.generation), cmd}
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
		cmds = append(cmds, takeLetters(m.config.JournalPath, m.now), checkFiles(m.store))
	}
	if m.follows != "" {
		cmds = append(cmds, followEvents(m.store, m.night(), m.seen))
	} else if !m.writing && (m.pending > 0 || m.unwritten != "") && m.now.Sub(m.tried).Abs() >= triesAgain {
		m.tried, m.writing = m.now, true // what is said meanwhile waits
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

// watchClock notices when the wall clock has jumped: set by somebody or by the network. It is told, and
// noted in the night, so that durations stay true. Where the machine's steady count stands still in sleep a
// clock put forward can't be told from a sleep; that is told, and nothing is noted.
func (m Model) watchClock() (Model, tea.Cmd) {
	reading := m.config.Clock.Reading()
	jump := reading.JumpSince(m.reading)
	from := reading.Wall.Add(-jump)
	m.reading = reading
	if m.config.Clock.Replaying() || jump.Abs() <= jumpWorthTelling {
		return m, nil
	}
	m.derived = time.Time{}
	if jump > 0 && !clock.SteadyCountsSleep() {
		m.notice = fmt.Sprintf("the computer slept for %s, or its clock was put forward by that; the countdown goes by what it shows now", duration(jump))
		return m, nil
	}
	way := "forward"
	if jump < 0 {
		way = "back"
	}
	m.notice = fmt.Sprintf("the computer's clock was put %s by %s; noted, and the countdown goes by what it shows now", way, duration(jump))
	return m.say(checklist.NoticeJump{From: from, To: reading.Wall})
}
