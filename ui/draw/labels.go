package draw

import "duskhand/ui/theme"

// putLabel writes text on row y, its middle at column x but moved to stay inside the area, if those
// cells and one on each side are blank. It returns whether it was written.
func putLabel(area Area, x, y int, role theme.Role, text string) bool {
	width := Width(text)
	start := min(max(x-width/2, 0), area.Width()-width)
	if width == 0 || start < 0 || !isBlank(area, start-1, y, width+2) {
		return false
	}
	area.Put(start, y, role, text)
	return true
}

// isBlank returns whether the cells from column x of row y on are blank; those outside the area count
// as blank.
func isBlank(area Area, x, y, width int) bool {
	for i := range width {
		if area.Rune(x+i, y) != 0 {
			return false
		}
	}
	return true
}

// scaleTo returns where value lies between low and high as a column or row of n, 0 to n−1, and false
// if it lies outside or the range is empty.
func scaleTo(value, low, high float64, n int) (cell int, ok bool) {
	if !(low < high) || !(value >= low && value <= high) || n < 1 {
		return 0, false
	}
	return min(int((value-low)/(high-low)*float64(n-1)+0.5), n-1), true
}
