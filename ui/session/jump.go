package session

import (
	"fmt"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist"
	"duskhand/sky/words"
	"duskhand/ui/clock"
	"duskhand/ui/facts"
)

// What is done about a clock that does not go on as it should.

// jumpWorthTelling is how far the wall clock must part from the monotonic one before it is told.
const jumpWorthTelling = 2 * time.Second

// watchClock notices when the wall clock has jumped: set by somebody or by the network. It is told, and
// noted in the night, so that durations stay true. Where the machine's steady count stands still in sleep a
// clock put forward can't be told from a sleep; that is told, and nothing is noted.
//
// It is asked before anything else is done at an instant: what is said on the new clock comes after the jump.
func (m Session) watchClock() (Session, tea.Cmd) {
	reading := m.config.Clock.Reading()
	jump := reading.JumpSince(m.reading)
	from := reading.Wall.Add(-jump)
	m.reading = reading
	if m.config.Clock.Replaying() || jump.Abs() <= jumpWorthTelling {
		return m, nil
	}
	m.derived = time.Time{}
	if jump > 0 && !clock.SteadyCountsSleep() {
		m.Notice = fmt.Sprintf("the computer slept for %s, or its clock was put forward by that; the countdown goes by what it shows now", words.Lasting(jump))
		return m, nil
	}
	m.Notice = jumpWords(jump, "noted, and the countdown goes by what it shows now")
	if m.Status.Log.Key == "" || m.Status.Follows != "" { // nothing was said on the clock as it went, or another program notes it
		return m, nil
	}
	return m.noteJump(checklist.NoticeJump{From: from, To: reading.Wall})
}

// noteJump has a jump written before all that waits, and into the night that it was noticed in: the clock as it goes
// now may be in another.
func (m Session) noteJump(jump checklist.NoticeJump) (Session, tea.Cmd) {
	if m.store == nil {
		return m, nil
	}
	said := utterance{action: jump, night: m.Status.Name()}
	if m.writing {
		m.waiting = append([]utterance{said}, m.waiting...)
		return m, nil
	}
	return m.utter(said)
}

func jumpWords(jump time.Duration, then string) string {
	way := "forward"
	if jump < 0 {
		way = "back"
	}
	return fmt.Sprintf("the computer's clock was put %s by %s; %s", way, words.Lasting(jump.Abs()), then)
}

// openNight writes down what a program that begins to write a night, or comes back to it, must say first: see
// checklist.Night.Opening.
func (m Session) openNight() (Session, tea.Cmd) {
	var count checklist.Count
	if m.config.onDisk() {
		count = facts.CountOf(m.reading)
	}
	switch first := m.Status.Log.Opening(m.config.KitPath, m.Status.Tonight.Target.Name, count,
		m.reading.Wall).(type) {
	case checklist.OpenNight:
		return m.utter(utterance{action: first}) // the program says it, not the operator, who loses nothing by leaving a replay
	case checklist.NoticeJump:
		jump := first.To.Sub(first.From)
		if jump > 0 && !clock.SteadyCountsSleep() {
			return m, nil
		}
		m.Notice = jumpWords(jump, "what this night has is shifted by that, and the countdown goes by what it shows now")
		return m.noteJump(first)
	}
	return m, nil
}
