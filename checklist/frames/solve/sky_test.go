package solve_test

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"

	"duskhand/checklist/frames/solve"
	"duskhand/checklist/subs"
	"duskhand/plan/framing"
	"duskhand/sky"
	"duskhand/sky/catalog/deep"
)

// truth is where an artificial frame looks.
type truth struct {
	centre   sky.J2000
	angle    sky.Angle
	scale    sky.Angle // of a pixel
	mirrored bool
	inLayer  int // stars of the layer on the chip
}

// camera is a chip with a telescope: 1.6 : 1, 2,400 pixels wide.
type camera struct{ field sky.Angle }

const across, down = 2400, 1600

func (c camera) scale() sky.Angle { return c.field / across }

// faults is what an artificial list has beside the layer's stars, or instead of them.
type faults struct {
	missing float64 // part of the layer's stars
	extra   float64 // fainter stars for each of the layer's that falls on the chip
	lumps   int     // bright ones that are none, in a heap
}

// ordinary is what a frame of an ordinary field is like.
var ordinary = faults{missing: 0.1, extra: 6, lumps: 3}

// listOf returns the stars of a frame: the layer's with 26 years of proper motion, colours that change the order of
// brightness, distortion, centroids off by what they are, some missing, and fainter stars that the layer lacks.
func listOf(r *rand.Rand, c camera, of faults) (solve.Frame, truth) {
	return listAt(r, c, of, anywhere(r))
}

func listAt(r *rand.Rand, c camera, of faults, centre sky.J2000) (solve.Frame, truth) {
	t := truth{centre: centre, angle: sky.Angle(360*r.Float64()) * sky.Degree,
		scale: c.scale() * sky.Angle(1+0.06*(r.Float64()-0.5)), mirrored: r.IntN(2) == 1}
	chip := framing.NewChip(framing.Sensor{Width: across, Height: down, PerPixel: t.scale, Mirrored: t.mirrored}, t.centre, t.angle)
	bend := 0.002 * (r.Float64() - 0.5) / (across * across / 4) // up to a tenth of a percent at the edge
	var stars []subs.Star
	add := func(p framing.Pixel, magnitude float64) {
		far := 1 + bend*(p.X*p.X+p.Y*p.Y)
		stars = append(stars, subs.Star{X: p.X*far + (across-1)/2.0 + 0.2*r.NormFloat64(), Y: p.Y*far + (down-1)/2.0 + 0.2*r.NormFloat64(),
			Flux: math.Pow(10, -0.4*(magnitude+0.35*r.NormFloat64()-20)), HFD: 3})
	}
	faintest := 9.0
	for _, s := range deep.All(t.centre, t.scale*across) {
		p, ok := chip.Pixel(moved(r, s.Place))
		if !ok || math.Abs(p.X) > across/2 || math.Abs(p.Y) > down/2 {
			continue
		}
		t.inLayer++
		faintest = max(faintest, s.Magnitude)
		if r.Float64() >= of.missing {
			add(p, s.Magnitude)
		}
	}
	inside := func() framing.Pixel {
		return framing.Pixel{X: across * (r.Float64() - 0.5), Y: down * (r.Float64() - 0.5)}
	}
	for range int(of.extra * float64(t.inLayer)) { // twice as many a magnitude
		add(inside(), faintest-0.5+3*math.Sqrt(r.Float64()))
	}
	heap := inside()
	for range of.lumps {
		add(framing.Pixel{X: heap.X + 200*r.NormFloat64(), Y: heap.Y + 200*r.NormFloat64()}, 7+4*r.Float64())
	}
	stars = slices.DeleteFunc(stars, func(s subs.Star) bool { return s.X < 0 || s.Y < 0 || s.X > across-1 || s.Y > down-1 })
	slices.SortFunc(stars, func(a, b subs.Star) int { return cmp.Compare(b.Flux, a.Flux) })
	return solve.Frame{Stars: stars, Width: across, Height: down}, t
}

// moved moves a star by 26 years of proper motion: half move less than 10 mas a year, one in a hundred more than
// ten times that (Høg et al. 2000, near enough).
func moved(r *rand.Rand, place sky.J2000) sky.J2000 {
	way := 26 * 0.010 * math.Exp(r.NormFloat64()) * float64(sky.Arcsecond)
	around := 2 * math.Pi * r.Float64()
	return framing.NewTangentPlane(place).Sky(framing.PlanePoint{East: sky.Angle(way * math.Cos(around)), North: sky.Angle(way * math.Sin(around))})
}

func anywhere(r *rand.Rand) sky.J2000 {
	return sky.J2000{RA: sky.Angle(2 * math.Pi * r.Float64()), Dec: sky.Angle(math.Asin(2*r.Float64() - 1))}
}

// off returns a place up to so far from another.
func off(r *rand.Rand, place sky.J2000, by sky.Angle) sky.J2000 {
	d, around := math.Tan(float64(by))*math.Sqrt(r.Float64()), 2*math.Pi*r.Float64()
	return framing.NewTangentPlane(place).Sky(framing.PlanePoint{East: sky.Angle(d * math.Cos(around)), North: sky.Angle(d * math.Sin(around))})
}

// wrong tells whether a placement is not the truth: the middle off by more than a fiftieth of the field, or the
// angle or mirror another.
func (t truth) wrong(p solve.Placement, c camera) bool {
	return t.apart(p) > c.field/50 || t.turned(p) > sky.Degree || p.Mirrored != t.mirrored
}

func (t truth) apart(p solve.Placement) sky.Angle {
	return t.centre.Direction().Separation(p.Centre.Direction())
}

func (t truth) turned(p solve.Placement) sky.Angle { return (p.CameraAngle - t.angle).Signed().Abs() }
