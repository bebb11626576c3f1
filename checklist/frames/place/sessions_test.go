package place_test

import (
	"context"
	"flag"
	"math"
	"math/rand/v2"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/frames/place"
	"duskhand/checklist/subs/survey"
	"duskhand/checklist/subs/testdata/simulate"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// sweep makes the table of artificial lights longer: how many of each kind, and a crowd of 42,000 stars.
var sweep = flag.Int("sweep", 1, "how many times as many artificial lights")

// scored is what came of the lights of one kind.
type scored struct {
	lights, placed, wrong int
	size                  float64 // half-flux diameter over the true one, the worst ratio
	stars                 int     // in the last
	angle, centre         float64 // worst, degrees and seconds of arc
}

// kindOf is a kind of light: what it does to the scene, and to the pixels once they are there.
type kindOf struct {
	name    string
	scene   func(*simulate.Scene)
	shot    func(*simulate.Shot)
	spoil   func(r *rand.Rand, pixels []uint16, width, height int)
	unsized bool // the true diameter is not that of a Gaussian
	few     bool // it can not be placed, which is said
	rare    bool // it may not be placed, which is said
	long    bool // in the long table only
}

func kindsOfLight() []kindOf {
	turned := func(rate sky.Rate) func(*simulate.Shot) {
		return func(s *simulate.Shot) { s.Turned = simulate.Slow(rate, s.Start) }
	}
	return []kindOf{
		{name: "plain"},
		{name: "nebula", spoil: nebula},
		{name: "bloom", scene: func(s *simulate.Scene) { s.StarRate *= 2 }, spoil: bloom},
		{name: "bloom of every star known", scene: func(s *simulate.Scene) { s.StarRate *= 8 }, spoil: bloom, rare: true}, // all off by as much
		{name: "satellite", shot: func(s *simulate.Shot) { s.Trail = true }},
		{name: "hot pixels", scene: func(s *simulate.Scene) { s.HotPixels = 3000 }},
		{name: "moonlight with a slope", scene: func(s *simulate.Scene) { s.SkyRate, s.Gradient = 30, 0.8 }},
		{name: "donuts", scene: func(s *simulate.Scene) { s.FWHM = 16 }, spoil: donuts, unsized: true},
		{name: "drift", shot: func(s *simulate.Shot) { s.Drift = framing.Pixel{X: 90} }, unsized: true},
		{name: "wind", shot: func(s *simulate.Shot) { s.Drift = framing.Pixel{X: 60, Y: 140} }, unsized: true},
		{name: "field that turns", shot: turned(15 * sky.DegreePerHour), unsized: true},
		{name: "four stars", scene: func(s *simulate.Scene) { s.StarRate /= 3000; s.SkyRate = 8 }, few: true, unsized: true},
		{name: "42,000 stars", scene: func(s *simulate.Scene) { s.LeastStars, s.FaintestMade = 42000, 16 }, long: true, unsized: true},
	}
}

// Lights of the real sky with what spoils them: sizes are right where they can be, what is placed is placed right, and
// what is not says so.
func TestLightsOfEveryKindArePlacedRightOrNotAtAll(t *testing.T) {
	k := kit.Example()
	folder := t.TempDir()
	for _, kind := range kindsOfLight() {
		if kind.long && *sweep == 1 {
			continue
		}
		t.Run(kind.name, func(t *testing.T) {
			s := scored{size: 1}
			for seed := range uint64(*sweep) {
				s.add(t, kind, k, seed, folder)
			}
			t.Logf("%-24s placed %d of %d, wrong %d; diameter at worst %.2f of the true; %d stars; angle off by %.4f°, centre by %.2f″",
				kind.name, s.placed, s.lights, s.wrong, s.size, s.stars, s.angle, s.centre)
			assert.Zero(t, s.wrong)
			if kind.few {
				assert.Zero(t, s.placed)
				return
			}
			if !kind.rare {
				assert.GreaterOrEqual(t, 10*s.placed, 9*s.lights)
			}
			if !kind.unsized {
				assert.InDelta(t, 1, s.size, 0.12)
			}
		})
	}
}

func (s *scored) add(t *testing.T, kind kindOf, k kit.Kit, seed uint64, folder string) {
	scene := simulate.Small(seed)
	scene.Deep, scene.FWHM = true, 3
	scene.Sensor = framing.Sensor{Width: 2000, Height: 1500, PerPixel: sky.Angle(k.ScaleArcsecPerPixel()) * sky.Arcsecond, Mirrored: seed%2 == 1}
	r := rand.New(rand.NewPCG(seed, 15))
	scene.Centre.RA += sky.Angle(r.NormFloat64()) * 0.3 * sky.Degree
	scene.Centre.Dec += sky.Angle(r.NormFloat64()) * 0.2 * sky.Degree
	scene.CameraAngle = sky.Angle(360*r.Float64()) * sky.Degree
	if kind.scene != nil {
		kind.scene(&scene)
	}
	shot := simulate.Shot{Start: time.Date(2026, 12, 5, 13, 0, 0, 0, time.UTC), Exposure: 2 * time.Minute}
	if kind.shot != nil {
		kind.shot(&shot)
	}
	frame := simulate.NewField(scene).Frame(shot)
	if kind.spoil != nil {
		kind.spoil(r, frame.Pixels, frame.Width, frame.Height)
	}
	file := filepath.Join(folder, "light.fits")
	require.NoError(t, frame.Save(file))
	var pointing place.Pointing
	pointing.Set([]place.Sought{{Name: "Tarantula", Place: simulate.Small(0).Centre}})
	look, err := place.Reading(survey.Reading(1, survey.MostPixels, ""), k, &pointing)(context.Background(), file, false)
	require.NoError(t, err)
	s.lights, s.stars = s.lights+1, look.Measured.Count
	if ratio := look.Measured.HFD / scene.FWHM; math.Abs(math.Log(ratio)) > math.Abs(math.Log(s.size)) {
		s.size = ratio
	}
	if look.Placed == nil {
		require.NotEmpty(t, look.Unplaced)
		return
	}
	turned := sky.Angle(0)
	if shot.Turned != nil {
		turned = shot.Turned(shot.Start.Add(shot.Exposure / 2))
	}
	angle := (look.Placed.CameraAngle() - scene.CameraAngle - turned).Signed().Abs().Degrees()
	centre := look.Placed.Centre().Direction().Separation(scene.Centre.Direction()).Arcseconds()
	s.placed, s.angle, s.centre = s.placed+1, max(s.angle, angle), max(s.centre, centre)
	if angle > 0.05 || centre > 8 || look.Placed.Mirrored != scene.Sensor.Mirrored {
		s.wrong++
	}
}

// nebula adds bright lumps of many sizes, two to thirty times as large as stars.
func nebula(r *rand.Rand, pixels []uint16, width, height int) {
	for range 250 {
		x, y, radius, high := r.IntN(width), r.IntN(height), 4+40*r.Float64()*r.Float64(), 200+2500*r.Float64()*r.Float64()
		reach := int(3 * radius)
		for j := max(0, y-reach); j < min(height, y+reach); j++ {
			for i := max(0, x-reach); i < min(width, x+reach); i++ {
				d2 := float64((i-x)*(i-x) + (j-y)*(j-y))
				more := high * math.Exp(-d2/(2*radius*radius))
				pixels[j*width+i] = uint16(min(65535, float64(pixels[j*width+i])+more+math.Sqrt(more)*r.NormFloat64()))
			}
		}
	}
}

// bloom runs full pixels over along their columns.
func bloom(_ *rand.Rand, pixels []uint16, width, height int) {
	for x := range width {
		for y := 0; y < height; y++ {
			if pixels[y*width+x] < 65535 {
				continue
			}
			end := min(height, y+60)
			for ; y < end; y++ {
				pixels[y*width+x] = 65535
			}
		}
	}
}

// donuts takes the middle out of what is large: a shadow of a third of the width.
func donuts(_ *rand.Rand, pixels []uint16, width, height int) {
	was := make([]uint16, len(pixels))
	copy(was, pixels)
	const out = 5
	for y := out; y < height-out; y++ {
		for x := out; x < width-out; x++ {
			ring := (uint32(was[(y-out)*width+x]) + uint32(was[(y+out)*width+x]) + uint32(was[y*width+x-out]) + uint32(was[y*width+x+out])) / 4
			pixels[y*width+x] = uint16(ring)
		}
	}
}
