package kit

import (
	"bytes"
	"fmt"
	"strings"
)

// LargestFile is how long a kit file may be, in bytes: some hundred times what a large one has.
const LargestFile = 1 << 20

var tooLarge = fmt.Sprintf("is longer than %d bytes, no kit of anybody's; give the path of a kit file", LargestFile)

// Read returns the kit that data, one TOML document, describes.
//
// Nothing is guessed: a key that is missing takes its documented default or is a fault, an unknown key
// is a fault. Time zones come from the time package: a program for computers without their own table
// imports time/tzdata.
//
// Error: Faults, every fault of the document by line; of a document that is no TOML the first only.
// file is named in them and not opened.
//
// The names in [keys] are the caller's: checks are handed that section and return what is wrong with it.
func Read(data []byte, file string, checks ...func(KeyTable) []Fault) (Kit, error) {
	return readAs(data, file, true, checks...)
}

// readAs is Read, or Read without lines for a document that no person has seen.
func readAs(data []byte, file string, numbered bool, checks ...func(KeyTable) []Fault) (Kit, error) {
	r := newReader()
	if len(data) > LargestFile {
		return Kit{}, Faults{{File: file, Problem: tooLarge}}
	}
	if r.parse(bytes.TrimPrefix(data, []byte("\ufeff")), numbered) {
		r.unknowns("", "", r.document)
		for _, t := range r.tables {
			r.table(t)
		}
		r.check()
		r.keyTable(checks)
	}
	if len(r.faults) > 0 {
		for i := range r.faults {
			r.faults[i].File = file
		}
		r.faults.sort()
		return Kit{}, r.faults
	}
	return r.draft.kit, nil
}

// reader turns one document into a kit, gathering faults. Its maps go by path, items counted from 1.
type reader struct {
	tables   []table
	columns  map[string][]field // the fields of each table, by its name
	known    map[string]bool    // every key of a field, false, and table, true, without indices
	document map[string]any
	lines    lines
	raw      map[string]any  // each field's value, given or default
	given    map[string]bool // the field is in the file
	faulty   map[string]bool // the field has no value that a check could use
	draft    draft
	faults   Faults
	hints    int // unknown keys so far
}

func newReader() *reader {
	r := &reader{tables: tables(), columns: map[string][]field{}, known: map[string]bool{},
		raw: map[string]any{}, given: map[string]bool{}, faulty: map[string]bool{}}
	for _, t := range r.tables {
		r.known[t.name] = true
	}
	for _, f := range fields() {
		in, _ := f.split()
		r.columns[in] = append(r.columns[in], f)
		r.known[f.key] = false
	}
	return r
}

func (r *reader) fault(path, problem string) {
	r.faulty[path] = true
	r.faults = append(r.faults, Fault{Line: r.lines.of(path), Key: path, Problem: problem})
}

// parse fills document and lines. It returns false when there is nothing to go on with.
func (r *reader) parse(data []byte, numbered bool) bool {
	found, twice, unreadable := survey(data)
	if unreadable != nil {
		r.faults = Faults{unreadable.fault(data)}
		return false
	}
	if len(twice) > 0 {
		r.faults = twice
		return false
	}
	document, fault := decode(data)
	if fault != nil {
		r.faults = Faults{*fault}
		return false
	}
	r.document = document
	if numbered {
		r.lines = found
	}
	return true
}

// unknowns faults what the table of fields does not have. name is path without indices.
func (r *reader) unknowns(path, name string, inside map[string]any) {
	for key, raw := range inside {
		path, name := joined(path, key), joined(name, key)
		switch isTable, known := r.known[name]; {
		case !known:
			r.fault(path, r.unknown(name))
		case isTable && name != keysTable:
			for i, each := range asItems(raw) {
				if isList(raw) {
					r.unknowns(item(path, i+1), name, each)
				} else {
					r.unknowns(path, name, each)
				}
			}
		}
	}
}

// mostHints is for how many unknown keys the nearest known one is looked for: a file with more is no kit with slips
// of the pen, and a look costs as much as reading a hundred keys.
const mostHints = 50

func (r *reader) unknown(name string) string {
	if r.hints++; r.hints > mostHints {
		return "is unknown"
	}
	return unknown(name)
}

func isList(raw any) bool {
	_, list := raw.([]any)
	return list
}

// asItems returns the tables that raw consists of, nil for an item that is none.
func asItems(raw any) []map[string]any {
	switch x := raw.(type) {
	case map[string]any:
		return []map[string]any{x}
	case []any:
		items := make([]map[string]any, len(x))
		for i := range x {
			items[i], _ = x[i].(map[string]any)
		}
		return items
	}
	return nil
}

// at returns what the document has under a table's name; tables nest, as subs.filter does.
func (r *reader) at(name string) (raw any, found bool) {
	raw = r.document
	for _, part := range strings.Split(name, ".") {
		inside, ok := raw.(map[string]any)
		if !ok {
			return nil, false
		}
		if raw, found = inside[part]; !found {
			return nil, false
		}
	}
	return raw, true
}

// table reads all fields of one table, or of all items of a list.
func (r *reader) table(t table) {
	if around, name, nested := r.listAround(t); nested {
		r.nested(t, around, name)
		return
	}
	raw, found := r.at(t.name)
	list, isTable := isList(raw), raw != nil && asItems(raw) != nil
	switch {
	case found && (!isTable || list != t.list):
		r.fault(t.name, fmt.Sprintf("is %s; write it as %s with its keys below", shown(raw), t.header()))
	case !t.list && !found && len(r.required(t)) > 0:
		r.fault(t.name, fmt.Sprintf("is missing; add %s with %s", t.header(), strings.Join(r.required(t), ", ")))
	case !t.list:
		inside, _ := raw.(map[string]any)
		r.fields(t, t.name, inside)
	case len(asItems(raw)) < t.atLeast:
		r.fault(t.name, fmt.Sprintf("is missing; add %s with %s", t.header(), strings.Join(r.required(t), ", ")))
	default:
		r.items(t, t.name, asItems(raw))
	}
}

// listAround returns the list whose items have t as a list of their own, and the name of t in them.
func (r *reader) listAround(t table) (around table, name string, nested bool) {
	for _, outer := range r.tables {
		if inner, inside := strings.CutPrefix(t.name, outer.name+"."); inside && outer.list {
			return outer, inner, true
		}
	}
	return table{}, "", false
}

// nested reads a list that every item of another list may have. The outer list comes first in the table of
// tables, so that its items are there.
func (r *reader) nested(t, around table, name string) {
	raw, _ := r.at(around.name)
	if !isList(raw) {
		return // its own fault
	}
	for i, outer := range asItems(raw) {
		inside, found := outer[name]
		path := joined(item(around.name, i+1), name)
		switch {
		case !found:
		case !isList(inside):
			r.fault(path, fmt.Sprintf("is %s; write it as %s with its keys below", shown(inside), t.header()))
		default:
			r.draft.outer = i
			r.items(t, path, asItems(inside))
		}
	}
}

// items reads the items of a list that stands at a path.
func (r *reader) items(t table, list string, items []map[string]any) {
	for i, inside := range items {
		t.grow(&r.draft)
		path := item(list, i+1)
		if inside == nil {
			r.fault(path, fmt.Sprintf("is no table; write every item as %s with its keys below", t.header()))
			continue
		}
		r.fields(t, path, inside)
	}
}

// required returns the names of the fields that the table can't do without.
func (r *reader) required(t table) []string {
	var names []string
	for _, f := range r.columns[t.name] {
		if _, name := f.split(); f.need == required {
			names = append(names, name)
		}
	}
	return names
}

func (r *reader) fields(t table, path string, inside map[string]any) {
	for _, f := range r.columns[t.name] {
		_, name := f.split()
		raw, given := inside[name]
		r.field(f, joined(path, name), raw, given)
	}
}

func (r *reader) field(f field, path string, raw any, given bool) {
	switch {
	case given:
		r.given[path] = true
	case f.need == required:
		r.fault(path, fmt.Sprintf("is missing; give %s. %s", f.wanted(), f.help))
		return
	case f.need == optional:
		return
	default:
		raw = f.fallback
	}
	r.raw[path] = raw
	v, problem := f.read(raw)
	if problem != "" {
		r.fault(path, problem)
		return
	}
	f.set(&r.draft, v)
}
