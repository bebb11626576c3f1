package ui

import (
	"context"
	"fmt"
	"sync/atomic"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist/journal"
	"duskhand/plan"
	"duskhand/plan/choose"
	"duskhand/plan/kit"
	"duskhand/ui/facts"
	"duskhand/ui/keys"
)

// What the Decide screen has computed aside, because it takes longer than a frame may.

// asked is a question that a command answers: the one asked last, and the answer that came last.
type asked[Q comparable, A any] struct {
	question    Q
	number      int // of the question; 0 before the first
	cancel      context.CancelFunc
	open        bool
	done, total int // of the open one, once it takes long

	of     Q // what the answer answers
	answer A
	known  bool
}

// ask asks a question unless it was the last one asked. What is still being computed is given up.
func (a asked[Q, A]) ask(q Q, find func(context.Context, func(done, total int)) (A, error)) (asked[Q, A], tea.Cmd) {
	if a.number > 0 && a.question == q {
		return a, nil
	}
	if a.cancel != nil {
		a.cancel()
	}
	ctx, cancel := context.WithCancel(context.Background())
	a.question, a.number, a.cancel, a.open, a.done, a.total = q, a.number+1, cancel, true, 0, 0
	return a, search(ctx, a.number, find)
}

// found takes an answer, if it is to the question asked last. One that failed was given up for another.
func (a asked[Q, A]) found(msg foundMsg[A]) asked[Q, A] {
	if msg.number != a.number || msg.err != nil {
		return a
	}
	a.cancel()
	a.open, a.of, a.answer, a.known = false, a.question, msg.answer, true
	return a
}

// went takes how far the answer to the question asked last has come, and goes on waiting for it.
func (a asked[Q, A]) went(msg searchingMsg[A]) (asked[Q, A], tea.Cmd) {
	if msg.number == a.number {
		a.done, a.total = msg.done, msg.total
	}
	return a, msg.again
}

// progressEvery is how often it is told how far a computation has come; one that is shorter just appears.
const progressEvery = 500 * time.Millisecond

// search finds an answer beside the screens.
func search[A any](ctx context.Context, number int, find func(context.Context, func(done, total int)) (A, error)) tea.Cmd {
	var done, total atomic.Int64
	answered := make(chan foundMsg[A], 1)
	var wait tea.Cmd
	wait = func() tea.Msg {
		select {
		case found := <-answered:
			return found
		case <-time.After(progressEvery):
			return searchingMsg[A]{number, int(done.Load()), int(total.Load()), wait}
		}
	}
	return func() tea.Msg {
		go func() {
			answer, err := find(ctx, func(d, t int) { done.Store(int64(d)); total.Store(int64(t)) })
			answered <- foundMsg[A]{number, answer, err}
		}()
		return wait()
	}
}

// yearQuestion is all that a target's year depends on, the kit aside.
type yearQuestion struct {
	target string
	date   plan.Date
	axis   kit.Axis
}

// diskQuestion is asked again every few minutes: subs arrive.
type diskQuestion struct {
	folder string
	at     time.Time
}

// nightsInAYear is how far ahead the calendar looks.
const nightsInAYear = 365

// askToDecide asks for what the Decide screen shows and nobody has computed yet.
func (m Model) askToDecide() (Model, tea.Cmd) {
	if m.screen != keys.DecideScreen || m.tonight == nil {
		return m, nil
	}
	var ranking, year, disk tea.Cmd
	m.decide.ranking, ranking = m.decide.ranking.ask(m.run.RankingFor(m.decide.picked), m.rank())
	if choice, ok := m.choice(); ok && m.shows(yearPage) {
		k, q := m.config.Kit, yearQuestion{choice.Target.Name, m.date, m.tonight.Axis}
		m.decide.year, year = m.decide.year.ask(q, func(ctx context.Context, progress func(int, int)) (choose.Year, error) {
			return choose.YearOf(ctx, k, choice.Target, q.axis, q.date, nightsInAYear, progress)
		})
	}
	if folders := m.config.Kit.Watch.Folders; len(folders) > 0 && m.config.FreeBytes != nil {
		q, free := diskQuestion{folders[0], m.now.Truncate(facts.RankingStep)}, m.config.FreeBytes
		m.decide.disk, disk = m.decide.disk.ask(q, func(context.Context, func(int, int)) (facts.Disk, error) {
			return diskOf(q.folder, free), nil
		})
	}
	return m, tea.Batch(ranking, year, disk)
}

// rank is the finding of a ranking: it reads what earlier nights have left to do, if there is a record of them.
func (m Model) rank() func(context.Context, func(int, int)) (facts.Ranking, error) {
	q, night, store, now := m.run.RankingFor(m.decide.picked), m.tonight.Night, m.store, m.now
	return func(ctx context.Context, progress func(int, int)) (facts.Ranking, error) {
		var events []journal.Event
		var unread error
		if store != nil {
			events, unread = store.Since(0)
		}
		ranking, err := facts.Rank(ctx, night, q, facts.GoalsOf(night.Kit, events, q.Date, now), progress)
		if unread != nil {
			ranking.Unread = fmt.Sprintf("what earlier nights have taken could not be read: %v", unread)
		}
		return ranking, err
	}
}

func diskOf(folder string, free func(string) (uint64, error)) facts.Disk {
	bytes, err := free(folder)
	if err != nil {
		return facts.Disk{None: fmt.Sprintf("What is free at %s could not be found: %v.", folder, err)}
	}
	return facts.Disk{FreeBytes: int64(min(bytes, 1<<62)), OK: true}
}

// computed takes what was computed aside.
func (m Model) computed(msg tea.Msg) (Model, tea.Cmd) {
	var again tea.Cmd
	switch msg := msg.(type) {
	case foundMsg[facts.Ranking]:
		m.decide.ranking = m.decide.ranking.found(msg)
		return m.deriveDecide(), nil
	case foundMsg[choose.Year]:
		m.decide.year = m.decide.year.found(msg)
	case foundMsg[facts.Disk]:
		m.decide.disk = m.decide.disk.found(msg)
		return m.deriveDecide(), nil
	case searchingMsg[facts.Ranking]:
		m.decide.ranking, again = m.decide.ranking.went(msg)
	case searchingMsg[choose.Year]:
		m.decide.year, again = m.decide.year.went(msg)
	case searchingMsg[facts.Disk]:
		return m, msg.again
	}
	return m, again
}
