package kit

import (
	"fmt"
	"regexp"
	"strings"

	"duskhand/sky/decimal"
)

// filterNumbers matches one filter's name, seconds and count: "L 60 s × 120", "Ha 3nm 300x20", "L 60 120".
func filterNumbers() *regexp.Regexp {
	return regexp.MustCompile(`^(\S.*?)\s+([-+]?\d+(?:\.\d+)?)\s*(?:s(?:ec)?)?(?:\s*[×xX*]\s*|\s+)([-+]?\d+)$`)
}

// readFilterList reads filters as a person writes them in one line: "L 60 s × 120, R, G, B 120 × 40". Commas and
// semicolons part them, a comma between figures is a decimal one. A name without numbers has those of the next
// filter that has some. It returns the answers to each filter's keys, by their last words, at least one filter.
//
// Error: which of them can't be read, and how it is written.
func readFilterList(text string) ([]map[string]string, error) {
	var filters []map[string]string
	var waiting []string
	for _, part := range strings.FieldsFunc(decimal.Plain(text), func(r rune) bool { return r == ',' || r == ';' }) {
		part = strings.TrimSpace(part)
		found := filterNumbers().FindStringSubmatch(part)
		switch {
		case part == "":
			continue
		case found == nil && strings.ContainsAny(part, "×*") || found == nil && regexp.MustCompile(`\s\d+(\.\d+)?( ?s)?$`).MatchString(part):
			return nil, fmt.Errorf("%q is not a filter with seconds and count; write it as L 60 s × 120", part)
		case found == nil:
			waiting = append(waiting, part)
			continue
		}
		for _, name := range append(waiting, found[1]) {
			filters = append(filters, map[string]string{"name": name, "exposure_s": found[2], "count": found[3]})
		}
		waiting = nil
	}
	switch {
	case len(waiting) > 0:
		return nil, fmt.Errorf("%q has neither seconds nor count; write it as %s 60 s × 120", waiting[0], waiting[0])
	case len(filters) == 0:
		return nil, fmt.Errorf("%q names no filter; write it as L 60 s × 120", text)
	}
	return filters, nil
}
