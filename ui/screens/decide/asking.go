package decide

import (
	"context"
	"sync/atomic"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/plan"
	"duskhand/plan/kit"
)

// What the screen has computed aside, because it takes longer than a frame may.

// questionID tells questions apart, those of other rooms too.
type questionID *byte

// foundMsg comes from search with the answer to a question of the Decide screen. ID is the question's;
// answers to earlier ones are dropped. err is that of a computation that was given up.
type foundMsg[A any] struct {
	id     questionID
	answer A
	err    error
}

// searchingMsg comes from search while that takes long; again goes on waiting.
type searchingMsg[A any] struct {
	id          questionID
	done, total int
	again       tea.Cmd
}

// asked is a question that a command answers: the one asked last, and the answer that came last.
type asked[Q comparable, A any] struct {
	question    Q
	id          questionID // of the question; nil before the first
	cancel      context.CancelFunc
	open        bool
	done, total int // of the open one, once it takes long

	of     Q // what the answer answers
	answer A
	known  bool
}

// ask asks a question unless it was the last one asked. What is still being computed is given up.
func (a asked[Q, A]) ask(q Q, find func(context.Context, func(done, total int)) (A, error)) (asked[Q, A],
	tea.Cmd) {
	if a.id != nil && a.question == q {
		return a, nil
	}
	if a.cancel != nil {
		a.cancel()
	}
	ctx, cancel := context.WithCancel(context.Background())
	a.question, a.id, a.cancel, a.open, a.done, a.total = q, new(byte), cancel, true, 0, 0
	return a, search(ctx, a.id, find)
}

// found takes an answer, if it is to the question asked last. One that failed was given up for another.
func (a asked[Q, A]) found(msg foundMsg[A]) asked[Q, A] {
	if msg.id != a.id || msg.err != nil {
		return a
	}
	a.cancel()
	a.open, a.of, a.answer, a.known = false, a.question, msg.answer, true
	return a
}

// went takes how far the answer to the question asked last has come, and goes on waiting for it.
func (a asked[Q, A]) went(msg searchingMsg[A]) (asked[Q, A], tea.Cmd) {
	if msg.id == a.id {
		a.done, a.total = msg.done, msg.total
	}
	return a, msg.again
}

// progressEvery is how often it is told how far a computation has come; one that is shorter just appears.
const progressEvery = 500 * time.Millisecond

// search finds an answer beside the screens.
func search[A any](ctx context.Context, id questionID,
	find func(context.Context, func(done, total int)) (A, error)) tea.Cmd {
	var done, total atomic.Int64
	answered := make(chan foundMsg[A], 1)
	var wait tea.Cmd
	wait = func() tea.Msg {
		select {
		case found := <-answered:
			return found
		case <-time.After(progressEvery):
			return searchingMsg[A]{id, int(done.Load()), int(total.Load()), wait}
		}
	}
	return func() tea.Msg {
		go func() {
			answer, err := find(ctx, func(d, t int) { done.Store(int64(d)); total.Store(int64(t)) })
			answered <- foundMsg[A]{id, answer, err}
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
