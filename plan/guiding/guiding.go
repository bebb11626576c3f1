// Package guiding tells how far a calibration of the guiding has aged, whether guiding by it still brings the
// star back, and what kind of mount it is by what its corrections did. The guide camera rides on the
// derotator.
package guiding

import (
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Pose is what a calibration depends on, at one instant: the mechanical angle of the derotator, the camera
// angle (position angle), and the guide star's altitude about the mount's own axis and declination. Which
// pole the camera angle and the declination are counted from does not matter, as long as it is always the
// same one.
type Pose struct{ Stage, Camera, Altitude, Declination sky.Angle }

// Aged is what lies between a calibration and an instant. Angle is ε, between the directions in which the
// camera saw the corrections move and those in which they move now, (−180°, 180°]; Scale is ρ, by how much
// more the first of the mount's two axes moves the star than it did, against the other, above 0.
type Aged struct {
	Angle sky.Angle
	Scale float64
}

// Fresh is a calibration that was made just now.
func Fresh() Aged { return Aged{Scale: 1} }

// nearestToPole keeps the scale finite where the first axis ceases to move the star.
const nearestToPole = 0.1 * sky.Degree

// Since returns how a calibration made in one pose has aged in another, for one kind of mount.
//
//	turned  nothing changes: the mount turns its corrections with the stage
//	axes    ε is what the stage turned, ρ is cos h / cos h of the calibration: azimuth moves the star by cos h
//	sky     ε is what the camera angle turned, ρ is cos δ / cos δ of the calibration: right ascension
//
// Source: own derivation; that mounts with a derotator of their own turn corrections is common practice.
func Since(kind kit.Corrections, calibrated, now Pose) Aged {
	switch kind {
	case kit.AxesCorrections:
		return Aged{(now.Stage - calibrated.Stage).Signed(), ratio(now.Altitude, calibrated.Altitude)}
	case kit.SkyCorrections:
		return Aged{(now.Camera - calibrated.Camera).Signed(), ratio(now.Declination, calibrated.Declination)}
	}
	return Fresh()
}

func ratio(now, then sky.Angle) float64 {
	least := nearestToPole.Sin()
	return max(now.Cos(), least) / max(then.Cos(), least)
}
