package say

import (
	"fmt"
	"strings"
	"time"

	"duskhand/plan/worth"
)

// Order says in which order subs are taken and why, "24 Ha until moonset 01:41, then 40 L"; "" for none. clock
// prints an instant.
func Order(parts []worth.Part, clock func(time.Time) string) string {
	var words []string
	for _, p := range parts {
		text := fmt.Sprintf("%d %s", p.Count, p.Filter)
		switch p.Why {
		case worth.UntilMoonset:
			text += " until moonset " + clock(p.At)
		case worth.UntilMoonrise:
			text += " until moonrise " + clock(p.At)
		case worth.WhileHigh:
			text += " while it is highest, " + clock(p.At)
		}
		words = append(words, text)
	}
	return strings.Join(words, ", then ")
}
