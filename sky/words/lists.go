package words

import (
	"fmt"
	"strings"
)

// Count returns a number of things with their noun, which takes an s for more than one or none: "1 run", "3 runs".
func Count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// List joins as a sentence does: "1", "1 and 3", "1, 3 and 4"; "" for nothing.
func List[Item any](items []Item) string { return joined(items, " and ") }

// Either is List for a choice: "1 or 3".
func Either[Item any](items []Item) string { return joined(items, " or ") }

func joined[Item any](items []Item, last string) string {
	parts := make([]string, len(items))
	for i, item := range items {
		parts[i] = fmt.Sprint(item)
	}
	if len(parts) < 2 {
		return strings.Join(parts, "")
	}
	return strings.Join(parts[:len(parts)-1], ", ") + last + parts[len(parts)-1]
}
