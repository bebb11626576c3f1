package record

import (
	"fmt"

	"duskhand/sky/words"
)

// twilightLines says which subs were taken while it was not dark, and how high the Sun stood.
func twilightLines(t Target) (lines []string) {
	for _, run := range t.Runs {
		for _, f := range run.Filters {
			if f.Early > 0 {
				lines = append(lines, fmt.Sprintf("Run %d: %d of %d subs through %s were taken in twilight, the Sun %s down at the least. They are not counted.",
					run.Number, f.Early, f.Count+f.Early, f.Filter, words.Degrees(-f.SunHighest(), 1)))
			}
		}
	}
	return lines
}
