package checklist

import (
	"fmt"
	"slices"
	"strings"

	"duskhand/plan/kit"
)

// ReadOwn returns the program's checklist changed by the operator's own file, one TOML document: added
// steps, then moves, then drops, each in the order of the file. An added or moved step stands before or
// after another and joins its stage.
//
//	drop = ["dew-heaters"]           # steps that are not needed
//	drop_guarded = ["cables-slack"]  # steps that guards of others rely on; those guards fall away
//	[[add]]                          # the keys of a step, but before or after for its stage
//	[[move]]                         # id, and before or after
//
// A step that a guard relies on protects the night or the operator: to drop it the file must say so by
// another name than for the rest. The step that ends the runs cannot be dropped.
//
// Error: kit.Faults, every fault of the document by line. file is named in them and not opened.
func ReadOwn(data []byte, file string) (List, error) {
	doc, err := kit.ReadDocument(data, file)
	if err != nil {
		return List{}, err
	}
	e := editor{stepReader: stepReader{doc: doc}, list: Steps(), touched: map[string]string{}}
	e.unknown("", doc.Values, []string{"drop", "drop_guarded", "add", "move"})
	e.add()
	e.move()
	e.check(e.list, e.touched)
	e.drop("drop", false)
	e.drop("drop_guarded", true)
	if len(e.faults) > 0 {
		return List{}, e.faults.Sorted()
	}
	return e.list, nil
}

// editor changes a list as the operator's file says. Touched tells where the file names a step.
type editor struct {
	stepReader
	list    List
	touched map[string]string
}

func (e *editor) add() {
	for _, d := range e.steps("add", append(stepColumns(), placeColumns()...)) {
		if d.ID == "" { // is a fault already
			continue
		}
		if e.list.index(d.ID) >= 0 {
			e.fault(d.path+".id", fmt.Sprintf("= %q is the id of another step; give it one of its own", d.ID))
			continue
		}
		if !e.place(d) { // at the end nothing is out of order, and the rest of it can be checked
			e.list.steps, e.touched[d.ID] = append(e.list.steps, d.Step), d.path
		}
	}
}

func (e *editor) move() {
	columns := append(stepColumns()[:1:1], placeColumns()...)
	for i, inside := range e.tables(e.doc.Values["move"], "move") {
		d := draft{path: kit.Item("move", i+1, "")}
		e.row(&d, d.path, inside, columns)
		if d.ID == "" {
			continue
		}
		step, ok := e.named(d.ID, d.path+".id")
		if !ok {
			continue
		}
		if d.ID == d.before || d.ID == d.after {
			e.fault(d.path, "puts a step beside itself; name another one")
			continue
		}
		d.Step = step
		e.place(d)
	}
}

func (e *editor) named(id, path string) (Step, bool) {
	step, ok := e.list.Step(id)
	if !ok {
		e.fault(path, fmt.Sprintf("= %q is no step; %s", id, meantStep(id, e.list)))
	}
	return step, ok
}

// place puts the draft's step where it says, taking it from where it stood. It returns false if that is
// nowhere.
func (e *editor) place(d draft) bool {
	if (d.before == "") == (d.after == "") {
		e.fault(d.path, "needs either before or after, with the id of the step that it shall stand beside")
		return false
	}
	key, anchor, offset := "before", d.before, 0
	if d.after != "" {
		key, anchor, offset = "after", d.after, 1
	}
	beside, ok := e.named(anchor, d.path+"."+key)
	if !ok {
		return false
	}
	d.Stage = beside.Stage
	rest := slices.DeleteFunc(slices.Clone(e.list.steps), func(s Step) bool { return s.ID == d.ID })
	e.list.steps = rest
	e.list.steps = slices.Insert(rest, e.list.index(anchor)+offset, d.Step)
	e.touched[d.ID] = d.path
	return true
}

func (e *editor) drop(key string, guarded bool) {
	raw, given := e.doc.Values[key]
	if !given {
		return
	}
	ids, problem := texts(raw, "a list of ids of steps")
	if problem != "" {
		e.fault(key, problem)
		return
	}
	for i, id := range ids {
		path := kit.Item(key, i+1, "")
		step, ok := e.named(id, path)
		if !ok {
			continue
		}
		relying := e.list.dependents(id)
		switch {
		case step.EndsRuns:
			e.fault(path, fmt.Sprintf("= %q is the step that ends the night's runs; it can't be dropped", id))
			continue
		case len(relying) > 0 && !guarded:
			e.fault(path, fmt.Sprintf("= %q is relied on by the guards of %s; to drop it all the same put it into drop_guarded",
				id, strings.Join(relying, ", ")))
			continue
		}
		e.list = e.list.without(id)
	}
}

// without returns the list without a step, in its guards too.
func (l List) without(id string) List {
	var kept []Step
	for _, s := range l.steps {
		if s.ID == id {
			continue
		}
		var guards []Guard
		for _, g := range s.Guards {
			g.After = slices.DeleteFunc(slices.Clone(g.After), func(other string) bool { return other == id })
			if len(g.After) > 0 {
				guards = append(guards, g)
			}
		}
		s.Guards = guards
		kept = append(kept, s)
	}
	return List{steps: kept}
}
