package say

import (
	"slices"

	"duskhand/ui/facts"
)

// SubLengths says how long the subs of a target should be: what the kit lacks first, then what holds for all filters,
// then each filter's own.
func SubLengths(s facts.SubLengths) []string {
	count := map[string]int{}
	for _, a := range s.Filters {
		for _, words := range exposed(a) {
			count[words]++
		}
	}
	var lacking, shared, own []string
	for i, a := range s.Filters {
		all := exposed(a)
		for j, words := range all {
			switch {
			case count[words] == 0: // said already
				continue
			case len(a.Lacks()) > 0 && j == len(all)-1:
				lacking = append(lacking, words)
			case count[words] == len(s.Filters) && i == 0:
				shared = append(shared, words)
			default:
				own = append(own, words)
			}
			count[words] = 0
		}
	}
	return slices.Concat(lacking, shared, own)
}
