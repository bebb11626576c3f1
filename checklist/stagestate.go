package checklist

import "slices"

// StageState counts the steps of a stage by what they have come to. Open counts those that are not yet
// possible too; steps that are over count nowhere.
type StageState struct {
	Stage                       Stage
	Open, Done, Skipped, Failed int
}

// StageStates returns all stages in order with the counts of their steps.
func (l List) StageStates(n Night) []StageState {
	var all []StageState
	for _, stage := range Stages() {
		all = append(all, StageState{Stage: stage})
	}
	for _, s := range l.State(n) {
		count := &all[slices.Index(Stages(), s.Stage)]
		switch s.State {
		case Open, NotYet:
			count.Open++
		case Done:
			count.Done++
		case Skipped:
			count.Skipped++
		case Failed:
			count.Failed++
		}
	}
	return all
}

// Next returns the step to do next; ok is false if all are settled or failed: the first that is asked for, or what
// must come before it.
func (l List) Next(n Night) (next StepState, ok bool) {
	asked := l.Asked(n)
	if len(asked) == 0 {
		return StepState{}, false
	}
	if asked[0].State == NotYet {
		return firstWanted(l.State(n), asked[0]), true
	}
	return asked[0], true
}

// Asked returns the steps that wait to be done and are still asked for, in order.
//
// Once subs have been taken, only the loop's steps and those that have been reopened are asked for, and once the
// runs are over only what follows their end: what was left open before does not nag. A failed step comes up again
// only when a step that must follow it is next.
func (l List) Asked(n Night) []StepState {
	all := l.State(n)
	isAsked := stillAsked(all, n.begun)
	var asked []StepState
	for i, s := range all {
		if isAsked(i) && s.Waiting() {
			asked = append(asked, s)
		}
	}
	return asked
}

// stillAsked returns which steps are still asked for.
func stillAsked(all []StepState, begun bool) func(i int) bool {
	ends := slices.IndexFunc(all, func(s StepState) bool { return s.EndsRuns })
	over := ends >= 0 && all[ends].Settled()
	return func(i int) bool {
		switch {
		case ends >= 0 && i >= ends:
			return true
		case over:
			return false
		}
		return !begun || all[i].Loop || all[i].Reopened
	}
}

// firstWanted returns the step that must come before s and is not settled: the earliest, and before that
// what it waits for itself.
func firstWanted(all []StepState, s StepState) StepState {
	for _, g := range s.Unmet {
		if !g.Must {
			continue
		}
		for _, earlier := range all {
			if slices.Contains(g.After, earlier.ID) && !earlier.Settled() {
				return firstWanted(all, earlier)
			}
		}
	}
	return s
}

// Stage returns the stage that the night is in: that of the next step, or the last one when none is left.
func (l List) Stage(n Night) Stage {
	if next, ok := l.Next(n); ok {
		return next.Stage
	}
	return Stages()[len(Stages())-1]
}

// Left returns what the night still owes: steps that failed, and those whose leaving out leaves a debt.
// Of the loop's steps only those of the present run count.
func (l List) Left(n Night) []StepState {
	return slices.DeleteFunc(l.State(n), func(s StepState) bool {
		return s.State != Failed && !(s.State == Skipped && s.Owed)
	})
}
