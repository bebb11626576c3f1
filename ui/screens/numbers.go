package screens

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"duskhand/sky"
)

// ReadNumbers reads numbers with blanks between them, degree signs aside.
func ReadNumbers(text string) ([]float64, error) {
	var numbers []float64
	for _, word := range strings.Fields(strings.ReplaceAll(strings.ReplaceAll(text, "°", " "), "−", "-")) {
		x, err := strconv.ParseFloat(word, 64)
		if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
			return nil, fmt.Errorf("%q is no number", word)
		}
		numbers = append(numbers, x)
	}
	return numbers, nil
}

// Degrees is an angle of so many.
func Degrees(x float64) sky.Angle { return sky.Angle(x) * sky.Degree }
