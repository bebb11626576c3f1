package guiding

import (
	"math"
	"math/cmplx"

	"duskhand/sky"
)

// Radius returns the spectral radius of the guiding's loop with a calibration so aged, which corrects the
// share gain of the error each time, an exposure late: by about this factor the error changes from one
// exposure to the next in the long run. Guiding converges below 1.
//
// Range:  gain above 0.
// Source: own derivation. By its calibration the guider knows a command (along the mount's two axes) to move
// the star by R(φ)·diag(s, 1), φ the axes' direction in the camera and s the first one's scale. The command
// that should undo the share g of the error e moves it by −g·R(φ′)·diag(s′, 1)·diag(1/s, 1)·R(−φ)·e, which in
// the axes of the calibration is −M·e with M = g·R(ε)·diag(ρ, 1). An exposure late, e[k+1] = e[k] − M·e[k−1],
// so for each eigenvalue μ of M the two roots of λ² − λ + μ = 0 say how e grows. μ is found from the trace
// g·(1 + ρ)·cos ε and the determinant g²·ρ.
func (a Aged) Radius(gain float64) (largest float64) {
	half := complex(gain*(1+a.Scale)*a.Angle.Cos()/2, 0)
	apart := cmplx.Sqrt(half*half - complex(gain*gain*a.Scale, 0))
	for _, mu := range []complex128{half + apart, half - apart} {
		root := cmplx.Sqrt(1 - 4*mu)
		largest = max(largest, cmplx.Abs(1+root)/2, cmplx.Abs(1-root)/2)
	}
	return largest
}

// LateBound returns the angle ε at which guiding ceases to converge when it corrects the share gain of the
// error an exposure late and the scale is ρ; 0 where it does not converge at ε = 0 either.
//
// Range:  [0°, 90°).
// Source: own derivation from Radius. A root reaches |λ| = 1 where |μ| = 2·sin(θ/2) for λ at the angle θ, and
// |arg μ| = 90° − 3·asin(|μ|/2). Both μ are then complex, of size g·√ρ and with cos(arg μ) =
// (1 + ρ)·cos ε/(2·√ρ), which leaves cos ε = g·ρ·(3 − g²·ρ)/(1 + ρ). With ρ = 1 that is
// ε = 90° − 3·asin(g/2). At ε = 0 each axis is on its own and converges below g = 1 and g·ρ = 1.
func LateBound(gain, scale float64) sky.Angle {
	if gain >= 1 || gain*scale >= 1 {
		return 0
	}
	return sky.Angle(math.Acos(gain * scale * (3 - gain*gain*scale) / (1 + scale)))
}
