package checklist

import (
	"slices"
	"time"
)

// State is what a step has come to.
type State string

// The states. A step that is done, skipped or over is settled: guards let pass what comes after it.
const (
	Open    State = "open"
	NotYet  State = "not yet" // open, and a guard wants another step first
	Done    State = "done"
	Skipped State = "skipped"
	Failed  State = "failed"
	Over    State = "over" // of the loop or reopened, not of what comes after the runs, not done, and tonight's runs have ended
)

// StepState is a step and what it has come to.
type StepState struct {
	Step
	State    State
	At       time.Time // when it was done, skipped, failed or reopened; zero if nothing was ever said of it
	By       string    // the kind of event that said so, or the proof; "" if none
	Text     string    // the reason why it was skipped, or the note on how it failed
	Reopened bool      // it was settled or failed before and must be done again
	Kept     *Kept     // what stood in its sentence when it was settled or failed; nil if nobody kept it
	Unmet    []Guard   // guards that want other steps first, musts and warnings
}

// Settled says whether what comes after the step may go on.
func (s StepState) Settled() bool { return s.State == Done || s.State == Skipped || s.State == Over }

// Waiting says whether the step is still to be done.
func (s StepState) Waiting() bool { return s.State == Open || s.State == NotYet }

// afterRuns is the stage that the runs of the night lead to.
const afterRuns Stage = "stow"

// State returns all steps in order with what they have come to in the night; those of the loop in the
// run that is open or comes next.
func (l List) State(n Night) []StepState {
	all := l.marked(n, n.Loop())
	over := slices.ContainsFunc(all, func(s StepState) bool { return s.EndsRuns && s.Settled() })
	settled := map[string]bool{}
	for i := range all {
		if over && all[i].State == Open && (all[i].Loop || all[i].Reopened && all[i].Stage != afterRuns) {
			all[i].State = Over
		}
		noSubs := n.Subs == nil && slices.Contains(all[i].DoneBy, KindSubsStopped) // none need be stopped
		settled[all[i].ID] = all[i].Settled() || noSubs
	}
	for i := range all {
		all[i].Unmet = unmet(settled, all[i].Guards)
		if all[i].State == Open && slices.ContainsFunc(all[i].Unmet, func(g Guard) bool { return g.Must }) {
			all[i].State = NotYet
		}
	}
	return all
}

// InLoop returns the steps of the loop with what they came to in an earlier run, by its number (Night.Loop).
func (l List) InLoop(n Night, number int) []StepState {
	return slices.DeleteFunc(l.marked(n, number), func(s StepState) bool { return !s.Loop })
}

// marked returns the steps with what was said of them and proven, and nothing of how they depend on each
// other.
func (l List) marked(n Night, loop int) []StepState {
	all := make([]StepState, len(l.steps))
	concerned := map[mark][]int{} // steps by what can be said of them and what proves something of them
	for i, s := range l.steps {
		all[i] = StepState{Step: s, State: Open}
		concerned[mark{step: s.ID}] = []int{i}
		for _, proof := range slices.Concat(s.DoneBy, s.ReopenedBy) {
			concerned[mark{by: proof}] = append(concerned[mark{by: proof}], i)
		}
	}
	for _, m := range n.marks {
		key := mark{step: m.step}
		if m.step == "" {
			key.by = m.by
		}
		for _, i := range concerned[key] {
			if s := &all[i]; !s.Loop || m.loop == loop {
				s.take(m)
			}
		}
	}
	return all
}

// take changes the state by a mark that concerns the step.
func (s *StepState) take(m mark) {
	switch {
	case m.kept != nil:
		s.Kept = m.kept
		if s.State == Failed && m.kept.namesStar() { // not with the next star
			s.State, s.Reopened = Open, true
		}
	case m.step != "":
		s.set(stateSaid(m.by), m)
	case slices.Contains(s.DoneBy, m.by):
		if s.State != Done { // what is done stays as it was done
			s.set(Done, m)
		}
	case s.State != Open:
		s.set(Open, m)
		s.Reopened = true
	}
}

func (s *StepState) set(state State, m mark) {
	s.State, s.At, s.By, s.Text, s.Reopened, s.Kept = state, m.at, m.by, m.text, false, nil
}

func stateSaid(kind string) State {
	switch kind {
	case KindStepSkipped:
		return Skipped
	case KindStepFailed:
		return Failed
	}
	return Done
}

// unmet returns the guards that want one of the steps that are not settled.
func unmet(settled map[string]bool, guards []Guard) []Guard {
	var open []Guard
	for _, g := range guards {
		if slices.ContainsFunc(g.After, func(id string) bool { return !settled[id] }) {
			open = append(open, g)
		}
	}
	return open
}
