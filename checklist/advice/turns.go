package advice

import (
	"slices"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/tally"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/plan/share"
)

// present is what the night points at. While nobody has chosen a target of a divided night it is the one whose
// turn it is, until something is taken: a run stays its target's, as the record has it.
func (t *Tonight) present(now time.Time) kit.Target {
	if t.shared != nil && t.Log.Target == nil && len(t.Log.Runs) == 0 && t.Log.Subs == nil {
		return t.shared.turnAt(now)
	}
	return tally.Target(t.Kit, t.Log)
}

// ChoiceBefore returns the choice of the present target, which must be said before an action that begins
// something on it: in a divided night that nobody has chosen a target of. ok is false where nothing need be said.
func (m Moment) ChoiceBefore(a checklist.Action) (choice checklist.ChooseTarget, ok bool) {
	if m.Tonight == nil || m.shared == nil || m.Log.Target != nil || len(m.Log.Runs) > 0 || m.Log.Subs != nil {
		return choice, false
	}
	switch a.(type) {
	case checklist.TurnOn, checklist.Rewound, checklist.StartSubs:
	case checklist.Read:
		if !m.Log.DerotatorOn {
			return choice, false // it only tells where the stage stands
		}
	default:
		return choice, false
	}
	return checklist.ChooseTarget{Target: checklist.Target{Name: m.Target.Name, Star: m.Target.Star}}, true
}

// turns returns the spans in which a target has its turn; nil if the night is not divided, or not with it.
func (t *Tonight) turns(target string) []plan.Span {
	var turns []plan.Span
	for i, s := range t.Shared() {
		if s.Target.Name == target {
			turns = append(turns, plan.Span{From: s.Ready, To: t.turnEnds(i)})
		}
	}
	return turns
}

// turnEnds returns when a turn of the divided night is over: when the next one's break begins.
func (t *Tonight) turnEnds(i int) time.Time {
	if i+1 < len(t.shared.Stretches) {
		return t.shared.Stretches[i+1].From
	}
	return t.Night.Span.To
}

// ownTurns returns the spans that the present target is held to, nil for none. One that was chosen outside its
// turn, after the night was divided, has all the night to the end of its next turn: the division is advice. until
// is that end, zero for a target in its turn.
func (t *Tonight) ownTurns() (turns []plan.Span, until time.Time) {
	turns = t.turns(t.Target.Name)
	chosen, ok := t.Log.TargetSince()
	if t.shared == nil || !ok || chosen.Before(t.shared.by.At) || t.hasTurn(chosen) {
		return turns, time.Time{}
	}
	free := plan.Span{From: t.Night.Span.From, To: t.Night.Span.To}
	later := slices.IndexFunc(turns, func(turn plan.Span) bool { return turn.To.After(chosen) })
	if later < 0 {
		return []plan.Span{free}, free.To
	}
	free.To = turns[later].To
	return append([]plan.Span{free}, turns[later+1:]...), free.To
}

// hasTurn tells whether it is the present target's turn at an instant, its break included; before the first turn
// it is the first's.
func (t *Tonight) hasTurn(at time.Time) bool {
	for i, s := range t.shared.Stretches {
		if at.Before(t.turnEnds(i)) {
			return s.Target.Name == t.Target.Name
		}
	}
	return false
}

// holdToTurns cuts the present target's course to its turns.
func (t *Tonight) holdToTurns(turns []plan.Span) {
	if turns != nil {
		t.Course = t.Course.InTurns(turns)
	}
	t.Windows = t.kept.windows(t.Course)
	end := t.until
	t.free = time.Time{}
	for _, w := range t.Windows {
		if !w.To.After(end) {
			t.free = w.To
		}
	}
}

// laterSubs are what the plan gives from an instant on to the targets whose turn comes later.
func (t *Tonight) laterSubs(now time.Time) (subs []plan.Sub) {
	for _, s := range t.Shared() {
		if s.Target.Name != t.Target.Name {
			subs = append(subs, subsFrom(s.Runs, later(now, t.free))...)
		}
	}
	return subs
}

// subsFrom are the subs of a plan that begin at an instant or after it.
func subsFrom(runs plan.Schedule, from time.Time) (subs []plan.Sub) {
	for _, run := range runs.Runs {
		for _, sub := range run.Subs {
			if !sub.Exposure.From.Before(from) {
				subs = append(subs, sub)
			}
		}
	}
	return subs
}

// Turn is what a target's turns in a divided night have yet to give.
type Turn struct {
	Subs    int
	Working time.Duration // with their overheads
}

// TurnOf returns what the division has yet to give a target; ok is false if the night is not divided with it, or
// nothing is left of its turns.
func (m Moment) TurnOf(target string) (turn Turn, ok bool) {
	var subs []plan.Sub
	for _, s := range m.Shared() {
		if s.Target.Name == target {
			subs = append(subs, subsFrom(s.Runs, m.Now)...)
		}
	}
	if target == m.Target.Name && len(subs) > 0 {
		subs = append(m.callSubs(), subsFrom(m.Ahead(), m.Now)...)
	}
	for _, sub := range subs {
		turn.Working += sub.Over.Sub(sub.Exposure.From)
	}
	turn.Subs = len(subs)
	return turn, turn.Subs > 0
}

// SubsPlanned counts the subs that the plan still gives of the night, of all its targets: the present run's, those
// of the runs after it, and of the targets whose turn comes later.
func (m Moment) SubsPlanned() int {
	n := len(m.callSubs()) + len(m.laterSubs(m.Now))
	for _, run := range m.Ahead().Runs {
		n += len(run.Subs)
	}
	return n
}

// callSubs are those of the present run that are not over yet.
func (m Moment) callSubs() (subs []plan.Sub) {
	for _, sub := range m.Call.Subs {
		if sub.Exposure.To.After(m.Now) {
			subs = append(subs, sub)
		}
	}
	return subs
}

// holdToDivision takes over what the division planned for the present target's turn, so that nothing is planned anew
// that has not changed; ok is false if the target is not in a turn of its own.
func (t *Tonight) holdToDivision() (ok bool) {
	i := slices.IndexFunc(t.Shared(), func(s share.Stretch) bool { return s.Target.Name == t.Target.Name })
	if i < 0 || !t.until.IsZero() {
		return false
	}
	s := t.shared.Stretches[i]
	t.worth = s.Subs.Worth()
	t.dusk = func() plan.Schedule { return s.Runs }
	for _, sequence := range []plan.Sequence{s.Subs, s.Subs.InOrder(s.Runs.Order())} {
		t.kept.keep(planned{t.Course, s.Begins, sequence, s.Runs})
	}
	return true
}
