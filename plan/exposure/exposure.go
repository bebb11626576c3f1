// Package exposure says how long a sub should be: long enough that the noise of reading it out is lost in
// that of the sky, short enough for the stars, the run and the field.
//
// Everything here is a pure function. Light is counted in electrons of one pixel unbinned; brightness is V,
// in magnitudes, or in magnitudes per square second of arc. What sky and object send through a filter comes from
// package light; of single stars the colour is left out, and a filter is its width.
package exposure

import (
	"math"
	"time"

	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Light is how a telescope, a filter and a camera gather light. Efficiency is the share of the photons in the
// band at the aperture that become electrons.
type Light struct {
	AreaCM2      float64
	PerPixel     sky.Angle
	BandAngstrom float64
	Efficiency   float64
}

// LightOf returns the kit's main telescope and camera behind one of its filters, or the keys of the kit
// without which that is not known.
func LightOf(k kit.Kit, f kit.Filter) Figure[Light] {
	o := k.Optics
	return figure(Light{
		AreaCM2:      math.Pi / 4 * (o.ApertureMM*o.ApertureMM - o.ObstructionMM*o.ObstructionMM) / 100,
		PerPixel:     sky.Angle(k.ScaleArcsecPerPixel()) * sky.Arcsecond,
		BandAngstrom: f.BandwidthNM * 10,
		Efficiency:   k.Camera.QuantumEfficiency * o.Transmission,
	}, needs{
		{"optics.transmission", o.Transmission},
		{"camera.quantum_efficiency", k.Camera.QuantumEfficiency},
		{"subs.filter.bandwidth_nm", f.BandwidthNM},
	})
}

// StarElectronsPerS returns what a star of a V magnitude gives on the whole chip each second. The magnitude is
// that below the air; Arriving makes it of a catalogue's.
func (l Light) StarElectronsPerS(vMag float64) float64 {
	return framing.PhotonsAtMag0 * math.Pow(10, -0.4*vMag) * l.AreaCM2 * l.BandAngstrom * l.Efficiency
}

// PixelElectronsOf returns what a brightness in photons per second, cm² and square second of arc, below the air and
// through the filter, gives in one pixel each second.
func (l Light) PixelElectronsOf(photons float64) float64 {
	scale := l.PerPixel.Arcseconds()
	return photons * l.AreaCM2 * l.Efficiency * scale * scale
}

// DetectorPhotons returns the noise of dark current and of reading in subs of a filter, as the photons per second,
// cm² and square second of arc that would make as much; 0 where the kit does not give what it takes.
func DetectorPhotons(k kit.Kit, f kit.Filter) float64 {
	electrons := LightOf(k, f).Value.PixelElectronsOf(1)
	if electrons == 0 || f.Exposure <= 0 {
		return 0
	}
	read := k.Camera.ReadNoiseE
	return (k.Camera.DarkCurrentEPerS + read*read/f.Exposure.Seconds()) / electrons
}

// PixelsPerArcsec2 returns how many pixels cover a square second of arc; less than one behind short lenses.
func (l Light) PixelsPerArcsec2() float64 {
	scale := l.PerPixel.Arcseconds()
	return 1 / (scale * scale)
}

// Arriving returns how bright a magnitude, or a magnitude per square second of arc, is below the air at an
// airless altitude from 0° up; ok is false below the horizon.
func Arriving(vMag, extinctionMagPerAirmass float64, altitude sky.Angle) (mag float64, ok bool) {
	airmass, ok := sky.Airmass(altitude)
	return vMag + extinctionMagPerAirmass*airmass, ok
}

// longestSense is the length beyond which a sub has no sense in any night.
const longestSense = 24 * time.Hour

// lasting turns seconds into a duration; ok is false beyond longestSense.
func lasting(seconds float64) (d time.Duration, ok bool) {
	if !(seconds <= longestSense.Seconds()) {
		return 0, false
	}
	return time.Duration(seconds * float64(time.Second)), true
}
