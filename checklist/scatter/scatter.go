// Package scatter has the middle and the slope of values that scatter.
package scatter

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
)

// Median returns the middle of values, of an even number the mean of the two in the middle; 0 of none. It leaves them in
// their order.
func Median(values []float64) float64 {
	n := len(values)
	if n == 0 {
		return 0
	}
	sorted := slices.Sorted(slices.Values(values))
	return (sorted[(n-1)/2] + sorted[n/2]) / 2
}

// Line returns the slope of the least-squares line through the points and its standard error by their scatter about it.
//
// Valid:  three points or more at more than one x.
// Source: Bevington & Robinson, Data Reduction and Error Analysis for the Physical Sciences, ch. 6 (memory).
func Line(xs, ys []float64) (slope, sigma float64) {
	intercept, slope := stat.LinearRegression(xs, ys, nil, false)
	squares := 0.0
	for i := range xs {
		off := ys[i] - intercept - slope*xs[i]
		squares += off * off
	}
	n := float64(len(xs))
	return slope, math.Sqrt(squares / (n - 2) / (stat.Variance(xs, nil) * (n - 1)))
}
