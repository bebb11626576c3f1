package sky

import (
	"math"
	"time"
)

// rootWithin is how finely an instant is found. A star moves 0.015″ in it.
const rootWithin = time.Millisecond

// Root returns the instant in [from, to] at which f is zero; f must differ in sign there or be zero at
// an end. It uses false position with the Illinois rule, halving where that creeps.
//
// Error: 1 ms in the argument.
// Source: Dowell & Jarratt 1971, BIT 11, 168.
func Root(f func(time.Time) Angle, from, to time.Time) time.Time {
	a, b := 0.0, to.Sub(from).Seconds()
	at := func(x float64) time.Time { return from.Add(time.Duration(x * float64(time.Second))) }
	fa, fb := float64(f(from)), float64(f(to))
	if fa == 0 {
		return from
	}
	for i := 0; fb != 0 && math.Abs(b-a) > rootWithin.Seconds(); i++ {
		c := (a*fb - b*fa) / (fb - fa)
		if i%4 == 3 { // however odd the curve is, every fourth step halves the bracket
			c = (a + b) / 2
		}
		fc := float64(f(at(c)))
		if (fc < 0) != (fb < 0) {
			a, fa = b, fb
		} else {
			fa /= 2 // Illinois: stop the far end from staying put
		}
		b, fb = c, fc
	}
	return at(b)
}

// lowest returns the instant in [from, to] where f is least, for a curve with one minimum there, to
// within seconds: near an extremum a curve is flat, and finer is not needed to know on which side of
// zero it lies. Golden section.
func lowest(f func(time.Time) float64, from, to time.Time) time.Time {
	const golden = 0.6180339887498949
	const within = time.Second
	for to.Sub(from) > within {
		part := time.Duration(golden * float64(to.Sub(from)))
		left, right := to.Add(-part), from.Add(part)
		if f(left) < f(right) {
			to = right
		} else {
			from = left
		}
	}
	return from.Add(to.Sub(from) / 2)
}
