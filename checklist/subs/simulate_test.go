package subs_test

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"github.com/astrogo/fitsio"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs"
	"duskhand/checklist/subs/testdata/simulate"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
)

var begin = time.Date(2026, 12, 5, 14, 0, 0, 0, time.UTC)

func shot() simulate.Shot {
	return simulate.Shot{Start: begin, Exposure: 3 * time.Minute, Filter: "Ha"}
}

// clear is a small scene without noise worth speaking of: what is drawn can be measured by adding up.
func clear() simulate.Scene {
	s := simulate.Small(1)
	s.HotPixels, s.LeastStars, s.SkyRate, s.ReadNoise = 0, 0, 0, 0
	return s
}

// centroid returns that of the light within 12 pixels of a place, and its sum, in ADU.
func centroid(f simulate.Frame, offset, x, y float64) (cx, cy, sum float64) {
	for dy := -12; dy <= 12; dy++ {
		for dx := -12; dx <= 12; dx++ {
			px, py := int(math.Round(x))+dx, int(math.Round(y))+dy
			v := float64(f.Pixels[py*f.Width+px]) - offset
			sum += v
			cx += v * float64(px)
			cy += v * float64(py)
		}
	}
	return cx / sum, cy / sum, sum
}

// Stars that are alone on the frame stand where the list says, as bright as it says.
func TestFrameShowsTheListedStars(t *testing.T) {
	for _, moffat := range []float64{0, 3.5} {
		scene := clear()
		scene.MoffatBeta = moffat
		field := simulate.NewField(scene)
		s := shot()
		s.Exposure = 20 * time.Second
		frame, checked := field.Frame(s), 0
		stars := field.Stars(s)
		for i, star := range stars {
			alone := star.X > 15 && star.Y > 15 && star.X < 984 && star.Y < 684 && star.Flux > 1e4 && !star.Saturated
			for j, other := range stars {
				alone = alone && (i == j || math.Hypot(other.X-star.X, other.Y-star.Y) > 30)
			}
			if !alone {
				continue
			}
			x, y, sum := centroid(frame, scene.OffsetADU, star.X, star.Y)
			assert.InDelta(t, star.X, x, 0.1) // photons, and the rounding of 625 pixels to whole ADU
			assert.InDelta(t, star.Y, y, 0.1)
			within := 0.05 // photons: 1.1 % at 1e4 ADU, more than four times over
			if moffat > 0 {
				within = 0.07 // and the wings beyond 12 pixels: (1 + (12/3)²)^−2.5 is a thousandth, the sampled core 2 %
			}
			assert.InDelta(t, 1, sum/star.Flux, within)
			checked++
		}
		assert.GreaterOrEqual(t, checked, 2)
	}
}

// The brightest star stands where the framing's own chip has it; rows from the top turn Y over and a mirror X.
func TestPlacesInTheFile(t *testing.T) {
	scene := clear()
	scene.CameraAngle = 30 * sky.Degree
	plain := simulate.NewField(scene).Stars(shot())[0]
	scene.TopDown = true
	over := simulate.NewField(scene).Stars(shot())[0]
	scene.TopDown, scene.Sensor.Mirrored = false, true
	mirrored := simulate.NewField(scene).Stars(shot())[0]
	assert.InDelta(t, 699-plain.Y, over.Y, 1e-9)
	assert.InDelta(t, plain.X, over.X, 1e-9)
	assert.InDelta(t, 999-plain.X, mirrored.X, 1e-9)
	assert.InDelta(t, plain.Y, mirrored.Y, 1e-9)

	scene.Sensor.Mirrored = false
	chip := framing.NewChip(scene.Sensor, scene.Centre, scene.CameraAngle)
	place := chip.Sky(framing.Pixel{X: plain.X - 499.5, Y: plain.Y - 349.5})
	// North of it, with up at 30° east of north, is to the right of up: anticlockwise is through east.
	north := sky.J2000{RA: place.RA, Dec: place.Dec + sky.Arcminute}
	p, ok := chip.Pixel(north)
	require.True(t, ok)
	assert.InDelta(t, 30, math.Atan2(p.X-(plain.X-499.5), p.Y-(plain.Y-349.5))*180/math.Pi, 1)
}

// A camera whose position angle grows by 2° stands as one that was put there: turning and angle have one sign,
// whatever the mirror and the order of rows.
func TestTurningIsTheCameraAngle(t *testing.T) {
	for _, mirrored := range []bool{false, true} {
		for _, topDown := range []bool{false, true} {
			scene := clear()
			scene.Sensor.Mirrored, scene.TopDown = mirrored, topDown
			s := shot()
			s.Turned = func(time.Time) sky.Angle { return 2 * sky.Degree }
			turned := simulate.NewField(scene).Stars(s)[0]
			scene.CameraAngle += 2 * sky.Degree
			put := simulate.NewField(scene).Stars(shot())[0]
			assert.InDelta(t, put.X, turned.X, 1e-6, "mirrored %v, top down %v", mirrored, topDown)
			assert.InDelta(t, put.Y, turned.Y, 1e-6)
			assert.Equal(t, mirrored == topDown, scene.Direct())
		}
	}
}

func TestTrailsWithinTheSub(t *testing.T) {
	field := simulate.NewField(clear())
	s := shot()
	s.Turned = simulate.Slow(20*sky.DegreePerHour, begin)
	stars := field.Stars(s)
	furthest := slices.MaxFunc(stars, func(a, b subs.Star) int {
		return int(math.Copysign(1, math.Hypot(a.X-499.5, a.Y-349.5)-math.Hypot(b.X-499.5, b.Y-349.5)))
	})
	r := math.Hypot(furthest.X-499.5, furthest.Y-349.5)
	trail := (1 * sky.Degree).Radians() * r                                                 // 20°/h for three minutes
	sigma := 2.8 / 2.3548                                                                   // of the seeing
	assert.InDelta(t, math.Hypot(1, trail/math.Sqrt(12)/sigma), furthest.Elongation, 0.001) // the arc is nearly straight
	across := math.Atan2(furthest.Y-349.5, furthest.X-499.5)*180/math.Pi + 90
	assert.InDelta(t, 0, math.Mod(furthest.Direction.Degrees()-across+450, 180)-90, 1, "square to the radius")
	s.Turned, s.Drift = nil, framing.Pixel{X: 100}
	for _, star := range field.Stars(s) {
		assert.InDelta(t, math.Hypot(1, 5/math.Sqrt(12)/sigma), star.Elongation, 1e-4) // 100 px/h for 3 min; 2.3548 is rounded
		assert.InDelta(t, 0, star.Direction.Degrees(), 1e-6)
	}
}

func TestFilesSayWhatTheShotWas(t *testing.T) {
	path := filepath.Join(t.TempDir(), "light.fits")
	scene := simulate.Small(4)
	frame := simulate.NewField(scene).Frame(shot())
	require.NoError(t, frame.Save(path))
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Zero(t, len(data)%2880, "whole blocks (FITS Standard 4.0, section 3.1)")
	file, err := fitsio.Open(bytes.NewReader(data))
	require.NoError(t, err)
	image := file.HDU(0).(fitsio.Image)
	for key, want := range map[string]any{
		"SIMPLE": true, "BITPIX": 16, "NAXIS": 2, "NAXIS1": 1000, "NAXIS2": 700, "BZERO": 32768, "BSCALE": 1,
		"DATE-OBS": "2026-12-05T14:00:00.000", "EXPTIME": 180.0, "FILTER": "Ha", "OBJECT": "Tarantula",
		"IMAGETYP": "LIGHT", "CCD-TEMP": -10.0, "XBINNING": 1, "YBINNING": 1,
	} {
		card := image.Header().Get(key)
		require.NotNil(t, card, key)
		assert.EqualValues(t, want, card.Value, key)
	}
	pixels := make([]int16, 1000*700)
	require.NoError(t, image.Read(&pixels))
	for i, v := range pixels {
		require.Equal(t, int(frame.Pixels[i]), int(v)+32768, "pixel %d", i)
	}
}

func TestSkyAndNoise(t *testing.T) {
	scene := simulate.Small(2)
	scene.StarRate, scene.HotPixels, scene.Gradient = 0, 0, 0.2
	frame := simulate.NewField(scene).Frame(shot())
	for x, want := range map[int]float64{50: 0.91, 500: 1, 950: 1.09} { // of the sky, at a gradient of 20 %
		var sum, square, n float64
		for y := range frame.Height {
			for dx := -5; dx <= 5; dx++ {
				v := float64(frame.Pixels[y*frame.Width+x+dx])
				sum, square, n = sum+v, square+v*v, n+1
			}
		}
		electrons := want * 1.5 * 180
		mean := sum / n
		assert.InDelta(t, 500+electrons/0.8, mean, 1.2) // five standard errors: 21 ADU over √7700
		assert.InDelta(t, math.Sqrt(electrons+9)/0.8, math.Sqrt(square/n-mean*mean), 0.9, "photons and read noise")
	}
}

func TestFaintSkyCountsPhotons(t *testing.T) {
	scene := simulate.Small(2)
	scene.StarRate, scene.HotPixels, scene.SkyRate, scene.ReadNoise, scene.ElectronsADU = 0, 0, 2.0/180, 0, 1
	frame := simulate.NewField(scene).Frame(shot())
	none := 0
	for _, v := range frame.Pixels {
		if v == 500 {
			none++
		}
	}
	assert.InDelta(t, math.Exp(-2), float64(none)/700000, 0.002) // Poisson's share of noughts; five σ
}

func TestTheSameSeedGivesTheSameNight(t *testing.T) {
	s := shot()
	s.Trail = true
	one, other := simulate.NewField(simulate.Small(5)), simulate.NewField(simulate.Small(5))
	assert.Equal(t, one.Frame(s).Pixels, other.Frame(s).Pixels)
	assert.Equal(t, one.Seen(s), other.Seen(s))
	assert.NotEqual(t, one.Seen(s), simulate.NewField(simulate.Small(6)).Seen(s))
	later := s
	later.Start = later.Start.Add(time.Minute)
	assert.NotEqual(t, one.Seen(s), one.Seen(later), "each light has noise of its own")
}

func TestCloudSaturationAndTrail(t *testing.T) {
	field := simulate.NewField(simulate.Small(7))
	s := shot()
	open := field.Seen(s)
	assert.True(t, open[0].Saturated, "the brightest of the field in three minutes")
	s.Cloud = 0.99
	assert.Less(t, len(field.Seen(s)), len(open)/2)
	s.Cloud, s.Trail = 0, true
	with := field.Frame(s)
	s.Trail = false
	without := field.Frame(s)
	changed := 0
	for i := range with.Pixels {
		if int(with.Pixels[i])-int(without.Pixels[i]) > 100 {
			changed++
		}
	}
	assert.Greater(t, changed, 1000, "a trail as long as the frame")
	assert.Less(t, changed, 20000)
}

func BenchmarkFrameOf26Megapixels(b *testing.B) {
	k := kit.Example()
	scene := simulate.NewScene(k, k.Targets[0], 0, 1)
	scene.Sensor.Width, scene.Sensor.Height = 6248, 4176
	field := simulate.NewField(scene)
	path := filepath.Join(b.TempDir(), "light.fits")
	for range b.N {
		require.NoError(b, field.Frame(shot()).Save(path))
	}
}

func BenchmarkSmallFrame(b *testing.B) {
	field := simulate.NewField(simulate.Small(1))
	for range b.N {
		field.Frame(shot())
	}
}
