package simulate

import (
	"math"
	"math/rand/v2"

	"duskhand/plan/framing"
)

// Frame is a light as the camera gives it.
type Frame struct {
	Shot          Shot
	Width, Height int
	Pixels        []uint16 // row by row in the order of the file
	scene         Scene
}

// Frame draws a shot. A frame of 26 million pixels takes about a second and 160 MB.
func (f *Field) Frame(shot Shot) Frame {
	light := canvas{f.Sensor.Width, f.Sensor.Height, make([]float32, f.Sensor.Width*f.Sensor.Height)}
	f.sky(light, shot)
	spot, poses := f.spot(), f.poses(shot)
	for _, star := range f.stars {
		each := f.electrons(star.rate, shot) / float64(len(poses))
		for _, p := range poses {
			spot.add(light, f.at(star.at, p), each)
		}
	}
	if shot.Trail {
		f.trail(light, shot, spot)
	}
	for _, hot := range f.hot {
		light.at[hot.y*light.width+hot.x] += float32(hot.rate * shot.Exposure.Seconds())
	}
	return Frame{shot, light.width, light.height, f.digitise(light, shot), f.Scene}
}

// canvas holds the electrons expected in each pixel.
type canvas struct {
	width, height int
	at            []float32
}

func (f *Field) sky(light canvas, shot Shot) {
	mean := f.SkyRate * shot.Exposure.Seconds()
	row := light.at[:light.width]
	for x := range row {
		row[x] = float32(mean * (1 + f.Gradient*(float64(x)/float64(light.width)-0.5)))
	}
	for y := 1; y < light.height; y++ {
		copy(light.at[y*light.width:], row)
	}
}

// trail draws a satellite from one edge to the other, of a brightness that stacking would have to reject.
func (f *Field) trail(light canvas, shot Shot, spot spot) {
	random := f.random(shot, streamTrail)
	w, h := float64(light.width), float64(light.height)
	from, to := framing.Pixel{Y: h * random.Float64()}, framing.Pixel{X: w, Y: h * random.Float64()}
	n := int(math.Hypot(to.X-from.X, to.Y-from.Y))
	each := 60 * math.Sqrt(f.pixelVariance(shot)) // electrons a pixel of length
	for i := range n {
		k := float64(i) / float64(n)
		spot.add(light, filePlace{from.X + k*(to.X-from.X), from.Y + k*(to.Y-from.Y)}, each)
	}
}

// digitise adds noise and makes ADU of electrons.
func (f *Field) digitise(light canvas, shot Shot) []uint16 {
	random := f.random(shot, streamNoise)
	pixels := make([]uint16, len(light.at))
	read := f.ReadNoise * f.ReadNoise
	for i, expected := range light.at {
		e := float64(expected)
		var electrons float64
		if e < fewElectrons {
			electrons = poisson(random, e) + f.ReadNoise*random.NormFloat64()
		} else {
			electrons = e + math.Sqrt(e+read)*random.NormFloat64()
		}
		pixels[i] = uint16(min(fullScale, max(0, math.Round(f.OffsetADU+electrons/f.ElectronsADU))))
	}
	return pixels
}

// fewElectrons is where counting statistics are near enough to normal.
const fewElectrons = 20

// poisson draws a count. Source: Knuth, The Art of Computer Programming, vol. 2, 3.4.1, algorithm Q.
func poisson(random *rand.Rand, mean float64) float64 {
	limit, product := math.Exp(-mean), random.Float64()
	n := 0.0
	for ; product > limit; n++ {
		product *= random.Float64()
	}
	return n
}
