// Package layout divides a window among the parts of a screen, and writes text into them.
package layout

// Part is one horizontal band of a screen.
type Part struct {
	Name  string
	Rows  int // wanted
	Least int // fewer than this make no sense; then the part is dropped
	Rank  int // 0 stays the longest
}

// NewPart returns a part by its name, the rows that it wants, the least that make sense, and its rank.
func NewPart(name string, rows, least, rank int) Part { return Part{name, rows, least, rank} }

// Band is where a part was put. Height 0: dropped.
type Band struct{ Top, Height int }

// Stack places parts one below the other in the given height. When they don't fit, the part of the
// highest rank gives up rows down to its minimum, then is dropped, then the next: always in that order,
// so that a screen keeps its skeleton at every size. What is left over goes to the part named stretch.
func Stack(height int, parts []Part, stretch string) map[string]Band {
	rows := make([]int, len(parts))
	total := 0
	for i, p := range parts {
		rows[i] = p.Rows
		total += p.Rows
	}
	for total > height {
		i := firstToGive(parts, rows)
		if i < 0 {
			break
		}
		give := 1
		if rows[i] <= parts[i].Least {
			give = rows[i]
		}
		rows[i] -= give
		total -= give
	}
	bands := make(map[string]Band, len(parts))
	top := 0
	for i, p := range parts {
		if p.Name == stretch && rows[i] > 0 {
			rows[i] += max(0, height-total)
		}
		bands[p.Name] = Band{top, rows[i]}
		top += rows[i]
	}
	return bands
}

// firstToGive returns the part of the highest rank that still has rows; of equals the lower on the
// screen.
func firstToGive(parts []Part, rows []int) int {
	found := -1
	for i, p := range parts {
		if rows[i] > 0 && (found < 0 || p.Rank >= parts[found].Rank) {
			found = i
		}
	}
	return found
}
