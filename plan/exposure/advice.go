package exposure

import (
	"slices"
	"time"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/plan/light"
	"duskhand/sky"
)

// Moment is when the shutter opens, and what is known by then. Until is when the target's window closes;
// Reading where the derotator stands, nil if nobody knows; StarWidth the full width at half maximum of the
// stars as measured this night, 0 for what the kit says, wider by the airmass.
type Moment struct {
	At, Until time.Time
	Reading   *sky.Angle
	StarWidth sky.Angle

	Star          *float64 // V magnitude, as in catalogues, of a star that must not burn out; nil for none
	SignalToNoise float64  // wanted of the target, over a square second of arc; 0 for none
}

// Advice is what can be said of one filter's subs at a moment. Each figure stands alone: what the kit does not
// give takes away only the figures that need it.
type Advice struct {
	Filter kit.Filter
	Share  float64 // of the noise that reading may add, the kit's

	Sky          Figure[Sky]           // at the target
	SkyEPerS     Figure[float64]       // electrons each second in a pixel, of that sky
	Shortest     Figure[time.Duration] // sub under that sky
	ShortestDark Figure[time.Duration] // sub under the moonless sky overhead
	ReadNoise    Figure[float64]       // share that reading adds to the noise of the kit's exposure
	WellShare    Figure[float64]       // of the full well that sky and dark current fill in it
	Saturates    Figure[float64]       // V magnitude, as in catalogues, of the star that just fills a pixel in it
	StarFills    Figure[time.Duration] // sub in which the moment's star just fills a pixel
	SubsWanted   Figure[int]           // of the kit's exposure, for the signal to noise that the moment wants
	Signal       Figure[Signal]        // of the target's mean brightness, in the subs that the kit wants
	MoonTakes    Figure[float64]       // share of what a minute is worth without it
	Longest      LongestSub
}

// Signal is how well an even patch of light shows in a sum of subs.
type Signal struct {
	Source               light.Source
	Subs                 int
	PerPixel, PerArcsec2 float64 // signal to noise
}

// Advise returns the advice for each filter that is wanted of the target of course c, in the kit's order.
func Advise(n *plan.Night, c *plan.Course, m Moment) []Advice {
	place, moon := c.Place(m.At), n.Frame.Moon(m.At)
	shines := light.SourceOf(c.Target.Object)
	here := SkyAt(c.Kit.Site, n.Frame, place, m.At)
	longest := Longest(c, plan.Span{From: m.At, To: m.Until}, m.Reading)
	var all []Advice
	for _, f := range c.Kit.Subs.Wanted() {
		s := sight{kit: c.Kit, target: c.Target, filter: f, altitude: place.Altitude, sky: here,
			light: LightOf(c.Kit, f), starWidth: m.StarWidth, view: light.Through(f, c.Kit.Site), source: shines}
		moonlight := moonlightAt(c.Kit.Site, moon, place)
		s.twilit = s.view.Twilit(n.Frame.Sun(m.At).Altitude)
		s.moonlit = s.view.Moonlit(s.view.Under(moonlight), place.Altitude, moonlight.Separation)
		if s.starWidth == 0 {
			s.starWidth = light.SeeingAt(sky.Angle(c.Kit.Site.SeeingArcsec)*sky.Arcsecond, place.Altitude, s.view.Band.Middle())
		}
		a := s.advice()
		a.Longest = longest
		s.wishes(&a, m)
		all = append(all, a)
	}
	return all
}

// sight is a target through a filter at an instant.
type sight struct {
	kit       kit.Kit
	target    kit.Target
	filter    kit.Filter
	altitude  sky.Angle
	starWidth sky.Angle
	sky       Figure[Sky]
	light     Figure[Light]
	view      *light.View
	source    light.Source
	twilit    float64 // what twilight adds to the sky
	moonlit   float64 // what the Moon adds to the sky, as package light counts it
}

func (s sight) advice() Advice {
	a := Advice{Filter: s.filter, Share: s.kit.Subs.ReadNoiseShare, Sky: s.sky}
	a.SkyEPerS = s.pixelRate()
	a.Shortest = s.shortest(a.SkyEPerS)
	a.ShortestDark = s.shortest(s.zenithRate())
	a.ReadNoise = s.given(a.SkyEPerS, s.readNoise(), func(background float64) Figure[float64] {
		return figure(ReadNoiseShare(s.kit.Camera.ReadNoiseE, background, s.filter.Exposure), nil)
	})
	a.WellShare = s.given(a.SkyEPerS, s.fullWell(), func(background float64) Figure[float64] {
		return figure(background*s.filter.Exposure.Seconds()/s.kit.Camera.FullWellE, nil)
	})
	a.Saturates = s.saturates(a.SkyEPerS)
	a.Signal, a.MoonTakes = s.signal(), s.moonTakes()
	return a
}

func (s sight) readNoise() needs { return needs{{"camera.read_noise_e", s.kit.Camera.ReadNoiseE}} }
func (s sight) fullWell() needs  { return needs{{"camera.full_well_e", s.kit.Camera.FullWellE}} }

// pixelRate is the sky at the target in electrons.
func (s sight) pixelRate() Figure[float64] {
	return unless(func() Figure[float64] {
		if !s.sky.OK {
			return none[float64]()
		}
		return figure(s.skyRate(), nil)
	}, s.sky.Lacks, s.light.Lacks)
}

// skyRate is the sky in a pixel, with Moon and twilight.
func (s sight) skyRate() float64 {
	return s.light.Value.PixelElectronsOf(s.view.Moonless(s.altitude) + s.moonlit + s.twilit)
}

// moonTakes is which share of a minute's worth the Moon takes.
func (s sight) moonTakes() Figure[float64] {
	if !s.sky.OK || s.target.Object.ID == "" {
		return Figure[float64]{Lacks: s.sky.Lacks}
	}
	p := light.NewProspect(s.view, s.source, s.kit.Site, DetectorPhotons(s.kit, s.filter))
	moonless := p.Worth(s.altitude, s.twilit)
	if moonless == 0 {
		return none[float64]()
	}
	return figure(1-p.Worth(s.altitude, s.moonlit+s.twilit)/moonless, nil)
}

// zenithRate is the moonless sky overhead in electrons; it needs no extinction.
func (s sight) zenithRate() Figure[float64] {
	n := needs{{"site.sky_mag_per_arcsec2", s.kit.Site.SkyMagPerArcsec2}}
	return unless(func() Figure[float64] {
		return figure(s.light.Value.PixelElectronsOf(s.view.Moonless(90*sky.Degree)), nil)
	}, n.lacks(), s.light.Lacks)
}

// given makes an answer of the background, sky and dark current in electrons each second, unless something is
// lacking.
func (s sight) given(skyRate Figure[float64], n needs, answer func(background float64) Figure[float64]) Figure[float64] {
	return unless(func() Figure[float64] {
		if !skyRate.OK {
			return none[float64]()
		}
		return answer(skyRate.Value + s.kit.Camera.DarkCurrentEPerS)
	}, skyRate.Lacks, n.lacks())
}

func (s sight) shortest(skyRate Figure[float64]) Figure[time.Duration] {
	return unless(func() Figure[time.Duration] {
		if !skyRate.OK {
			return none[time.Duration]()
		}
		background := skyRate.Value + s.kit.Camera.DarkCurrentEPerS
		sub, ok := ShortestSub(s.kit.Camera.ReadNoiseE, background, s.kit.Subs.ReadNoiseShare)
		return Figure[time.Duration]{Value: sub, OK: ok}
	}, skyRate.Lacks, s.readNoise().lacks())
}

func (s sight) saturates(skyRate Figure[float64]) Figure[float64] {
	n := append(s.fullWell(), need{"site.seeing_arcsec", float64(s.starWidth)})
	return s.given(skyRate, n, func(background float64) Figure[float64] {
		mag, ok := s.light.Value.SaturatesAt(Well{s.kit.Camera.FullWellE, background, s.starWidth}, s.filter.Exposure)
		dimmed, _ := Arriving(0, s.kit.Site.ExtinctionMagPerAirmass, s.altitude)
		return Figure[float64]{Value: mag - dimmed, OK: ok}
	})
}

// signal is that of an object of the catalogue: what it sends on average, or as its type does.
func (s sight) signal() Figure[Signal] {
	if s.target.Object.ID == "" || !s.sky.OK && len(s.sky.Lacks) == 0 {
		return none[Signal]()
	}
	return unless(func() Figure[Signal] {
		p := s.pixel()
		n, t := s.filter.Count, s.filter.Exposure
		return figure(Signal{s.source, n, p.SignalToNoise(1, n, t), p.SignalToNoise(s.light.Value.PixelsPerArcsec2(), n, t)}, nil)
	}, s.sky.Lacks, s.light.Lacks, s.readNoise().lacks())
}

// Lacks returns the keys of the kit that would complete the advice, each once.
func (a Advice) Lacks() []string {
	var keys []string
	for _, more := range [][]string{a.Sky.Lacks, a.SkyEPerS.Lacks, a.Shortest.Lacks, a.ShortestDark.Lacks, a.ReadNoise.Lacks,
		a.WellShare.Lacks, a.Saturates.Lacks, a.Signal.Lacks, a.MoonTakes.Lacks} {
		for _, key := range more {
			if !slices.Contains(keys, key) {
				keys = append(keys, key)
			}
		}
	}
	return keys
}
