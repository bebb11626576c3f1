package guiding_test

import (
	"math"
	"math/cmplx"
	"math/rand/v2"

	"duskhand/plan/guiding"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// mount is a mount with a guide camera on its stage, as a thing that moves and not as matrices: a pulse on one
// of its axes moves the star by an arrow in the camera's picture, a complex number in arcseconds.
type mount struct {
	kind kit.Corrections
	pose guiding.Pose
}

// pulse returns how the star moves in the picture when the mount's first and second axis are told to move by
// so many arcseconds of their own.
func (m mount) pulse(first, second float64) complex128 {
	switch m.kind {
	case kit.AxesCorrections: // azimuth moves the star by cos h along the horizon; the stage has turned the camera
		return complex(first*m.pose.Altitude.Cos(), second) * turned(m.pose.Stage)
	case kit.SkyCorrections: // right ascension by cos δ along the parallel; the camera angle counts
		return complex(first*m.pose.Declination.Cos(), second) * turned(m.pose.Camera)
	}
	return complex(first, second) // the mount has turned the command back by what the stage turned
}

func turned(a sky.Angle) complex128 { return cmplx.Rect(1, a.Radians()) }

// calibration is what a guider has learned from a pulse on each axis.
type calibration struct{ first, second complex128 }

// calibrate pulses both axes and sees where the star went, with errors of so much of the way.
func (m mount) calibrate(rng *rand.Rand, seen float64) calibration {
	wrong := func() complex128 { return 1 + complex(rng.NormFloat64(), rng.NormFloat64())*complex(seen, 0) }
	return calibration{m.pulse(1, 0) * wrong(), m.pulse(0, 1) * wrong()}
}

// command returns the pulses that would move the star by an arrow, by the calibration.
func (c calibration) command(arrow complex128) (first, second float64) {
	det := real(c.first)*imag(c.second) - imag(c.first)*real(c.second)
	return (real(arrow)*imag(c.second) - imag(arrow)*real(c.second)) / det,
		(real(c.first)*imag(arrow) - imag(c.first)*real(arrow)) / det
}

// guide guides for so many exposures by a calibration, each correction an exposure late, and returns the rms
// error in the last quarter. Each place of the star is measured with noise of so many arcseconds per axis; the
// star starts so far off. It stops early once the star has gone off the picture.
func (m mount) guide(rng *rand.Rand, by calibration, gain, noise, start float64, exposures int) float64 {
	const offThePicture = 1e6
	star := cmplx.Rect(start, 2*math.Pi*rng.Float64())
	seen, sum, n := star, 0.0, 0
	for k := range exposures {
		correction := seen * complex(-gain, 0)
		seen = star + complex(rng.NormFloat64(), rng.NormFloat64())*complex(noise, 0)
		star += m.pulse(by.command(correction))
		size := cmplx.Abs(star)
		if size > offThePicture {
			return size
		}
		if k >= exposures-exposures/4 {
			sum, n = sum+size*size, n+1
		}
	}
	return math.Sqrt(sum / float64(n))
}

// anyPose draws a pose that a night may have.
func anyPose(rng *rand.Rand) guiding.Pose {
	within := func(low, high float64) sky.Angle { return sky.Angle(low+(high-low)*rng.Float64()) * sky.Degree }
	return guiding.Pose{Stage: within(-180, 180), Camera: within(0, 360), Altitude: within(15, 82), Declination: within(-85, 85)}
}

// near draws a pose less far from another, as later in the same run.
func near(rng *rand.Rand, p guiding.Pose) guiding.Pose {
	q := anyPose(rng)
	part := sky.Angle(rng.Float64() * rng.Float64())
	return guiding.Pose{Stage: p.Stage + part*(q.Stage-p.Stage), Camera: p.Camera + part*(q.Camera-p.Camera).Signed(),
		Altitude: p.Altitude + part*(q.Altitude-p.Altitude), Declination: p.Declination + part*(q.Declination-p.Declination)}
}
