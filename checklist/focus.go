package checklist

import (
	"errors"
	"fmt"
	"time"

	"duskhand/sky/words"
)

// Kinds of events about focus and temperature.
const (
	KindFocused     = "focused"
	KindTemperature = "temperature"
)

// FocusedBody is the body of KindFocused: both telescopes were focused, on which star, and at which
// temperature if that was read.
type FocusedBody struct {
	Star  string   `json:"star,omitempty"`
	TempC *float64 `json:"temp_c,omitempty"`
}

// TemperatureBody is the body of KindTemperature, of the air at the telescope in °C.
type TemperatureBody struct {
	TempC float64 `json:"temp_c"`
}

// Focused is when the telescopes were focused last. TempC is nil if no temperature was given.
type Focused struct {
	At    time.Time
	Star  string
	TempC *float64
}

// Temperature is one reading of the thermometer, °C.
type Temperature struct {
	At time.Time
	C  float64
}

// FocusNow says that the telescopes have been focused; Star may be "".
type FocusNow struct {
	Star  string
	TempC *float64
}

// ReadTemperature says what the thermometer shows.
type ReadTemperature struct{ TempC float64 }

// The coldest and hottest that a person stands outside at.
const coldestC, hottestC = -60, 60

func sensible(c float64) error {
	if !(c >= coldestC && c <= hottestC) {
		return fmt.Errorf("a temperature of %s makes no sense here; give one from %d to %d", words.CelsiusAsRead(c), coldestC, hottestC)
	}
	return nil
}

func (a FocusNow) event(n Night, _ *time.Location) (string, any, error) {
	if n.Subs != nil {
		return "", nil, errors.New("subs are being taken; say that they have stopped, then focus")
	}
	if a.TempC != nil {
		if err := sensible(*a.TempC); err != nil {
			return "", nil, err
		}
	}
	return KindFocused, FocusedBody(a), nil
}

func (a ReadTemperature) event(Night, *time.Location) (string, any, error) {
	return KindTemperature, TemperatureBody(a), sensible(a.TempC)
}

// focused takes the thermometer's last reading when none was given with the focus and it is fresh.
func (n *Night) focused(b FocusedBody, at time.Time) {
	n.Focused = &Focused{At: at, Star: b.Star, TempC: b.TempC}
	if b.TempC != nil {
		n.Temperatures = append(n.Temperatures, Temperature{at, *b.TempC})
	} else if last := len(n.Temperatures) - 1; last >= 0 && at.Sub(n.Temperatures[last].At).Abs() < freshTemperature {
		n.Focused.TempC = &n.Temperatures[last].C
	}
}

// freshTemperature is how old a reading may be to count for what is done now: the air of a night changes
// by a degree or two in an hour (common practice).
const freshTemperature = 20 * time.Minute

func (n *Night) temperature(b TemperatureBody, at time.Time) {
	n.Temperatures = append(n.Temperatures, Temperature{at, b.TempC})
}
