package draw

import "duskhand/ui/theme"

// Sample is one value of a series, or the lack of one.
type Sample struct {
	Value   float64 // in the unit of the whole series
	Missing bool
}

// Sparkline draws the last samples that fit on the area's first row, one a column, as heights between
// low and high, which are in the samples' unit. A value outside is drawn at the nearer end, a missing
// one as a blank.
func Sparkline(area Area, charset Charset, role theme.Role, samples []Sample, low, high float64) {
	if over := len(samples) - area.Width(); over > 0 {
		samples = samples[over:]
	}
	for x, s := range samples {
		if s.Missing {
			continue
		}
		level, _ := scaleTo(min(max(s.Value, low), high), low, high, levels)
		area.PutRune(x, 0, role, levelRune(charset, level))
	}
}

// levels is the number of block heights there are, from ▁ (U+2581) to █ (U+2588).
const levels = 8

// levelRune returns the mark for a height, 0 to 7. In ASCII two heights share a mark.
func levelRune(charset Charset, level int) rune {
	if charset == ASCII {
		return rune("_.-="[level/2])
	}
	return '▁' + rune(level)
}
