// Package words is the one printer of what stands in sentences and tables: lengths of time, instants, angles,
// temperatures, shares, numbers with their noun, lists. One kind of thing has one format everywhere, so that two
// screens that show one thing show it alike. Sentences are made elsewhere; nothing here knows what a value is for.
//
// Minus signs are true ones (U+2212), as wide as a digit, and nought has none. Between a number and its unit stands
// a space, but for °, ′ and ″ (ISO 80000-1).
package words

import (
	"strconv"
	"strings"
)

// Number returns x with so many decimals: "−2.5", "0.0".
func Number(x float64, decimals int) string { return minus(strconv.FormatFloat(x, 'f', decimals, 64)) }

// SignedNumber is Number with a plus sign, but for a nought that takes none: "+180", "−240", "0".
func SignedNumber(x float64, decimals int) string {
	return plus(Number(x, decimals), Number(0, decimals))
}

// Figure returns x with the decimals that it has, at most so many: "2.5", "−7".
func Figure(x float64, atMost int) string {
	return minus(bare(strconv.FormatFloat(x, 'f', atMost, 64)))
}

// Percent returns a share, 1 for the whole, in percent with so many decimals: "59 %".
func Percent(share float64, decimals int) string { return Number(100*share, decimals) + " %" }

// PercentAsRead returns a number of percent with the decimals that it was read with, three at most: "72 %".
func PercentAsRead(percent float64) string { return Figure(percent, 3) + " %" }

// Celsius returns a temperature in °C with so many decimals: "−7.5 °C".
func Celsius(c float64, decimals int) string { return Number(c, decimals) + " °C" }

// CelsiusAsRead returns a temperature in °C with the decimals that it was read with, three at most: "−7 °C".
func CelsiusAsRead(c float64) string { return Figure(c, 3) + " °C" }

// Kelvin returns a difference of temperatures in kelvin, to a tenth: "4.5 K", "5 K".
func Kelvin(k float64) string { return Figure(k, 1) + " K" }

// bare takes the zeros at the end of a number's decimals away.
func bare(number string) string {
	if !strings.Contains(number, ".") {
		return number
	}
	return strings.TrimSuffix(strings.TrimRight(number, "0"), ".")
}

// minus gives a printed number a true minus sign, and nought none.
func minus(number string) string {
	size, negative := strings.CutPrefix(number, "-")
	if !negative || strings.Trim(size, "0.") == "" {
		return size
	}
	return "−" + size
}
