package kit

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// unknown returns what is wrong with the key or table at name (a path without indices): that the kit
// knows no such thing, with the nearest that it does know.
func unknown(name string) string {
	if near := nearest(name); near != "" {
		return "is unknown; did you mean " + near + "?"
	}
	inside := name[:max(strings.LastIndexByte(name, '.'), 0)]
	if here := namesIn(inside); len(here) > 0 {
		return fmt.Sprintf("is unknown; [%s] takes %s", inside, strings.Join(here, ", "))
	}
	return "is unknown; a kit has " + bracketed()
}

func namesIn(table string) []string {
	var names []string
	for _, f := range fields() {
		if in, name := f.split(); in == table {
			names = append(names, name)
		}
	}
	return names
}

func bracketed() string {
	var names []string
	for _, t := range tables() {
		names = append(names, t.header())
	}
	return strings.Join(names, ", ")
}

func (t table) header() string {
	if t.list {
		return "[[" + t.name + "]]"
	}
	return "[" + t.name + "]"
}

// nearest returns the known key or table most like name, as a message names it, or "" when none is like
// enough. Names of the same table come first among equals.
func nearest(name string) string {
	type candidate struct {
		shown    string
		distance float64
	}
	var all []candidate
	add := func(known, shown string) {
		if d, alike := likeness(name, known); alike {
			all = append(all, candidate{shown, d})
		}
	}
	for _, f := range fields() {
		add(f.key, f.key)
	}
	for _, t := range tables() {
		add(t.name, t.header())
	}
	if len(all) == 0 {
		return ""
	}
	return slices.MinFunc(all, func(a, b candidate) int { return cmp.Compare(a.distance, b.distance) }).shown
}

// likeness returns how far two paths are apart, and whether that is near enough to offer. The last words
// count, without their unit too, so that "max" finds max_deg; another table costs one more.
func likeness(name, known string) (distance float64, alike bool) {
	inA, a := lastWord(name)
	inB, b := lastWord(known)
	d := float64(min(edits(a, b), 1+edits(stem(a), stem(b))))
	if len(a) >= 3 && strings.HasPrefix(b, a) {
		d = min(d, 1.5)
	}
	limit := 1 + float64(min(len(a), len(b)))/4
	if inA != inB {
		d++
	}
	return d, d <= limit
}

func lastWord(path string) (before, last string) {
	i := strings.LastIndexByte(path, '.')
	return path[:max(i, 0)], strings.ToLower(path[i+1:])
}

// stem returns name without its unit.
func stem(name string) string {
	for _, unit := range []string{"_deg_per_h", "_deg_per_s", "_mas_yr", "_deg", "_min", "_hpa", "_mm", "_um", "_nm", "_px", "_m", "_c", "_s"} {
		if short, found := strings.CutSuffix(name, unit); found {
			return short
		}
	}
	return name
}

// edits returns how many letters must be put in, left out, changed, or swapped with their neighbour to
// make b of a (the optimal string alignment distance).
func edits(a, b string) int {
	x, y := []rune(a), []rune(b)
	rows := make([][]int, len(x)+1)
	for i := range rows {
		rows[i] = make([]int, len(y)+1)
		rows[i][0] = i
	}
	for j := range rows[0] {
		rows[0][j] = j
	}
	for i := 1; i <= len(x); i++ {
		for j := 1; j <= len(y); j++ {
			change := 1
			if x[i-1] == y[j-1] {
				change = 0
			}
			rows[i][j] = min(rows[i-1][j]+1, rows[i][j-1]+1, rows[i-1][j-1]+change)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				rows[i][j] = min(rows[i][j], rows[i-2][j-2]+1)
			}
		}
	}
	return rows[len(x)][len(y)]
}
