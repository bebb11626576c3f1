package measure_test

import (
	"math"
	"math/rand/v2"

	"duskhand/sky"
)

// picture is an image in memory, made for a test.
type picture struct {
	width, height int
	values        []float32
	top, step     float64
}

func (p *picture) Size() (width, height int) { return p.width, p.height }
func (p *picture) Span(x, y int, values []float32) {
	copy(values, p.values[y*p.width+x:][:len(values)])
}
func (p *picture) Top() float64  { return p.top }
func (p *picture) Step() float64 { return p.step }

// spot is a star to draw: Gaussian, or with beta the profile of Moffat 1969, A&A 3, 455. hfd is that of
// the light, before pixels take it in. ratio squeezes it across angle and stretches it along, to the same
// area.
type spot struct {
	x, y, flux float64
	hfd, beta  float64
	ratio      float64
	angle      sky.Angle // of the long axis, from +X towards +Y
}

const readNoise = 5 // ADU; a gain of one electron per ADU gives the rest

// blank returns a picture of an even sky without noise yet.
func blank(width, height int, level float64) *picture {
	p := &picture{width: width, height: height, values: make([]float32, width*height), top: 65535, step: 1}
	for i := range p.values {
		p.values[i] = float32(level)
	}
	return p
}

// draw adds a star, integrated over the pixels by points 7 × 7, in wings and large ones by one.
func (p *picture) draw(s spot) {
	reach := 2 * s.hfd * math.Sqrt(max(s.ratio, 1)) // of a Gaussian's light 2⁻¹⁶ is outside
	if s.beta > 0 {
		reach = 14 * s.hfd
	}
	share := s.density()
	for y := max(int(s.y-reach), 0); y <= min(int(s.y+reach), p.height-1); y++ {
		for x := max(int(s.x-reach), 0); x <= min(int(s.x+reach), p.width-1); x++ {
			sum, n := 0.0, 7
			if s.hfd > 12 || math.Hypot(float64(x)-s.x, float64(y)-s.y) > 2*s.hfd*math.Sqrt(max(s.ratio, 1)) {
				n = 1
			}
			for i := range n * n {
				sum += share(float64(x)+(float64(i%n)+0.5)/float64(n)-0.5-s.x, float64(y)+(float64(i/n)+0.5)/float64(n)-0.5-s.y)
			}
			p.values[y*p.width+x] += float32(s.flux * sum / float64(n*n))
		}
	}
}

// density returns the part of the star's light per pixel at an offset from its centre.
//
// Half of the light of a Gaussian lies within σ√(2 ln 2); of a Moffat profile, whose encircled part is
// 1 − (1 + r²/α²)^(1−β), within α√(2^(1/(β−1)) − 1).
func (s spot) density() func(dx, dy float64) float64 {
	stretch := math.Sqrt(max(s.ratio, 1))
	cos, sin := s.angle.Cos(), s.angle.Sin()
	square := func(dx, dy float64) float64 {
		along, across := (dx*cos+dy*sin)/stretch, (dy*cos-dx*sin)*stretch
		return along*along + across*across
	}
	if s.beta == 0 {
		variance := s.hfd * s.hfd / (8 * math.Ln2)
		return func(dx, dy float64) float64 {
			return math.Exp(-square(dx, dy)/(2*variance)) / (2 * math.Pi * variance)
		}
	}
	alpha2 := s.hfd * s.hfd / 4 / (math.Pow(2, 1/(s.beta-1)) - 1)
	return func(dx, dy float64) float64 {
		return (s.beta - 1) / (math.Pi * alpha2) * math.Pow(1+square(dx, dy)/alpha2, -s.beta)
	}
}

// expose adds noise and makes whole numbers within the scale, as a camera does.
func (p *picture) expose(random *rand.Rand) *picture {
	for i, v := range p.values {
		noisy := float64(v) + random.NormFloat64()*math.Sqrt(max(float64(v), 0)+readNoise*readNoise)
		p.values[i] = float32(math.Round(min(max(noisy, 0), p.top)))
	}
	return p
}

// scatter returns n stars like one, on a grid with room for each, each at its own place in its pixel.
func (p *picture) scatter(like spot, room int, random *rand.Rand) []spot {
	var stars []spot
	for y := room; y < p.height-room/2; y += room {
		for x := room; x < p.width-room/2; x += room {
			s := like
			s.x, s.y = float64(x)+random.Float64()-0.5, float64(y)+random.Float64()-0.5
			p.draw(s)
			stars = append(stars, s)
		}
	}
	return stars
}

func seeded(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 2026)) }
