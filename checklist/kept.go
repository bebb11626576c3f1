package checklist

import (
	"encoding/json"
	"fmt"
	"slices"
	"time"

	"duskhand/checklist/journal"
)

// Kept is what stood in the sentence of a step when an event of the night settled it, or said that it had
// failed: the step's id, which names the sentence, and the values of its facts. With it a step that is done
// reads as it did then, whatever the facts are by now.
type Kept struct {
	Step string `json:"step"`
	Loop int    `json:"loop,omitempty"` // of a step of the loop: the run that it belongs to, as Night.Loop
	// Values are the facts by the names of Placeholders, as ready text; those that were not known are left out.
	Values map[string]string `json:"values,omitempty"`
}

// keptBody is the part of any event's body that Keep adds.
type keptBody struct {
	Kept []Kept `json:"kept"`
}

// keeping is a body with what is kept beside it, in one JSON object.
type keeping struct {
	body json.RawMessage
	kept []Kept
}

// MarshalJSON puts the key "kept" behind those of the body.
func (k keeping) MarshalJSON() ([]byte, error) {
	kept, err := json.Marshal(keptBody{k.kept})
	if err != nil || string(k.body) == "{}" {
		return kept, err
	}
	return slices.Concat(k.body[:len(k.body)-1], []byte(","), kept[1:]), nil
}

// Keep returns the body of an event that is to be written, with what stands in the sentences of the steps
// that it settles or says have failed. Facts are the night's, as Step.Sentence takes them. What settles no
// step that speaks of facts is returned as it is.
//
// Error: the body can't be written as JSON.
func (l List) Keep(n Night, kind string, body any, at time.Time, facts map[string]string) (any, error) {
	if kind == KindUndone {
		return body, nil
	}
	raw, err := json.Marshal(body)
	if err != nil {
		return nil, fmt.Errorf("writing the event %s: %w", kind, err)
	}
	next := n.Next(journal.Event{Night: n.Key, Kind: kind, At: at, Body: raw})
	kept := l.settledBetween(n, next, n.Loop(), facts)
	if next.Loop() != n.Loop() {
		for _, k := range l.settledBetween(n, next, next.Loop(), facts) {
			if k.Loop != 0 {
				kept = append(kept, k)
			}
		}
	}
	if len(kept) == 0 {
		return body, nil
	}
	return keeping{raw, kept}, nil
}

// settledBetween returns what stands in the steps that have come to something new from one night to the next,
// those of the loop in the run of that number.
func (l List) settledBetween(before, after Night, loop int, facts map[string]string) []Kept {
	var kept []Kept
	was := l.marked(before, loop)
	for i, s := range l.marked(after, loop) {
		names := togetherWith(placeholders(s.Do))
		if len(names) == 0 || s.State == Open || s.State == was[i].State && s.At.Equal(was[i].At) {
			continue
		}
		k := Kept{Step: s.ID, Values: map[string]string{}}
		if s.Loop {
			k.Loop = loop
		}
		for _, name := range names {
			if facts[name] != "" {
				k.Values[name] = facts[name]
			}
		}
		kept = append(kept, k)
	}
	return kept
}

// togetherWith adds the facts that are settled by settling others: the second star of the alignment is
// chosen for the first.
func togetherWith(names []string) []string {
	settles := map[string][]string{factFirstStar: {factSecondStar}, factPair: {factFirstStar, factSecondStar}}
	for name, others := range settles {
		for _, other := range others {
			if slices.Contains(names, name) && !slices.Contains(names, other) {
				names = append(names, other)
			}
		}
	}
	return names
}

// keep notes what an event has kept, after what it says and proves.
func (n *Night) keep(e journal.Event) {
	body, ok := decode[keptBody](e)
	if !ok {
		return
	}
	for i := range body.Kept {
		k := &body.Kept[i]
		n.marks = append(n.marks, mark{at: e.At, by: e.Kind, step: k.Step, loop: k.Loop, kept: k})
	}
}

// Sentence returns what to do; of a step that is settled what was to be done when it was, if that was kept.
func (s StepState) Sentence(facts map[string]string) string {
	if s.Kept != nil && s.Settled() {
		return s.Step.Sentence(s.Kept.Values)
	}
	return s.Step.Sentence(facts)
}
