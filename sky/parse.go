package sky

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"

	"duskhand/sky/decimal"
)

// ParseAngle returns the angle that a person wrote in degrees, as a decimal number or in degrees,
// minutes and seconds.
//
// Accepts: "-31.95", "−31,95", "31°57'00\"S", "31d57m00s", "-31 57 00", "141:30". The marks are °, d or deg;
// ', ′ or m; ", ″ or s; a colon or a space will do for any of them. A capital S is always south, a
// small s always seconds. Only the last number may have a fraction, behind a point or a comma.
// Sign:    a leading minus, or a trailing S or W, makes it negative; not both.
// Range:   any; minutes and seconds below 60. Never NaN or infinite.
// Error:   says what was read and how to write it.
func ParseAngle(text string) (Angle, error) {
	body, negative, err := hemisphere(strings.TrimSpace(text))
	if err != nil {
		return 0, fmt.Errorf("%q: %w", text, err)
	}
	s, err := readSexagesimal(decimal.Plain(body))
	if err == nil && s.lead == "h" {
		err = fmt.Errorf("h marks hours, and this is an angle in degrees")
	}
	if err != nil {
		return 0, fmt.Errorf("%q is not an angle: %w; write degrees like -31.95, or 31°57'00\"S", text, err)
	}
	if negative {
		return -Angle(s.value()) * Degree, nil
	}
	return Angle(s.value()) * Degree, nil
}

// ParseRightAscension returns the right ascension that a person wrote, in hours unless one decimal
// number is marked as degrees.
//
// Accepts: "05h38m42.4s", "05 38 42.4", "05:38:42", "5.645" or "5,645" (hours), "84.676°", "84.676 deg".
// Range:   [0°, 360°), that is 0 h up to but not 24 h; anything else is an error.
func ParseRightAscension(text string) (Angle, error) {
	s, err := readSexagesimal(decimal.Plain(strings.ToLower(text)))
	unit := Hour
	if err == nil && s.lead == "°" {
		unit = Degree
		if s.count > 1 {
			err = fmt.Errorf("degrees of right ascension are one decimal number")
		}
	}
	if err == nil && Angle(s.value())*unit >= Turn {
		err = fmt.Errorf("it is not below 24 h")
	}
	if err != nil {
		return 0, fmt.Errorf("%q is not a right ascension: %w; write 05h38m42s, or 84.675° in degrees", text, err)
	}
	return Angle(s.value()) * unit, nil
}

// hemisphere takes the sign or the compass letter off text.
func hemisphere(text string) (body string, negative bool, err error) {
	body = text
	for _, sign := range []string{"-", "−", "+"} {
		if rest, found := strings.CutPrefix(body, sign); found {
			body, negative = rest, sign != "+"
			break
		}
	}
	signed := body != text
	if body == "" || !strings.ContainsRune("NSEW", rune(body[len(body)-1])) {
		return body, negative, nil
	}
	letter := body[len(body)-1]
	if signed {
		return "", false, fmt.Errorf("it has both a sign and %c; keep one of them", letter)
	}
	return body[:len(body)-1], letter == 'S' || letter == 'W', nil
}

// sexagesimal is up to three numbers: wholes, sixtieths and sixtieths of those.
type sexagesimal struct {
	parts [3]float64
	count int    // how many numbers were written
	lead  string // the mark of the wholes: "°", "h" or none
}

func (s sexagesimal) value() float64 { return s.parts[0] + s.parts[1]/60 + s.parts[2]/3600 }

func readSexagesimal(text string) (sexagesimal, error) {
	var s sexagesimal
	next, broken, colon := 0, false, false
	for rest := text; rest != "" || colon; {
		number, after := leadingNumber(rest)
		if number == "" {
			return s, fmt.Errorf("a number is expected at %q", rest)
		}
		part, err := strconv.ParseFloat(number, 64)
		if err != nil || math.IsInf(part, 0) {
			return s, fmt.Errorf("%q is not a number", number)
		}
		if broken {
			return s, fmt.Errorf("only the last number may have a fraction")
		}
		mark, after := leadingMark(after)
		slot, err := slotOf(mark, next)
		if err != nil {
			return s, err
		}
		if slot > 0 && part >= 60 {
			return s, fmt.Errorf("%s is not below 60", number)
		}
		if slot == 0 {
			s.lead = mark
		}
		s.parts[slot], s.count = part, s.count+1
		next, broken, colon, rest = slot+1, strings.Contains(number, "."), mark == ":", after
	}
	if s.count == 0 {
		return s, fmt.Errorf("nothing is written")
	}
	return s, nil
}

// slotOf returns which of the three numbers mark makes of the one before it: next, the first that is
// still free, when mark is a space or a colon.
func slotOf(mark string, next int) (int, error) {
	slot := next
	switch mark {
	case "°", "h":
		slot = 0
	case "'":
		slot = 1
	case `"`:
		slot = 2
	}
	if slot < next || slot > 2 {
		return 0, fmt.Errorf("the numbers must be degrees or hours, minutes, seconds, in this order")
	}
	return slot, nil
}

func leadingNumber(text string) (number, rest string) {
	end := strings.IndexFunc(text, func(r rune) bool { return (r < '0' || r > '9') && r != '.' })
	if end < 0 {
		end = len(text)
	}
	return text[:end], text[end:]
}

// leadingMark returns the mark at the head of text in one spelling (° h ' " :), or none, and the rest
// without the spaces around it.
func leadingMark(text string) (mark, rest string) {
	text = strings.TrimLeftFunc(text, unicode.IsSpace)
	spellings := [...]struct{ written, mark string }{
		{"deg", "°"}, {"°", "°"}, {"d", "°"}, {"h", "h"}, {"''", `"`}, {"′′", `"`}, {`"`, `"`}, {"″", `"`},
		{"s", `"`}, {"'", "'"}, {"′", "'"}, {"m", "'"}, {":", ":"},
	}
	for _, s := range spellings {
		if after, found := strings.CutPrefix(text, s.written); found {
			return s.mark, strings.TrimLeftFunc(after, unicode.IsSpace)
		}
	}
	return "", text
}
