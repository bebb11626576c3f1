package decide

import (
	"context"
	"fmt"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist/journal"
	"duskhand/plan/choose"
	"duskhand/plan/kit"
	"duskhand/ui/facts"
	"duskhand/ui/screens"
)

// ask asks for what the screen shows and nobody has computed yet.
func (r Model) ask(s screens.Status) (Model, tea.Cmd) {
	if s.Tonight == nil {
		return r, nil
	}
	m := view{r, screens.Shown{Status: s}}
	var own, ranking, year, disk tea.Cmd
	question := s.Run.RankingFor(r.picked)
	if !r.ranking.known {
		r.own, own = r.own.ask(question, r.rank(s, ownTargets))
	}
	r.ranking, ranking = r.ranking.ask(question, r.rank(s, choose.Targets))
	m.Model = r
	if choice, ok := m.choice(); ok && m.shows(yearPage) {
		k, q := s.Kit, yearQuestion{choice.Target.Name, s.Date, s.Tonight.Axis}
		r.year, year = r.year.ask(q, func(ctx context.Context, progress func(int, int)) (choose.Year, error) {
			return choose.YearOf(ctx, k, choice.Target, q.axis, q.date, nightsInAYear, progress)
		})
	}
	if folders := s.Kit.Watch.Folders; len(folders) > 0 && r.free != nil {
		q, free := diskQuestion{folders[0], s.Now.Truncate(facts.RankingStep)}, r.free
		r.disk, disk = r.disk.ask(q, func(context.Context, func(int, int)) (facts.Disk, error) {
			return diskOf(q.folder, free), nil
		})
	}
	return r, tea.Batch(own, ranking, year, disk)
}

func ownTargets(k kit.Kit) []kit.Target { return k.Targets }

// rank is the finding of a ranking of some targets: it reads what earlier nights have left to do, if there is a record
// of them.
func (r Model) rank(s screens.Status, targets func(kit.Kit) []kit.Target) func(context.Context, func(int, int)) (facts.Ranking, error) {
	q, night, past, now := s.Run.RankingFor(r.picked), s.Tonight.Night, s.Past, s.Now
	return func(ctx context.Context, progress func(int, int)) (facts.Ranking, error) {
		var events []journal.Event
		var unread error
		if past != nil {
			events, unread = past()
		}
		ranking, err := facts.Rank(ctx, night, q, targets(night.Kit), facts.GoalsOf(night.Kit, events, q.Date, now), progress)
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
func (r Model) computed(s screens.Status, msg tea.Msg) (Model, tea.Cmd) {
	var again tea.Cmd
	switch msg := msg.(type) {
	case foundMsg[facts.Ranking]:
		r.ranking, r.own = r.ranking.found(msg), r.own.found(msg)
		return r.derived(s), nil
	case foundMsg[choose.Year]:
		r.year = r.year.found(msg)
	case foundMsg[facts.Disk]:
		r.disk = r.disk.found(msg)
		return r.derived(s), nil
	case searchingMsg[facts.Ranking]:
		r.ranking, again = r.ranking.went(msg)
		r.own, _ = r.own.went(msg)
	case searchingMsg[choose.Year]:
		r.year, again = r.year.went(msg)
	case searchingMsg[facts.Disk]:
		return r, msg.again
	}
	return r, again
}
