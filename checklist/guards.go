package checklist

import (
	"fmt"
	"slices"
	"time"

	"duskhand/sky/words"
)

// Say returns the event that the action makes in the night, as the function Say does, if the checklist
// lets it pass: the steps that it names must exist, what feeds the countdown must be said as what it is,
// and a step must not be done before those that its guards insist on.
//
// What has already happened (a rewind, subs started) is refused only by the function Say: a record that
// left it out would be false. What the guards think of it Warnings tells.
//
// Error: in words for the person, with times in the given zone.
func (l List) Say(n Night, a Action, zone *time.Location) (kind string, body any, err error) {
	if err := l.refusal(n, a, zone); err != nil {
		return "", nil, err
	}
	return Say(n, a, zone)
}

func (l List) refusal(n Night, a Action, zone *time.Location) error {
	switch a := a.(type) {
	case DoStep:
		s, err := l.toSettle(n, a.Step, zone)
		if err != nil {
			return err
		}
		if proof := feeding(s.Step); proof != "" {
			return fmt.Errorf("this step is done by what happened and not ticked: say that it happened (%s), or skip it with a reason",
				proofInWords(proof))
		}
		for _, g := range s.Unmet {
			if g.Must {
				return fmt.Errorf("%s", g.Say)
			}
		}
	case SkipStep:
		_, err := l.toSettle(n, a.Step, zone)
		return err
	case FailStep:
		_, err := l.named(n, a.Step)
		return err
	}
	return nil
}

// toSettle returns the step if it can still be done or skipped.
func (l List) toSettle(n Night, id string, zone *time.Location) (StepState, error) {
	s, err := l.named(n, id)
	if err == nil && s.State == Done {
		err = fmt.Errorf("this step is done already since %s; to take that back undo it", words.Minute(s.At, zone))
	}
	return s, err
}

func (l List) named(n Night, id string) (StepState, error) {
	i := l.index(id)
	if i < 0 {
		return StepState{}, fmt.Errorf("there is no step %q; %s", id, meantStep(id, l))
	}
	return l.State(n)[i], nil
}

// feeding returns the proof that a step is done by, if the countdown goes by all that it is done by.
func feeding(s Step) (first string) {
	for _, proof := range s.DoneBy {
		switch feeds := slices.Contains(feedingTheCountdown(), proof); {
		case !feeds:
			return ""
		case first == "":
			first = proof
		}
	}
	return first
}

// proofInWords returns what must be said for a proof that feeds the countdown.
func proofInWords(proof string) string {
	switch proof {
	case ProofOnAtAngle:
		return "derotator on"
	case ProofRunsOver:
		return "derotator off"
	}
	return idInWords(proof)
}

// Warnings returns what the guards say against the action, one sentence each, which the person should
// read and may pass over; none if it makes no sense anyway. For a step that is skipped it is what relies
// on that step.
func (l List) Warnings(n Night, a Action) []string {
	kind, _, err := l.Say(n, a, time.UTC)
	if err != nil {
		return nil
	}
	all := l.State(n)
	switch a := a.(type) {
	case DoStep:
		return sentences(all[l.index(a.Step)].Unmet)
	case SkipStep:
		return relying(all, a.Step)
	}
	var unmet []Guard
	for _, s := range all {
		if slices.Contains(s.DoneBy, kind) && s.State != Done && (n.used || !s.Loop || kind == KindSubsStarted) {
			unmet = append(unmet, beyond(s.Unmet, Implied(a))...)
		}
	}
	return sentences(unmet)
}

// Implied names the steps that an action says to be done besides, whoever says it and wherever: who says that focus is
// done has focused both telescopes.
func Implied(a Action) []string {
	if _, focused := a.(FocusNow); focused {
		return []string{"focus-main", "focus-guide"}
	}
	return nil
}

// beyond returns the guards that want more than the steps named.
func beyond(guards []Guard, steps []string) (more []Guard) {
	for _, g := range guards {
		if len(g.After) == 0 || slices.ContainsFunc(g.After, func(id string) bool { return !slices.Contains(steps, id) }) {
			more = append(more, g)
		}
	}
	return more
}

// relying returns what the guards of waiting steps say that want the step to be done.
func relying(all []StepState, id string) []string {
	var guards []Guard
	for _, s := range all {
		for _, g := range s.Guards {
			if s.Waiting() && slices.Contains(g.After, id) {
				guards = append(guards, g)
			}
		}
	}
	return sentences(guards)
}

// sentences returns what the guards say, each once.
func sentences(guards []Guard) []string {
	var all []string
	for _, g := range guards {
		if !slices.Contains(all, g.Say) {
			all = append(all, g.Say)
		}
	}
	return all
}
