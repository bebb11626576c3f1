package kit

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"duskhand/sky"
)

// value is a field's value, read and within its range: number in the field's unit, or text, or texts.
type value struct {
	number float64
	text   string
	texts  []string
	zone   *time.Location
}

func (v value) degrees() sky.Angle { return sky.Angle(v.number) * sky.Degree }
func (v value) whole() int         { return int(v.number) }
func (v value) seconds() time.Duration {
	return time.Duration(math.Round(v.number * float64(time.Second)))
}
func (v value) minutes() time.Duration {
	return time.Duration(math.Round(v.number * float64(time.Minute)))
}
func (v value) perSecond() sky.Rate { return sky.Rate(v.number) * sky.DegreePerSecond }
func (v value) perHour() sky.Rate   { return sky.Rate(v.number) * sky.DegreePerHour }
func (v value) motion() sky.Angle   { return sky.Angle(v.number) * sky.MilliarcsecondPerYear }

// read returns the value that raw, as TOML gave it, has for the field. Otherwise problem goes on from the
// key: what is wrong and what would be right.
func (f field) read(raw any) (v value, problem string) {
	switch f.kind {
	case text, choice, zone:
		written, ok := raw.(string)
		if !ok {
			return value{}, fmt.Sprintf("%s text; give %s in double quotes", isNot(raw), f.wanted())
		}
		return f.readText(written)
	case spectral:
		if written, ok := raw.(string); ok {
			return f.readLine(written)
		}
	case textList:
		return f.readWords(raw)
	case latitude, longitude, rightAscension:
		if written, ok := raw.(string); ok {
			return f.readAngle(written)
		}
	}
	x, ok := asNumber(raw, f.kind == whole || f.kind == sense)
	if !ok {
		return value{}, fmt.Sprintf("%s %s; give %s", isNot(raw), f.kind.noun(), f.wanted())
	}
	return f.within(x, shown(raw))
}

func (k kind) noun() string {
	switch k {
	case whole, sense:
		return "a whole number"
	case latitude, longitude, rightAscension:
		return "a number or an angle in double quotes"
	case spectral:
		return "a wavelength or the name of a line in double quotes"
	}
	return "a number"
}

func asNumber(raw any, wholeOnly bool) (x float64, ok bool) {
	switch n := raw.(type) {
	case int64:
		return float64(n), true
	case float64:
		return n, !wholeOnly
	}
	return 0, false
}

// within checks x, which the file gave as written.
func (f field) within(x float64, written string) (value, string) {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return value{}, fmt.Sprintf("= %s is not a finite number; give %s", written, f.wanted())
	}
	if !f.inRange(x) || (f.kind == sense && x == 0) {
		return value{}, fmt.Sprintf("= %s is out of range; give %s", written, f.wanted())
	}
	return value{number: x}, ""
}

func (f field) readAngle(written string) (value, string) {
	parse, wrongLetters := sky.ParseAngle, ""
	switch f.kind {
	case latitude:
		wrongLetters = "EW"
	case longitude:
		wrongLetters = "NS"
	case rightAscension:
		parse = sky.ParseRightAscension
	}
	trimmed := strings.TrimSpace(written)
	if trimmed != "" && strings.ContainsAny(trimmed[len(trimmed)-1:], wrongLetters) {
		return value{}, fmt.Sprintf("= %s ends in %s; only %s or a sign belongs here", shown(written),
			trimmed[len(trimmed)-1:], map[kind]string{latitude: "N, S", longitude: "E, W"}[f.kind])
	}
	a, err := parse(written)
	if err != nil {
		return value{}, "= " + err.Error()
	}
	return f.within(a.Degrees(), shown(written))
}

func (f field) readText(written string) (value, string) {
	if problem := unprintable(written); problem != "" {
		return value{}, problem
	}
	switch f.kind {
	case choice:
		if !slices.Contains(f.options, written) {
			return value{}, fmt.Sprintf("= %s is unknown; give %s", shown(written), f.wanted())
		}
	case zone:
		return readZone(written)
	default:
		if strings.TrimSpace(written) != written || !f.inRange(float64(utf8.RuneCountInString(written))) {
			return value{}, fmt.Sprintf("= %s is empty, too long or has blanks around it; give %s",
				shown(written), f.wanted())
		}
	}
	return value{text: written}, ""
}

// readLine takes the name of a spectral line, in any of the ways in which people type it.
func (f field) readLine(written string) (value, string) {
	line, known := lineNamed(written)
	if !known {
		return value{}, fmt.Sprintf("= %s is no line that is known here; give %s", shown(written), f.wanted())
	}
	return value{text: line.Name, number: line.NM}, ""
}

// readZone refuses "" and "Local", which the time package knows but which mean another zone on every
// computer.
func readZone(written string) (value, string) {
	location, err := time.LoadLocation(written)
	if err != nil || written == "" || written == "Local" {
		return value{}, fmt.Sprintf("= %s is no time zone that is known here; "+
			`give its IANA name, region and city, like "Australia/Broken_Hill", or "UTC"`, shown(written))
	}
	return value{text: written, zone: location}, ""
}

func (f field) readWords(raw any) (value, string) {
	items, ok := raw.([]any)
	if !ok || !f.inRange(float64(len(items))) {
		return value{}, fmt.Sprintf("%s right; give %s, like %s", isNot(raw), f.wanted(), f.example)
	}
	v := value{}
	for _, item := range items {
		written, ok := item.(string)
		if !ok || written == "" {
			return value{}, fmt.Sprintf("has the item %s; every item must be text in double quotes", shown(item))
		}
		if problem := unprintable(written); problem != "" {
			return value{}, problem
		}
		v.texts = append(v.texts, written)
	}
	return v, ""
}

// unprintable keeps control characters out of screens and reports.
func unprintable(written string) string {
	for _, r := range written {
		if !unicode.IsPrint(r) {
			return fmt.Sprintf("= %s has the unprintable character %U; leave it out", shown(written), r)
		}
	}
	return ""
}

// isNot returns the head of a sentence that says what raw is not.
func isNot(raw any) string {
	switch raw.(type) {
	case string, int64, float64, bool:
		return "= " + shown(raw) + " is not"
	}
	return "is " + shown(raw) + ", not"
}

// shown returns raw as a message quotes it.
func shown(raw any) string {
	const longest = 40 // characters: enough to recognise the value by, and the line stays one line
	switch x := raw.(type) {
	case string:
		if utf8.RuneCountInString(x) > longest {
			x = string([]rune(x)[:longest]) + "…"
		}
		return fmt.Sprintf("%q", x)
	case int64, bool:
		return fmt.Sprint(x)
	case float64:
		return strings.TrimPrefix(strings.ToLower(fmt.Sprint(x)), "+")
	case map[string]any:
		return "a table"
	case []any:
		return fmt.Sprintf("a list of %d", len(x))
	}
	return "a date or time"
}
