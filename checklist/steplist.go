package checklist

import (
	_ "embed"
	"fmt"
	"slices"

	"duskhand/plan/kit"
)

//go:embed steps.toml
var stepsTOML string

// StepsTOML returns the file of the program's own steps, with comments that explain its keys.
func StepsTOML() []byte { return []byte(stepsTOML) }

// List is a checklist: steps in their order, valid. The zero List has none.
type List struct{ steps []Step }

// Is tells that it is the very list that another is.
func (l List) Is(other List) bool {
	return len(l.steps) == len(other.steps) && (len(l.steps) == 0 || &l.steps[0] == &other.steps[0])
}

// Steps returns the program's own checklist.
func Steps() List {
	l, err := readSteps(StepsTOML(), "steps.toml")
	if err != nil { // the file is compiled in and tested
		panic(err)
	}
	return l
}

func readSteps(data []byte, file string) (List, error) {
	doc, err := kit.ReadDocument(data, file)
	if err != nil {
		return List{}, err
	}
	r := stepReader{doc: doc}
	r.unknown("", doc.Values, []string{"step"})
	drafts := r.steps("step", ownColumns())
	l, touched := List{}, map[string]string{}
	for i, d := range drafts {
		l.steps, touched[d.ID] = append(l.steps, d.Step), d.path
		if i > 0 && slices.Index(Stages(), d.Stage) < slices.Index(Stages(), drafts[i-1].Stage) {
			r.fault(d.path, fmt.Sprintf("is of the stage %q, after one of %q; put it among its own stage", d.Stage, drafts[i-1].Stage))
		}
	}
	r.check(l, touched)
	if len(r.faults) > 0 {
		return List{}, r.faults.Sorted()
	}
	return l, nil
}

// All returns the steps in their order.
func (l List) All() []Step { return slices.Clone(l.steps) }

// Step returns the step with the id; ok is false if there is none.
func (l List) Step(id string) (s Step, ok bool) {
	i := l.index(id)
	if i < 0 {
		return Step{}, false
	}
	return l.steps[i], true
}

func (l List) index(id string) int {
	return slices.IndexFunc(l.steps, func(s Step) bool { return s.ID == id })
}

func (l List) ids() []string {
	var ids []string
	for _, s := range l.steps {
		ids = append(ids, s.ID)
	}
	return ids
}

// dependents returns the ids of the steps that have the step in a guard.
func (l List) dependents(id string) []string {
	var ids []string
	for _, s := range l.steps {
		if slices.ContainsFunc(s.Guards, func(g Guard) bool { return slices.Contains(g.After, id) }) {
			ids = append(ids, s.ID)
		}
	}
	return ids
}

// check faults what is wrong between steps. Touched tells where the file names a step, by its id.
func (r *stepReader) check(l List, touched map[string]string) {
	seen, ends := map[string]bool{}, 0
	for _, s := range l.steps {
		if seen[s.ID] && s.ID != "" {
			r.fault(touched[s.ID], fmt.Sprintf("has the id %q, which another step has already; give it one of its own", s.ID))
		}
		seen[s.ID] = true
		if s.EndsRuns {
			ends++
		}
		for i, g := range s.Guards {
			r.checkGuard(l, s, i, g, touched)
		}
	}
	if ends > 1 {
		r.fault("", "has two steps with ends_runs; one step ends the runs")
	}
}

func (r *stepReader) checkGuard(l List, s Step, i int, g Guard, touched map[string]string) {
	for _, id := range g.After {
		switch at := l.index(id); {
		case at < 0:
			r.fault(kit.Item(touched[s.ID]+".guard", i+1, "after"), fmt.Sprintf("names the step %q, which is unknown; %s", id, meantStep(id, l)))
		case at >= l.index(s.ID):
			path := touched[s.ID]
			if path == "" {
				path = touched[id]
			}
			r.fault(path, fmt.Sprintf("puts %q before %q, which its guard wants first; put it after that", s.ID, id))
		}
	}
}

// meantStep is meant for ids of steps, which are too many to name all.
func meantStep(id string, l List) string {
	if near := kit.Nearest(id, l.ids()); near != "" {
		return fmt.Sprintf("did you mean %q?", near)
	}
	return "give an id of the built-in list or of an [[add]]"
}
