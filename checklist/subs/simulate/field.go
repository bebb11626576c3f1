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
	for _, star := range deep.Near(s.Centre, sky.Angle(radius)*s.Sensor.PerPixel, 20) {
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

// at returns where a star stands at an instant of a shot.
func (f *Field) at(star framing.Pixel, shot Shot, t time.Time) filePlace {
	side := 1.0
	if f.Sensor.Mirrored {
		side = -1
	}
	sin, cos := math.Sincos(-side * float64(shot.turned(t)))
	x, y := star.X-f.Pivot.X, star.Y-f.Pivot.Y
	off := shot.moved(t)
	x, y = f.Pivot.X+cos*x-sin*y+off.X, f.Pivot.Y+sin*x+cos*y+off.Y
	if f.TopDown {
		y = -y
	}
	return filePlace{x + float64(f.Sensor.Width-1)/2, y + float64(f.Sensor.Height-1)/2}
}

// path returns places of a star evenly through the exposure, close enough for a smooth trail.
func (f *Field) path(star framing.Pixel, shot Shot) []filePlace {
	const spacing, most = 0.7, 200 // pixels; our choice
	first, last := f.at(star, shot, shot.Start), f.at(star, shot, shot.Start.Add(shot.Exposure))
	n := 1 + min(most, int(math.Hypot(last.x-first.x, last.y-first.y)/spacing))
	path := make([]filePlace, n)
	for i := range path {
		path[i] = f.at(star, shot, shot.Start.Add(shot.Exposure*time.Duration(2*i+1)/time.Duration(2*n)))
	}
	return path
}

// random returns a stream of its own for a shot.
func (f *Field) random(shot Shot, stream uint64) *rand.Rand {
	return rand.New(rand.NewPCG(f.Seed^uint64(shot.Start.UnixNano()), stream))
}
