package kit

import (
	"bytes"
	"cmp"
	"slices"
)

// Document is a TOML document of another file that people edit beside the kit: its values, and where
// each of them stands. Paths are those of Fault.Key.
type Document struct {
	File   string
	Values map[string]any
	lines  lines
}

// ReadDocument returns what data, one TOML document, holds, whatever its keys are. file is named in
// faults and not opened.
//
// Error: Faults, if data is no TOML (the first only) or has keys that are written twice (all of them).
func ReadDocument(data []byte, file string) (Document, error) {
	r := &reader{}
	if len(data) > LargestFile {
		return Document{}, Faults{{File: file, Problem: tooLarge}}
	}
	if r.parse(bytes.TrimPrefix(data, []byte("\ufeff")), true) {
		return Document{File: file, Values: r.document, lines: r.lines}, nil
	}
	for i := range r.faults {
		r.faults[i].File = file
	}
	return Document{}, r.faults.Sorted()
}

// Fault returns a fault of the key or table at path, with its line or that of the nearest table around
// it.
func (d Document) Fault(path, problem string) Fault {
	return Fault{File: d.File, Line: d.lines.of(path), Key: path, Problem: problem}
}

// Sorted returns the faults by line.
func (fs Faults) Sorted() Faults {
	sorted := slices.Clone(fs)
	sorted.sort()
	return sorted
}

// Item returns the path of a list's item, counted from 1, and of the key inside it if one is given.
func Item(list string, n int, key string) string {
	if key == "" {
		return item(list, n)
	}
	return joined(item(list, n), key)
}

// Nearest returns the known word most like the one given, or "" when none is like enough to offer.
func Nearest(word string, known []string) string {
	type candidate struct {
		word     string
		distance float64
	}
	var all []candidate
	for _, k := range known {
		if d, alike := likeness(word, k); alike {
			all = append(all, candidate{k, d})
		}
	}
	if len(all) == 0 {
		return ""
	}
	return slices.MinFunc(all, func(a, b candidate) int {
		return cmp.Or(cmp.Compare(a.distance, b.distance), cmp.Compare(alikeFrom(word, b.word), alikeFrom(word, a.word)))
	}).word
}

// alikeFrom returns how many bytes two words share from their start on: of two that are equally near the
// one that begins alike is meant.
func alikeFrom(a, b string) int {
	n := 0
	for n < min(len(a), len(b)) && a[n] == b[n] {
		n++
	}
	return n
}
