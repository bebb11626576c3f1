package kit

import "math"

// Edge is one end of a field's range, for tests of the whole table: Inside is the last value that must be
// taken and Outside the first that must be refused, as TOML would give them.
type Edge struct {
	Key             string
	Inside, Outside any
}

// Edges returns both ends of every field that has a range.
func Edges() []Edge {
	var all []Edge
	for _, f := range fields() {
		switch f.kind {
		case number, latitude, longitude, rightAscension:
			all = append(all, f.edge(f.min, f.openMin, math.Inf(-1)), f.edge(f.max, f.openMax, math.Inf(1)))
		case whole, sense:
			all = append(all, Edge{f.key, int64(f.min), int64(f.min) - 1}, Edge{f.key, int64(f.max), int64(f.max) + 1})
		case text:
			all = append(all, Edge{f.key, runes(f.min), runes(f.min - 1)}, Edge{f.key, runes(f.max), runes(f.max + 1)})
		case textList:
			all = append(all, Edge{f.key, texts(f.min), texts(f.min - 1)}, Edge{f.key, texts(f.max), texts(f.max + 1)})
		}
	}
	return all
}

func (f field) edge(end float64, open bool, outward float64) Edge {
	if open {
		return Edge{f.key, math.Nextafter(end, -outward), end}
	}
	return Edge{f.key, end, math.Nextafter(end, outward)}
}

func runes(n float64) string {
	s := ""
	for range int(n) {
		s += "é" // one character of two bytes
	}
	return s
}

func texts(n float64) []any {
	items := []any{}
	for range int(n) {
		items = append(items, "a")
	}
	return items
}

// FieldNames returns the key of every field.
func FieldNames() []string {
	var all []string
	for _, f := range fields() {
		all = append(all, f.key)
	}
	return all
}

// TableFaults returns what contradicts itself in the table of fields: a default or example that the field
// itself refuses, or a row that says too little.
func TableFaults() []string {
	var all []string
	for _, f := range fields() {
		if _, problem := f.read(f.typed(f.example)); problem != "" {
			all = append(all, f.key+": its example "+problem)
		}
		if _, problem := f.read(f.fallback); f.need == defaulted && problem != "" {
			all = append(all, f.key+": its default "+problem)
		}
		if f.need != defaulted && f.fallback != nil {
			all = append(all, f.key+": a default that is never used")
		}
		if f.help == "" || f.set == nil || f.example == "" {
			all = append(all, f.key+": help, example or set is missing")
		}
	}
	return all
}
