package exposure

import "time"

// wishes answers what the moment asks for beyond the usual: a star that must not burn out, a signal to noise.
func (s sight) wishes(a *Advice, m Moment) {
	if m.Star != nil {
		a.StarFills = s.starFills(a.SkyEPerS, *m.Star)
	}
	if m.SignalToNoise > 0 && a.Signal.OK {
		a.SubsWanted = s.subsFor(m.SignalToNoise)
	}
}

// starFills is the sub in which a star of a catalogue's magnitude just fills its brightest pixel.
func (s sight) starFills(skyRate Figure[float64], mag float64) Figure[time.Duration] {
	n := append(s.fullWell(), need{"site.seeing_arcsec", float64(s.starWidth)})
	return unless(func() Figure[time.Duration] {
		if !skyRate.OK {
			return none[time.Duration]()
		}
		arriving, _ := Arriving(mag, s.kit.Site.ExtinctionMagPerAirmass, s.altitude)
		well := Well{s.kit.Camera.FullWellE, skyRate.Value + s.kit.Camera.DarkCurrentEPerS, s.starWidth}
		sub, ok := s.light.Value.SaturatesAfter(well, arriving)
		return Figure[time.Duration]{Value: sub, OK: ok}
	}, skyRate.Lacks, n.lacks())
}

// subsFor is how many subs of the kit's exposure give a signal to noise of the target's mean brightness over a
// square second of arc.
func (s sight) subsFor(signalToNoise float64) Figure[int] {
	subs, ok := s.pixel().SubsFor(signalToNoise, s.light.Value.PixelsPerArcsec2(), s.filter.Exposure)
	return Figure[int]{Value: subs, OK: ok}
}

// pixel is what a pixel gathers of the target's mean brightness.
func (s sight) pixel() Pixel {
	object := s.light.Value.PixelElectronsOf(s.view.Of(s.source).At(s.altitude))
	return Pixel{object, s.skyRate(), s.kit.Camera.DarkCurrentEPerS, s.kit.Camera.ReadNoiseE}
}
