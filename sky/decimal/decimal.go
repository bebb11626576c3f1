// Package decimal reads the numbers that people type: with a point or a comma before the decimals, and with the
// minus of a keyboard or the one that the screens print.
package decimal

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// Parse returns the number that a person typed: "12.5", "12,5", "+12", "-3", "−3", "1e-3".
//
// Range: finite. A comma is a decimal comma; nothing parts thousands.
// Error: says what was typed and how to write it.
func Parse(text string) (float64, error) {
	plain := Plain(text)
	x, err := strconv.ParseFloat(plain, 64)
	if err != nil || math.IsInf(x, 0) || math.IsNaN(x) || strings.ContainsAny(plain, "_xXpP") {
		return 0, fmt.Errorf("%q is no number; write one as 12.5, 12,5 or −3", text)
	}
	return x, nil
}

// Plain returns text with a hyphen for each minus sign and a point for each decimal comma, which is one between
// two figures, or before the first; without blanks around it.
func Plain(text string) string {
	hyphened := strings.ReplaceAll(strings.TrimSpace(text), "−", "-")
	return regexp.MustCompile(`(\d|^[-+]?),(\d)`).ReplaceAllString(hyphened, "$1.$2")
}

// Words parts text at blanks, semicolons, and the commas that are no decimal ones: in "37,06 104,96" both are,
// in "37.06,104.96" and "37, 104" none is. Decimal commas and minus signs are as Plain leaves them.
func Words(text string) []string {
	var words []string
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '\t' || r == ';' }) {
		parts := []string{word}
		if strings.Contains(word, ".") || strings.Count(strings.Trim(word, ","), ",") > 1 {
			parts = strings.Split(word, ",")
		}
		for _, part := range parts {
			if part = strings.TrimRight(part, ","); part != "" {
				words = append(words, Plain(part))
			}
		}
	}
	return words
}

// List returns the numbers of a line, as Words parts it.
func List(text string) ([]float64, error) {
	var numbers []float64
	for _, word := range Words(text) {
		x, err := Parse(word)
		if err != nil {
			return nil, err
		}
		numbers = append(numbers, x)
	}
	return numbers, nil
}
