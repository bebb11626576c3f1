package simulate

import (
	"math"
	"math/rand/v2"
	"time"

	"duskhand/plan/framing"
	"duskhand/sky"
	"duskhand/sky/catalog/deep"
)

// Field is a scene with its stars looked up: make it once, and as many lights from it as wanted.
type Field struct {
	Scene
	stars []fieldStar
	hot   []hotPixel
}

type fieldStar struct {
	at   framing.Pixel // while nothing has turned or moved
	rate float64       // electrons a second
}

type hotPixel struct {
	x, y int
	rate float64 // electrons a second
}

// The streams of random numbers that one seed gives.
const (
	streamStars = iota + 1
	streamHot
	streamNoise
	streamCentroids
	streamTrail
)

// fieldMargin is how much further than the chip's corner stars are kept, for dithers. Our choice.
const fieldMargin = 1.15

// NewField returns the field of a scene.
func NewField(s Scene) *Field {
	f := &Field{Scene: s}
	radius := fieldMargin * s.Sensor.CornerPixels()
	chip := framing.NewChip(s.Sensor, s.Centre, s.CameraAngle)
	faintest := math.Inf(-1)
	for _, star := range s.catalogued(sky.Angle(radius) * s.Sensor.PerPixel) {
		if p, ok := chip.Pixel(star.Place); ok {
			f.stars = append(f.stars, fieldStar{p, s.rate(star.Magnitude)})
			faintest = max(faintest, star.Magnitude)
		}
	}
	f.fill(radius, max(9, faintest))
	random := rand.New(rand.NewPCG(s.Seed, streamHot))
	for range s.HotPixels {
		f.hot = append(f.hot, hotPixel{
			random.IntN(s.Sensor.Width), random.IntN(s.Sensor.Height), s.HotRate * math.Exp(random.NormFloat64()),
		})
	}
	return f
}

func (s Scene) catalogued(radius sky.Angle) []deep.Star {
	if s.Deep {
		return deep.All(s.Centre, radius)
	}
	return deep.Near(s.Centre, radius, 20)
}

// fill adds made-up stars fainter than the catalogue's faintest there. Star counts grow about twofold a
// magnitude at these ones, 10^(0.3 m) (common practice).
func (f *Field) fill(radius, brightest float64) {
	random := rand.New(rand.NewPCG(f.Seed, streamStars))
	const slope = 0.3
	span := math.Pow(10, slope*max(0, f.FaintestMade-brightest))
	for len(f.stars) < f.LeastStars {
		r, around := radius*math.Sqrt(random.Float64()), 2*math.Pi*random.Float64()
		magnitude := brightest + math.Log10(1+random.Float64()*(span-1))/slope
		at := framing.Pixel{X: r * math.Cos(around), Y: r * math.Sin(around)}
		f.stars = append(f.stars, fieldStar{at, f.rate(magnitude)})
	}
}

func (s Scene) rate(magnitude float64) float64 { return s.StarRate * math.Pow(10, -0.4*magnitude) }

// filePlace is a place in the coordinates of package subs.
type filePlace struct{ x, y float64 }

// pose is how the field lies on the chip at an instant.
type pose struct {
	sin, cos float64 // of the turn in the chip's axes, anticlockwise
	off      framing.Pixel
}

func (f *Field) pose(shot Shot, t time.Time) pose {
	side := 1.0
	if f.Sensor.Mirrored {
		side = -1
	}
	sin, cos := math.Sincos(-side * float64(shot.turned(t)))
	return pose{sin, cos, shot.moved(t)}
}

// at returns where a star stands in a pose.
func (f *Field) at(star framing.Pixel, p pose) filePlace {
	x, y := star.X-f.Pivot.X, star.Y-f.Pivot.Y
	x, y = f.Pivot.X+p.cos*x-p.sin*y+p.off.X, f.Pivot.Y+p.sin*x+p.cos*y+p.off.Y
	if f.TopDown {
		y = -y
	}
	return filePlace{x + float64(f.Sensor.Width-1)/2, y + float64(f.Sensor.Height-1)/2}
}

// poses returns poses evenly through the exposure, close enough for a smooth trail at the corners.
func (f *Field) poses(shot Shot) []pose {
	const spacing, most = 0.7, 200 // pixels; our choice
	first, last := f.pose(shot, shot.Start), f.pose(shot, shot.Start.Add(shot.Exposure))
	x, y := float64(f.Sensor.Width)/2, float64(f.Sensor.Height)/2
	longest := 0.0
	for _, corner := range []framing.Pixel{{X: x, Y: y}, {X: -x, Y: y}, {X: x, Y: -y}, {X: -x, Y: -y}} {
		a, b := f.at(corner, first), f.at(corner, last)
		longest = max(longest, math.Hypot(b.x-a.x, b.y-a.y))
	}
	poses := make([]pose, 1+min(most, int(longest/spacing)))
	for i := range poses {
		poses[i] = f.pose(shot, shot.Start.Add(shot.Exposure*time.Duration(2*i+1)/time.Duration(2*len(poses))))
	}
	return poses
}

// random returns a stream of its own for a shot.
func (f *Field) random(shot Shot, stream uint64) *rand.Rand {
	return rand.New(rand.NewPCG(f.Seed^uint64(shot.Start.UnixNano()), stream))
}
