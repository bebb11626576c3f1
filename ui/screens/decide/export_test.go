package decide

import (
	"context"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/ui/facts"
)

// Search starts a computation and returns the command that waits for it.
func Search(find func(context.Context, func(done, total int)) (int, error)) tea.Cmd {
	return search(context.Background(), new(byte), find)
}

// HowFar reads a message that says how far a computation of a number has come; ok is false for any other.
func HowFar(msg tea.Msg) (done, total int, again tea.Cmd, ok bool) {
	m, ok := msg.(searchingMsg[int])
	return m.done, m.total, m.again, ok
}

// Found reads a message with the answer.
func Found(msg tea.Msg) (answer int, ok bool) {
	m, ok := msg.(foundMsg[int])
	return m.answer, ok
}

// Listed returns what is listed once the kit's own targets are ranked, and once all are.
func Listed(own, all facts.Ranking) (first, then facts.Ranking) {
	r := Model{}
	r.own, _ = r.own.ask(own.Question, nil)
	r.ranking, _ = r.ranking.ask(all.Question, nil)
	r.own = r.own.found(foundMsg[facts.Ranking]{id: r.own.id, answer: own})
	first = r.listed().answer
	r.ranking = r.ranking.found(foundMsg[facts.Ranking]{id: r.ranking.id, answer: all})
	return first, r.listed().answer
}

// NameRoom is how many letters of a target's name the list beside the other pages shows, in a room of a width.
func NameRoom(room int) int {
	const gap = 2 // between two columns, and before the first
	list := listWidth(room)
	left := list - gap
	for _, c := range choiceColumns() {
		if list >= c.from && c.Width > 0 {
			left -= c.Width + gap
		}
	}
	return left
}
