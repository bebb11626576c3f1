package ui

// part is one horizontal band of a screen.
type part struct {
	name string
	rows int // wanted
	min  int // fewer than this make no sense; then the part is dropped
	rank int // 0 stays the longest
}

// band is where a part was put. Height 0: dropped.
type band struct{ top, height int }

// stack places parts one below the other in the given height. When they don't fit, the part of the
// highest rank gives up rows down to its minimum, then is dropped, then the next: always in that order,
// so that a screen keeps its skeleton at every size. What is left over goes to the part named stretch.
func stack(height int, parts []part, stretch string) map[string]band {
	rows := make([]int, len(parts))
	total := 0
	for i, p := range parts {
		rows[i] = p.rows
		total += p.rows
	}
	for total > height {
		i := firstToGive(parts, rows)
		if i < 0 {
			break
		}
		give := 1
		if rows[i] <= parts[i].min {
			give = rows[i]
		}
		rows[i] -= give
		total -= give
	}
	bands := make(map[string]band, len(parts))
	top := 0
	for i, p := range parts {
		if p.name == stretch && rows[i] > 0 {
			rows[i] += max(0, height-total)
		}
		bands[p.name] = band{top, rows[i]}
		top += rows[i]
	}
	return bands
}

// firstToGive returns the part of the highest rank that still has rows; of equals the lower on the
// screen.
func firstToGive(parts []part, rows []int) int {
	found := -1
	for i, p := range parts {
		if rows[i] > 0 && (found < 0 || p.rank >= parts[found].rank) {
			found = i
		}
	}
	return found
}
