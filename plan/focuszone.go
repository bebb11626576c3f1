package plan

import (
	"math"

	"duskhand/plan/kit"
)

// Telescope is what focus depends on. TubeLengthMM carries the focus and grows by the share
// TubeExpansionPerK of itself with each kelvin.
type Telescope struct {
	Name                      string
	ApertureMM, FocalLengthMM float64
	TubeLengthMM              float64
	TubeExpansionPerK         float64
}

// MainTelescope returns the kit's main telescope.
func MainTelescope(o kit.Optics) Telescope {
	return Telescope{"main telescope", o.ApertureMM, o.FocalLengthMM, o.TubeLengthMM, o.TubeExpansionPerK}
}

// GuideTelescope returns the kit's guide telescope; ok is false when there is none. Its tube is taken to
// be of the main one's material and as long as its focal length.
func GuideTelescope(o kit.Optics) (guide Telescope, ok bool) {
	if o.GuideFocalLengthMM == 0 {
		return Telescope{}, false
	}
	return Telescope{"guide telescope", o.GuideApertureMM, o.GuideFocalLengthMM, o.GuideFocalLengthMM, o.TubeExpansionPerK}, true
}

// FocusWavelengthUM is the green light, in µm, that the focus zone is counted in: 0.55.
const FocusWavelengthUM = 0.55

// CriticalFocusZoneUM returns the whole depth within which the camera may stand with no loss that shows,
// in µm, half of it to either side of the best focus: 4.88·λ·N², with λ in µm and the focal ratio N.
//
// Source: common practice; f/6 and 0.55 µm give 96.6 µm.
func CriticalFocusZoneUM(focalRatio, wavelengthUM float64) float64 {
	return 4.88 * wavelengthUM * focalRatio * focalRatio
}

// ZoneUM returns the telescope's critical focus zone in green light.
func (t Telescope) ZoneUM() float64 {
	return CriticalFocusZoneUM(t.FocalLengthMM/t.ApertureMM, FocusWavelengthUM)
}

// DriftUM returns by how much the tube is longer now than when it was focused, in µm: α·L·ΔT; negative
// when it has cooled and so grown shorter.
//
// Error:  lenses and mirrors drift too, up to as much again; a refractor's own drift is to be measured.
// Source: the project's handbook, section 8.
func (t Telescope) DriftUM(focusedC, nowC float64) float64 {
	return t.perKelvinUM() * (nowC - focusedC)
}

func (t Telescope) perKelvinUM() float64 { return t.TubeExpansionPerK * t.TubeLengthMM * 1000 }

// FocusUsed returns which share of half the zone the drift has used up: 0 just focused, 1 time to focus
// again, and more after that.
func (t Telescope) FocusUsed(focusedC, nowC float64) float64 {
	return math.Abs(t.DriftUM(focusedC, nowC)) / (t.ZoneUM() / 2)
}

// Refocus is the range of temperatures in which the focus holds.
type Refocus struct{ BelowC, AboveC, ChangeK float64 }

// RefocusAt returns at which temperatures the drift will have used up half the zone, for a telescope
// focused at focusedC; ok is false when its tube does not grow at all.
func (t Telescope) RefocusAt(focusedC float64) (r Refocus, ok bool) {
	if !(t.perKelvinUM() > 0) {
		return Refocus{}, false
	}
	change := t.ZoneUM() / 2 / t.perKelvinUM()
	return Refocus{BelowC: focusedC - change, AboveC: focusedC + change, ChangeK: change}, true
}
