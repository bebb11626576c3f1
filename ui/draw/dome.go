package draw

import (
	"math"

	"duskhand/sky"
	"duskhand/ui/theme"
)

// DomeValues says what a dome shows. Places are apparent or airless, as long as all are the same; what
// lies below the horizon is left out.
type DomeValues struct {
	Horizon func(azimuth sky.Angle) (altitude sky.Angle) // what hides the sky; nil for a flat horizon
	Stars   []DomeStar                                   // brightest first: where two meet the first shows
	Pair    []sky.Horizontal                             // joined by an arc of a great circle, in order
	Marks   []DomeMark                                   // the more important first
	Keyhole DomeRing                                     // none if its radius is 0
}

// DomeStar is one star.
type DomeStar struct {
	Place     sky.Horizontal
	Magnitude float64    // visual
	Label     string     // none if empty
	Role      theme.Role // theme.Ground for the usual one, by brightness
}

// DomeMarkKind is what a mark stands for.
type DomeMarkKind uint8

// The kinds of mark.
const (
	TargetMark DomeMarkKind = iota // ◇, X in ASCII
	MoonMark                       // ○, O in ASCII
)

// DomeMark is something in the sky that is not one of the stars.
type DomeMark struct {
	Place sky.Horizontal
	Kind  DomeMarkKind
	Label string
}

// DomeRing is a circle on the sky.
type DomeRing struct {
	Centre sky.Horizontal
	Radius sky.Angle // from the centre, up to 90°
}

// Dome draws the sky as one sees it lying on the back with the head to the north: the zenith in the
// middle, the horizon the rim, NORTH UP AND EAST LEFT. The projection is stereographic from the nadir,
// true to shapes; a circle on the sky, such as the keyhole, is a circle here.
//
// Stars are ● to magnitude 0.5, • to 1.5, · to 2.5 and a single dot beyond; those behind the horizon's
// profile are not drawn. Labels go where they cover nothing, or else only lines, or else are left out,
// the last given first.
//
// Valid: at least 7 columns and 5 rows; less draws nothing.
func Dome(area Area, charset Charset, v DomeValues) {
	if area.Width() < 7 || area.Height() < 5 {
		return
	}
	d := newDome(area, charset)
	d.drawRim()
	d.drawHorizon(v.Horizon)
	d.drawKeyhole(v.Keyhole)
	d.drawPair(v.Pair)
	d.drawMarks(v.Marks)
	d.drawStars(v.Stars, v.Horizon)
	for _, m := range v.Marks {
		d.label(m.Place, theme.Text, m.Label)
	}
	for _, s := range v.Stars {
		if s.Label != "" && !hidden(s.Place, v.Horizon) {
			d.label(s.Place, max(s.Role, theme.Text), s.Label)
		}
	}
	d.canvas.drawUnder()
}

type dome struct {
	sketch
	centre Point
	radius float64 // of the horizon, in dots
}

// newDome fits the circle into the area, leaving a row above and below and two columns at the sides
// for the letters of the compass.
func newDome(area Area, charset Charset) dome {
	s := newSketch(area, charset)
	across, down := s.canvas.Width()-4*dotsAcross, s.canvas.Height()-2*dotsDown
	return dome{
		sketch: s,
		centre: Point{float64(s.canvas.Width()-1) / 2, float64(s.canvas.Height()-1) / 2},
		radius: float64(min(across, down)-1) / 2,
	}
}

// point returns where p is drawn: r = tan(z/2) for the zenith distance z, with the horizon at 1
// (Snyder 1987, Map Projections, USGS Professional Paper 1395, eq. 21-4 seen from inside).
func (d dome) point(p sky.Horizontal) Point {
	r := d.radius * math.Tan((90*sky.Degree-p.Altitude).Radians()/2)
	return Point{d.centre.X - r*p.Azimuth.Sin(), d.centre.Y - r*p.Azimuth.Cos()} // east left, north up
}

// cell returns the column and row of p; ok is false below the horizon.
func (d dome) cell(p sky.Horizontal) (x, y int, ok bool) {
	if p.Altitude < 0 {
		return 0, 0, false
	}
	at := d.point(p)
	return int(at.X+0.5) / dotsAcross, int(at.Y+0.5) / dotsDown, true
}

// steps returns into how many pieces a full circle is cut so that each is about two dots long.
func (d dome) steps() int { return max(int(math.Pi*d.radius), 24) }

func (d dome) drawRim() {
	n := 2 * d.steps()
	for i := range n {
		azimuth := sky.Turn * sky.Angle(i) / sky.Angle(n)
		d.canvas.SetPoint(d.point(sky.Horizontal{Azimuth: azimuth}), theme.Faint)
	}
	left, right := int(d.centre.X-d.radius)/dotsAcross, int(d.centre.X+d.radius)/dotsAcross
	top, foot := int(d.centre.Y-d.radius)/dotsDown, int(d.centre.Y+d.radius)/dotsDown
	x, y := d.area.Width()/2, (d.area.Height()-1)/2
	d.area.PutRune(x, top-1, theme.Text, 'N')
	d.area.PutRune(x, foot+1, theme.Text, 'S')
	d.area.PutRune(left-2, y, theme.Text, 'E')
	d.area.PutRune(right+2, y, theme.Text, 'W')
	if x, y, _ := d.cell(sky.Horizontal{Altitude: 90 * sky.Degree}); !d.canvas.hasDots(x, y) {
		d.area.PutRune(x, y, theme.Faint, '+')
	}
}

func (d dome) drawHorizon(horizon func(sky.Angle) sky.Angle) {
	if horizon == nil {
		return
	}
	n := d.steps()
	profile := func(i int) Point {
		azimuth := sky.Turn * sky.Angle(i%n) / sky.Angle(n)
		return d.point(sky.Horizontal{Altitude: max(horizon(azimuth), 0), Azimuth: azimuth})
	}
	before := profile(0)
	for i := 1; i <= n; i++ {
		here := profile(i)
		d.canvas.Line(before, here, theme.Line)
		before = here
	}
}

// drawKeyhole dots the circle of directions at ring.Radius from its centre, which need not be near the
// zenith: the mount stands as it was put down.
func (d dome) drawKeyhole(ring DomeRing) {
	if ring.Radius <= 0 {
		return
	}
	axis := ring.Centre.Direction()
	across := perpendicular(axis)
	other := axis.Cross(across)
	n := d.steps()
	var before Point
	for i := range n {
		t := sky.Turn * sky.Angle(i) / sky.Angle(n)
		out := sky.Direction{}.Plus(t.Cos(), across).Plus(t.Sin(), other)
		p := sky.Direction{}.Plus(ring.Radius.Cos(), axis).Plus(ring.Radius.Sin(), out).Horizontal()
		here := d.point(p)
		if p.Altitude < 0 || (i > 0 && math.Hypot(here.X-before.X, here.Y-before.Y) < 2.5) {
			continue // at least two dots apart, or the ring looks like a line
		}
		d.canvas.SetPoint(here, theme.Line)
		before = here
	}
}

// perpendicular returns some direction square to d.
func perpendicular(d sky.Direction) sky.Direction {
	if math.Abs(d.Z) < 0.9 {
		return d.Cross(sky.Direction{Z: 1}).Unit()
	}
	return d.Cross(sky.Direction{X: 1}).Unit()
}

// drawPair joins the places by great circles: what the eye calls a straight line in the sky.
func (d dome) drawPair(places []sky.Horizontal) {
	const pieces = 24
	for i := 1; i < len(places); i++ {
		from, to := places[i-1].Direction(), places[i].Direction()
		if from.Plus(1, to).Length() < 1e-6 {
			continue // opposite places have no one arc between them
		}
		before := places[i-1]
		for k := 1; k <= pieces; k++ {
			t := float64(k) / pieces
			here := along(from, to, t)
			if before.Altitude >= 0 && here.Altitude >= 0 {
				d.canvas.Line(d.point(before), d.point(here), theme.Line)
			}
			before = here
		}
	}
}

// along returns the place at the fraction t of the arc between two directions.
func along(from, to sky.Direction, t float64) sky.Horizontal {
	whole := from.Separation(to)
	if whole == 0 {
		return from.Horizontal()
	}
	a, b := (whole * sky.Angle(1-t)).Sin(), (whole * sky.Angle(t)).Sin()
	return sky.Direction{}.Plus(a, from).Plus(b, to).Unit().Horizontal()
}
