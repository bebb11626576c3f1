package say

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// AlertWords says an alert where something to do is said, the longest first.
func AlertWords(a Alert) []string {
	return []string{FullStop(Capital(a.Words)), FullStop(Capital(a.Brief)), a.Brief}
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
	return []string{Capital(a.Words) + tail, Capital(a.Brief) + tail, Capital(a.Brief)}
}
