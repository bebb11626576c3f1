package catalog

import (
	"fmt"
	"iter"
	"strconv"
	"strings"
)

// The data files are plain CSV: one header line, no quotes, no comma within a field, "; " between the
// names of a field that holds several. encoding/csv would copy every line; these are slices of the
// embedded text. A fault in a compiled-in file is a bug, so it panics; the tests read every row.

// row is one line of a data file.
type row struct {
	file   string
	line   int
	fields []string // reused for the next row; the strings are not
}

// rows yields the lines of text after the header.
func rows(file, text string, columns int) iter.Seq[row] {
	return func(yield func(row) bool) {
		fields := make([]string, columns)
		for line := 1; text != ""; line++ {
			var current string
			current, text, _ = strings.Cut(text, "\n")
			if line == 1 {
				continue
			}
			r := row{file, line, fields}
			for i := range fields {
				var more bool
				fields[i], current, more = strings.Cut(current, ",")
				if more != (i < columns-1) {
					panic(fmt.Sprintf("%s:%d: %d columns expected", file, line, columns))
				}
			}
			if !yield(r) {
				return
			}
		}
	}
}

// number reads a column that is always filled in.
func (r row) number(column int) float64 {
	v, err := strconv.ParseFloat(r.fields[column], 64)
	if err != nil {
		panic(fmt.Sprintf("%s:%d: column %d: %v", r.file, r.line, column+1, err))
	}
	return v
}

// known reads a column that may be empty.
func (r row) known(column int) Known {
	if r.fields[column] == "" {
		return Known{}
	}
	return Known{Value: r.number(column), OK: true}
}

// appendList appends the names of a column to names.
func (r row) appendList(names []string, column int) []string {
	for rest := r.fields[column]; rest != ""; {
		var name string
		name, rest, _ = strings.Cut(rest, "; ")
		names = append(names, name)
	}
	return names
}
