package say

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// AlertWords says an alert where something to do is said, the longest first.
func AlertWords(a Alert) (ways []string) {
	for _, way := range append(append([]string{a.Words}, a.between...), a.Brief) {
		ways = append(ways, FullStop(Capital(way)))
	}
	return append(ways, a.Brief)
}

// Capital begins words as a sentence does.
func Capital(words string) string {
	first, size := utf8.DecodeRuneInString(words)
	return string(unicode.ToUpper(first)) + words[size:]
}

// FullStop ends words as a sentence does.
func FullStop(words string) string {
	if words == "" || strings.ContainsAny(words[len(words)-1:], ".!?") {
		return words
	}
	return words + "."
}

// Sentence makes a sentence of words: a capital letter, a full stop.
func Sentence(words string) string { return FullStop(Capital(strings.TrimSpace(words))) }

// Alerted says an alert with what is on besides, the longest first.
func Alerted(a Alert, besides []Alert) []string {
	tail := ""
	if len(besides) > 0 {
		var kinds []string
		for _, other := range besides {
			kinds = append(kinds, string(other.Kind))
		}
		tail = " (and: " + strings.Join(kinds, ", ") + ")"
	}
	ways := []string{Capital(a.Words) + tail}
	for _, way := range a.between {
		ways = append(ways, Capital(way)+tail, Capital(way))
	}
	return append(ways, Capital(a.Brief)+tail, Capital(a.Brief))
}
