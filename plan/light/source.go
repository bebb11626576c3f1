package light

import (
	"math"

	"duskhand/sky/catalog"
)

// Source is how an object shines: in all colours, with a V brightness in magnitudes per square second of arc, or in
// lines, or both.
type Source struct {
	Continuum  bool
	Colours    Colours
	SurfaceMag float64 // of the continuum, the mean over the object
	Lines      []LineLight
	Origin     Origin
}

// LineLight is a spectral line and its brightness above the air, in rayleigh.
type LineLight struct {
	At        Wavelength
	Rayleighs float64
}

// Origin is where a brightness comes from.
type Origin int

// The origins.
const (
	Catalogued Origin = iota // the catalogue's magnitude over its size
	Remembered               // a value for this object, by memory: good to a factor of two or so
	ByType                   // what objects of its type have as a rule: good to a factor of ten at best
)

// Text says the origin as a remark on a figure.
func (o Origin) Text() string {
	return [...]string{"by the catalogue", "by memory", "as its type has it as a rule"}[o]
}

// ByLines tells whether the object is a glowing gas.
func (s Source) ByLines() bool { return len(s.Lines) > 0 }

// Hα returns the brightness in that line, in rayleigh; 0 for what does not glow.
func (s Source) Hα() float64 {
	for _, line := range s.Lines {
		if line.At == hα {
			return line.Rayleighs
		}
	}
	return 0
}

// typical is what objects of a type look like as a rule: the colours of their continuum, its V brightness where the
// catalogue gives no mean, or the Hα of a gas in rayleigh, with what of it [O III] and [S II] have.
type typical struct {
	colours            Colours
	surfaceMag         float64
	rayleighs, o3, s2  float64
	whateverTheCatalog bool // its magnitude is not that of the light meant
}

// Stars of the disc, of old clusters and of young ones, and starlight on dust. Sources: colours as B − V of 0.8, 0.75,
// 0.3 and 0.1 go with others (memory).
var (
	discColours  = Colours{1.1, 0.8, 0, -0.55, -1.1}
	oldColours   = Colours{0.9, 0.75, 0, -0.5, -1.0}
	youngColours = Colours{0.1, 0.3, 0, -0.25, -0.5}
	dustColours  = Colours{-0.3, 0.1, 0, -0.15, -0.3}
)

// types has the defaults by type: orders of magnitude, of our choice. A dark nebula is seen by what it hides: the
// star clouds behind it.
var types = map[string]typical{
	"galaxy":            {colours: discColours, surfaceMag: 22.5},
	"galaxy group":      {colours: discColours, surfaceMag: 23.5},
	"open cluster":      {colours: youngColours, surfaceMag: 20.5},
	"globular cluster":  {colours: oldColours, surfaceMag: 20.5},
	"star cloud":        {colours: discColours, surfaceMag: 21},
	"double star":       {colours: youngColours, surfaceMag: 20.5, whateverTheCatalog: true},
	"asterism":          {colours: youngColours, surfaceMag: 20.5, whateverTheCatalog: true},
	"dark nebula":       {colours: discColours, surfaceMag: 22, whateverTheCatalog: true},
	"bright nebula":     {rayleighs: 50, o3: 0.2, s2: 0.2},
	"planetary nebula":  {rayleighs: 1000, o3: 1.5, s2: 0.05},
	"supernova remnant": {rayleighs: 50, o3: 0.8, s2: 0.6},
}

// reflection are the bright nebulae that shine by the light of stars on dust, and their V brightness where it is
// remembered. All by memory.
var reflection = map[string]float64{
	"M 78": 21, "NGC 1333": 22, "NGC 1555": 22, "NGC 1977": 21.5, "NGC 1999": 20.5, "NGC 2023": 21.5, "NGC 2071": 21.5,
	"NGC 2170": 22, "NGC 2261": 20.5, "NGC 2626": 22, "NGC 5367": 22, "NGC 6726": 21.5, "NGC 6729": 21, "NGC 6914": 22.5,
	"NGC 7023": 21.5, "NGC 7129": 22, "IC 59": 23, "IC 63": 22.5, "IC 349": 20, "IC 444": 23, "IC 2087": 23, "IC 2118": 23.5,
	"IC 2169": 22.5, "IC 2220": 22, "IC 2631": 22, "IC 4592": 23, "IC 4601": 22.5, "IC 4603": 22.5, "IC 4604": 22.5,
	"IC 4605": 22.5, "IC 4606": 22.5, "IC 4812": 22, "Sh2-136": 23.5, "Sh2-239": 23, "vdB 1": 23, "vdB 9": 23, "vdB 14": 23,
	"vdB 15": 23, "vdB 142": 23, "vdB 149": 23, "vdB 150": 23, "vdB 152": 23.5,
}

// glowing is the Hα of nebulae, in rayleigh, over the part that pictures are framed on, and what of it [O III] has.
// All by memory, and meant as orders of magnitude; surveys that would give more are WHAM (Haffner et al. 2003, ApJS
// 149, 405) and Finkbeiner 2003, ApJS 146, 407.
var glowing = map[string]struct{ rayleighs, o3 float64 }{
	"M 42": {1e4, 1}, "M 43": {3000, 0.3}, "M 8": {3000, 0.4}, "M 16": {1000, 0.3}, "M 17": {5000, 0.5}, "M 20": {1000, 0.2},
	"NGC 2070": {1e4, 1.5}, "NGC 3372": {4000, 0.5}, "NGC 346": {1000, 1.5}, "NGC 604": {1500, 0.6}, "NGC 2014": {1000, 1},
	"NGC 7000": {700, 0.1}, "IC 5070": {500, 0.1}, "IC 5068": {200, 0.1}, "NGC 2237": {700, 0.3}, "NGC 1499": {300, 0.05},
	"IC 1805": {300, 0.2}, "IC 1848": {250, 0.1}, "NGC 896": {600, 0.2}, "Sh2-276": {200, 0.05}, "IC 1318": {300, 0.05},
	"IC 1396": {150, 0.1}, "IC 434": {250, 0.05}, "NGC 2024": {500, 0.05}, "NGC 2264": {200, 0.1}, "NGC 281": {300, 0.2},
	"NGC 7822": {150, 0.3}, "IC 2944": {400, 0.3}, "NGC 6188": {400, 0.1}, "NGC 6334": {500, 0.1}, "NGC 6357": {1000, 0.3},
	"NGC 3576": {1000, 0.4}, "NGC 3603": {1000, 0.6}, "NGC 3324": {700, 0.3}, "NGC 2174": {400, 0.2}, "IC 2177": {150, 0.05},
	"IC 4628": {300, 0.1}, "IC 405": {150, 0.1}, "IC 410": {250, 0.3}, "NGC 7635": {300, 0.3}, "NGC 7380": {200, 0.2},
	"NGC 6888": {200, 0.8}, "NGC 2359": {150, 2}, "IC 5146": {200, 0.05}, "Sh2-264": {40, 0.05}, "Sh2-27": {60, 0.02},
	"Gum 12": {40, 0.05}, "Sh2-129": {30, 0.05}, "Sh2-240": {20, 0.3}, "Sh2-308": {10, 5}, "M 1": {1000, 1.5},
	"NGC 2244": {700, 0.3}, "NGC 1893": {250, 0.3}, // clusters that nobody frames without their nebulae
	"NGC 6960": {150, 1.5}, "NGC 6992": {200, 1.5}, "Sh2-103": {100, 1}, "IC 443": {200, 0.3}, "Vela SNR": {30, 1},
}

// Lines of a gas. The companions of [O III] and [N II] have a third of them, and Hβ 1/2.86 of Hα (case B, 10⁴ K):
// Osterbrock & Ferland 2006. What [N II] and, unless a type says otherwise, [S II] have of Hα is our choice.
const (
	hα         Wavelength = 656.28
	hβ         Wavelength = 486.13
	o3, o3Weak Wavelength = 500.68, 495.89
	n2, n2Weak Wavelength = 658.34, 654.80
	s2         Wavelength = 672.4

	hαOverHβ   = 2.86
	strongWeak = 2.98
	n2Share    = 0.3
)

// SourceOf returns how an object of the catalogue shines. What the catalogue does not know shines like a galaxy.
func SourceOf(o catalog.Object) Source {
	if mag, known := reflection[o.ID]; known {
		return Source{Continuum: true, Colours: dustColours, SurfaceMag: mag, Origin: Remembered}
	}
	usual, known := types[o.Type]
	if !known {
		usual = types["galaxy"]
	}
	if gas, known := glowing[o.ID]; known {
		if usual.rayleighs == 0 { // a cluster in its nebula
			usual = types["bright nebula"]
		}
		usual.rayleighs, usual.o3 = gas.rayleighs, gas.o3
		return Source{Lines: gasLines(usual), Origin: Remembered}
	}
	if usual.rayleighs > 0 {
		return Source{Lines: gasLines(usual), Origin: ByType}
	}
	s := Source{Continuum: true, Colours: usual.colours, SurfaceMag: usual.surfaceMag, Origin: ByType}
	if mag, ok := MeanSurface(o); ok && !usual.whateverTheCatalog {
		s.SurfaceMag, s.Origin = mag, Catalogued
	}
	return s
}

func gasLines(t typical) []LineLight {
	r := t.rayleighs
	return []LineLight{{hα, r}, {hβ, r / hαOverHβ}, {o3, r * t.o3}, {o3Weak, r * t.o3 / strongWeak},
		{n2, r * n2Share}, {n2Weak, r * n2Share / strongWeak}, {s2, r * t.s2}}
}

// MeanSurface returns how bright an object of the catalogue is on average over its ellipse, in V magnitudes per
// square second of arc; ok is false where the catalogue lacks its magnitude or size. What has no short axis is round.
func MeanSurface(o catalog.Object) (vMag float64, ok bool) {
	minor := o.MinorArcmin
	if !minor.OK {
		minor = o.MajorArcmin
	}
	if !o.Magnitude.OK || !minor.OK || minor.Value <= 0 {
		return 0, false
	}
	return MeanSurfaceMag(o.Magnitude.Value, o.MajorArcmin.Value, minor.Value), true
}

// MeanSurfaceMag returns how bright an object is on average over its ellipse, in magnitudes per square second
// of arc, from the magnitude of all its light and its axes. What matters in a picture is often fainter: the
// light is gathered towards the middle.
func MeanSurfaceMag(vMag, majorArcmin, minorArcmin float64) float64 {
	arcsec2 := math.Pi / 4 * majorArcmin * minorArcmin * 3600
	return vMag + 2.5*math.Log10(arcsec2)
}
