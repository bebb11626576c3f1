package light

import (
	"math"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// Gain returns how fast the square of the signal to noise grows, per second, cm² and square second of arc, of an
// object's photons over a background that adds noise only. The object's own photons count in the noise.
//
// Source: the CCD equation, Howell, Handbook of CCD Astronomy, ch. 4.
func Gain(object, background float64) float64 {
	if object <= 0 {
		return 0
	}
	return object * object / (object + background)
}

// Prospect is what can be hoped for of an object through a view.
type Prospect struct {
	View     *View
	Seen     Seen
	Suits    float64 // what the filter gives of what one made for such light would, 0 to 1
	detector float64
	best     float64
}

// NewProspect returns the prospect of a source through a view. detector is the noise of dark current and of reading,
// as photons that would make as much; 0 leaves it out.
func NewProspect(v *View, s Source, site kit.Site, detector float64) Prospect {
	p := Prospect{View: v, Seen: v.Of(s), detector: detector}
	p.best = p.gain(90*sky.Degree, 0)
	p.Suits = p.suits(s, site)
	return p
}

func (p Prospect) gain(altitude sky.Angle, moonlit float64) float64 {
	return Gain(p.Seen.At(altitude), p.View.Moonless(altitude)+moonlit+p.detector)
}

// Worth returns what a minute is worth at an airless altitude while the Moon adds so many photons to the sky there,
// against one at the zenith without Moon: the rates at which the square of the signal to noise grows. An object that
// sends nothing through the filter is worth nothing.
func (p Prospect) Worth(altitude sky.Angle, moonlit float64) float64 {
	if p.best == 0 {
		return 0
	}
	return p.gain(altitude, moonlit) / p.best
}

// suits compares a filter with those made for the other kind of light: a line filter on starlight with a usual
// luminance, a broad one on a glowing gas with the better of a usual Hα and a usual [O III]. A filter of the object's
// own kind suits it, whatever its width, if it lets anything through.
func (p Prospect) suits(s Source, site kit.Site) float64 {
	isLine := p.View.Filter.Kind == kit.LineFilter
	switch {
	case p.best == 0:
		return 0
	case s.ByLines() == isLine:
		return 1
	}
	others := []kit.Filter{{Kind: kit.LineFilter, CentreNM: float64(hα)}, {Kind: kit.LineFilter, CentreNM: float64(o3)}}
	if isLine {
		others = []kit.Filter{{Kind: kit.Broad, CentreNM: float64(middleOfV)}}
	}
	reference := 0.0
	for _, other := range others {
		v := Through(other, site)
		reference = math.Max(reference, Prospect{View: v, Seen: v.Of(s), detector: p.detector}.gain(90*sky.Degree, 0))
	}
	return math.Min(1, p.best/reference)
}
