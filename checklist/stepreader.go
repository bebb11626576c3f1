package checklist

import (
	"fmt"
	"slices"
	"strings"

	"duskhand/plan/kit"
)

// stepReader reads steps from a document, gathering faults.
type stepReader struct {
	doc    kit.Document
	faults kit.Faults
}

func (r *stepReader) fault(path, problem string) {
	r.faults = append(r.faults, r.doc.Fault(path, problem))
}

// tables returns the items of a list of tables at path; what is none is a fault.
func (r *stepReader) tables(raw any, path string) []map[string]any {
	if raw == nil {
		return nil
	}
	items, ok := raw.([]any)
	var all []map[string]any
	for _, item := range items {
		inside, isTable := item.(map[string]any)
		ok = ok && isTable
		all = append(all, inside)
	}
	if !ok {
		r.fault(path, fmt.Sprintf("is no list of tables; write each as [[%s]] with its keys below", path))
		return nil
	}
	return all
}

// row reads one table by its columns into d; also names keys that somebody else reads.
func (r *stepReader) row(d *draft, path string, inside map[string]any, columns []column, also ...string) {
	var known []string
	for _, c := range columns {
		known = append(known, c.name)
		raw, given := inside[c.name]
		if !given {
			if c.required {
				r.fault(path, fmt.Sprintf("has no %s; add the line %s = …", c.name, c.name))
			}
			continue
		}
		if problem := c.set(d, raw); problem != "" {
			r.fault(path+"."+c.name, problem)
		}
	}
	r.unknown(path+".", inside, append(known, also...))
}

// unknown faults keys that are not known.
func (r *stepReader) unknown(prefix string, inside map[string]any, known []string) {
	for key := range inside {
		if !slices.Contains(known, key) {
			r.fault(prefix+key, "is unknown; "+meant(key, known))
		}
	}
}

// steps reads the list of steps called name, each by its columns and with its guards.
func (r *stepReader) steps(name string, columns []column) []draft {
	var all []draft
	for i, inside := range r.tables(r.doc.Values[name], name) {
		d := draft{path: kit.Item(name, i+1, "")}
		r.row(&d, d.path, inside, columns, "guard")
		for j, guard := range r.tables(inside["guard"], d.path+".guard") {
			d.Guards = append(d.Guards, Guard{})
			r.row(&d, kit.Item(d.path+".guard", j+1, ""), guard, guardColumns())
		}
		r.sentence(d)
		all = append(all, d)
	}
	return all
}

// sentence checks that what to do can be said with and without the night's facts.
func (r *stepReader) sentence(d draft) {
	names := placeholders(d.Do)
	for _, name := range names {
		if known := placeholderNames(); !slices.Contains(known, name) {
			r.fault(d.path+".do", fmt.Sprintf("has {%s}, which is no fact of the night; %s", name, meant(name, known)))
		}
	}
	if strings.Count(d.Do, "{") != len(names) || strings.Count(d.Do, "}") != len(names) {
		r.fault(d.path+".do", "has a brace without its partner; write facts of the night as {target}")
	}
	if strings.ContainsAny(d.Plain, "{}") {
		r.fault(d.path+".plain", "has a fact in braces; it is the sentence for when facts are not known")
	}
	if (len(names) > 0) != (d.Plain != "") {
		r.fault(d.path, "needs plain, the same sentence without facts, if do has facts in braces, and only then")
	}
}

func placeholderNames() []string {
	var names []string
	for _, p := range Placeholders() {
		names = append(names, p.Name)
	}
	return names
}
