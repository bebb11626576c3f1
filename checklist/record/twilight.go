package record

import (
	"fmt"

	"duskhand/sky/words"
)

// twilightLines says which subs were taken before it was dark, and how high the Sun stood.
func twilightLines(t Target) (lines []string) {
	for _, run := range t.Runs {
		for _, f := range run.Filters {
			if n, highest := f.InTwilight(); n > 0 {
				lines = append(lines, fmt.Sprintf("Run %d: %d of %d subs through %s were taken in twilight, the Sun %s down at the least.",
					run.Number, n, f.Count, f.Filter, words.Degrees(-highest, 1)))
			}
		}
	}
	return lines
}
