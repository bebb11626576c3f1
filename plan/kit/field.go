package kit

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// kind is what a field's value must look like in the file.
type kind int

const (
	number         kind = iota // a number, whole or not
	whole                      // a whole number
	latitude                   // degrees as a number, or text that sky.ParseAngle reads, N or S allowed
	longitude                  // the same with E or W
	rightAscension             // degrees as a number, or text that sky.ParseRightAscension reads
	text                       // text in quotes, its length in characters within the range
	choice                     // one of the field's options, in quotes
	spectral                   // one of the field's options, a spectral line by name, or a wavelength within the range
	sense                      // 1 or -1
	zone                       // text in quotes: a time zone by its IANA name
	textList                   // a list of texts, their number within the range
)

// need is whether the file must give the field.
type need int

const (
	defaulted need = iota // fallback holds when the file says nothing
	required
	optional // nothing holds when the file says nothing
)

// field is one row of the table: all that is known of one key of the kit file. Its key is the full path,
// list tables without their index. Range and example are in its unit; an open end is out of the range.
type field struct {
	key              string
	kind             kind
	unit             string
	min, max         float64
	openMin, openMax bool
	options          []string // of a choice or a spectral field
	need             need
	fallback         any    // as the file would give it: float64, int64 or string
	example          string // as a person would type it
	help             string // one sentence
	set              func(*draft, value)
}

// split returns the table that the field stands in, and its name there.
func (f field) split() (table, name string) {
	i := strings.LastIndexByte(f.key, '.')
	return f.key[:i], f.key[i+1:]
}

// table is one table of the kit file, or one list of tables.
type table struct {
	name    string
	list    bool
	atLeast int          // items that a list must have
	grow    func(*draft) // makes room for the next item of a list
	help    string
}

// rangeText returns what the field may be, in words, without the unit.
func (f field) rangeText() string {
	switch f.kind {
	case choice:
		return `"` + strings.Join(f.options, `" or "`) + `"`
	case spectral:
		return fmt.Sprintf(`"%s", or %s to %s`, strings.Join(f.options, `", "`), figure(f.min), figure(f.max))
	case sense:
		return "1 or -1"
	case zone:
		return `an IANA time zone like "Australia/Broken_Hill"`
	case text:
		return fmt.Sprintf("%s to %s characters", figure(f.min), figure(f.max))
	case textList:
		return fmt.Sprintf("a list of %s to %s texts", figure(f.min), figure(f.max))
	}
	low, high := figure(f.min), figure(f.max)
	if f.openMin {
		low = "above " + low
	}
	if f.openMax {
		return low + " up to but not " + high
	}
	return low + " to " + high
}

// wanted returns rangeText with the unit: the end of a sentence that says what would be right.
func (f field) wanted() string {
	if f.unit == "" {
		return f.rangeText()
	}
	return f.rangeText() + " " + f.unit
}

func (f field) inRange(x float64) bool {
	aboveMin := x > f.min || (x == f.min && !f.openMin)
	belowMax := x < f.max || (x == f.max && !f.openMax)
	return aboveMin && belowMax
}

func figure(x float64) string {
	if x == math.Trunc(x) && math.Abs(x) < 1e15 {
		return strconv.FormatInt(int64(x), 10)
	}
	return strconv.FormatFloat(x, 'g', -1, 64)
}
