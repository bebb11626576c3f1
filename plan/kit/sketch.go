package kit

import (
	"fmt"
	"slices"
	"strings"
)

// Sketch is a kit while a person is still answering: Kit as far as the answers give it, defaults where
// they are silent, and Faults, by the keys of the questions, for each answer that won't do by itself or
// beside another. What is still missing is no fault.
type Sketch struct {
	Kit    Kit
	Faults Faults
	sound  map[string]bool
}

// NewSketch returns what answers, by key path and as a person typed them, come to. Empty ones count as not
// given.
func NewSketch(answers map[string]string) Sketch {
	listed := answers[FiltersKey] != ""
	answers, more, unread := apart(answers)
	r := newReader()
	r.document = r.documentOf(answers, more)
	r.unknowns("", "", r.document)
	for _, t := range r.tables {
		r.table(t)
	}
	r.check()
	s := Sketch{Kit: r.draft.kit, sound: map[string]bool{}}
	for path := range r.raw {
		s.sound[plain(path)] = r.given[path] && r.sound(path)
	}
	s.Faults = unread
	for _, fault := range r.faults {
		if listed {
			fault = ofTheList(fault)
		}
		_, read := r.raw[fault.Key]
		if key := plain(fault.Key); read || answers[key] != "" || key == FiltersKey {
			s.Faults = append(s.Faults, Fault{Key: key, Problem: plain(fault.Problem)})
		}
	}
	s.Faults.sort()
	return s
}

// Has tells whether there is an answer to each of the keys and none of them is faulty.
func (s Sketch) Has(keys ...string) bool {
	return !slices.ContainsFunc(keys, func(key string) bool { return !s.sound[key] })
}

// Fault returns what is wrong with the answer to a key.
func (s Sketch) Fault(key string) (fault Fault, found bool) {
	for _, fault := range s.Faults {
		if fault.Key == key {
			return fault, true
		}
	}
	return Fault{}, false
}

// documentOf returns the document that a file with these answers has. The answers to a list's keys make its
// first item.
//
// more are the filters after the first, by the names of their keys.
func (r *reader) documentOf(answers map[string]string, more []map[string]string) map[string]any {
	document := map[string]any{}
	for _, t := range r.tables { // outer tables come before those inside them
		for _, f := range r.columns[t.name] {
			if _, name := f.split(); answers[f.key] != "" {
				inside(document, t)[name] = f.typed(answers[f.key])
			}
		}
	}
	for _, filter := range more {
		made := map[string]any{}
		for name, answer := range filter {
			f, _ := fieldOf("subs.filter." + name)
			made[name] = f.typed(answer)
		}
		subs := document["subs"].(map[string]any) // the first has made it
		subs["filter"] = append(subs["filter"].([]any), made)
	}
	for key, answer := range answers {
		if _, known := r.known[key]; !known && answer != "" {
			document[key] = answer // to be faulted as unknown
		}
	}
	return document
}

// inside returns the table of the document, or the first item of the list, made if need be.
func inside(document map[string]any, t table) map[string]any {
	parts := strings.Split(t.name, ".")
	for i, part := range parts {
		last := i == len(parts)-1
		switch next := document[part].(type) {
		case map[string]any:
			document = next
		case []any:
			document = next[0].(map[string]any)
		default:
			made := map[string]any{}
			if document[part] = made; last && t.list {
				document[part] = []any{made}
			}
			document = made
		}
	}
	return document
}

// ofTheList makes a fault of one filter's key one of the list that it stands in.
func ofTheList(fault Fault) Fault {
	rest, found := strings.CutPrefix(fault.Key, "subs.filter[")
	if !found {
		return fault
	}
	number, name, _ := strings.Cut(rest, "].")
	return Fault{Key: FiltersKey, Problem: fmt.Sprintf("filter %s: %s %s", number, name, fault.Problem)}
}

// plain takes the number of a list's first item out of a path or sentence: questions don't count items.
func plain(text string) string { return strings.ReplaceAll(text, "[1]", "") }
