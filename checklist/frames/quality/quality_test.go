package quality_test

import (
	"context"
	"math"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/frames/place"
	"duskhand/checklist/frames/quality"
	"duskhand/checklist/subs"
	"duskhand/checklist/subs/survey"
	"duskhand/checklist/subs/testdata/simulate"
	"duskhand/plan"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
)

var from = time.Date(2026, 12, 5, 13, 0, 0, 0, time.UTC)

func course() *plan.Course {
	k := kit.Example()
	return plan.NewNight(k, plan.Date{Year: 2026, Month: time.December, Day: 5}).Course(k.Targets[0], k.Axis)
}

// night is a run of lights three minutes apart; change makes each what it is.
func night(n int, change func(i int, at time.Time, a *checklist.Arrived)) checklist.Night {
	night := checklist.Night{Runs: []checklist.Run{{Start: from, Open: true}}}
	for i := range n {
		at := from.Add(time.Duration(i) * 3 * time.Minute)
		ns, exposure := at.UnixNano(), 120.0
		a := checklist.Arrived{At: at, SubArrivedBody: checklist.SubArrivedBody{Path: at.String(), Kind: "light", Filter: "L", OursNs: &ns, ExposureS: &exposure,
			Measured: &checklist.MeasuredBody{HFD: 3, Elongation: 1.05, NinthsPx: []float64{3, 3, 3, 3, 3, 3, 3, 3, 3}}}}
		change(i, at, &a)
		night.Arrived = append(night.Arrived, a)
	}
	return night
}

func kinds(n checklist.Night, k kit.Kit) map[quality.Kind]quality.Finding {
	found := map[quality.Kind]quality.Finding{}
	for _, f := range quality.Of(n, k, course()) {
		found[f.Kind] = f
	}
	return found
}

func TestGoodLightsSayNothing(t *testing.T) {
	assert.Empty(t, quality.Of(night(8, func(int, time.Time, *checklist.Arrived) {}), kit.Example(), course()))
	assert.Empty(t, quality.Of(checklist.Night{}, kit.Example(), nil))
}

func TestALeaningChipAndABentFieldAreTold(t *testing.T) {
	for name, c := range map[string]struct {
		ninths []float64
		want   quality.Finding
	}{
		"larger at the right":         {[]float64{3, 3.5, 4, 3, 3.5, 4, 3, 3.5, 4}, quality.Finding{Kind: quality.Tilted, Edge: quality.Right, Share: 1 / 3.5}},
		"larger at the first row":     {[]float64{5, 5, 5, 4, 4, 4, 3, 3, 3}, quality.Finding{Kind: quality.Tilted, Edge: quality.FirstRow, Share: 0.5}},
		"larger in the corners":       {[]float64{4, 3.3, 4, 3.3, 3, 3.3, 4, 3.3, 4}, quality.Finding{Kind: quality.Curved, Share: 1.0 / 3}},
		"one ninth without a measure": {[]float64{5, 5, 5, 4, 0, 4, 3, 3, 3}, quality.Finding{}},
	} {
		t.Run(name, func(t *testing.T) {
			found := kinds(night(6, func(_ int, _ time.Time, a *checklist.Arrived) { a.Measured.NinthsPx = c.ninths }), kit.Example())
			if c.want.Kind == "" {
				assert.Empty(t, found)
				return
			}
			f := found[c.want.Kind]
			assert.Equal(t, c.want.Edge, f.Edge)
			assert.InDelta(t, c.want.Share, f.Share, 1e-9)
			assert.Equal(t, 5, f.Lights)
		})
	}
	// One light of five that is even is enough to say nothing: seeing is not the optics.
	assert.Empty(t, kinds(night(6, func(i int, _ time.Time, a *checklist.Arrived) {
		if i != 4 {
			a.Measured.NinthsPx = []float64{3, 3.5, 4, 3, 3.5, 4, 3, 3.5, 4}
		}
	}), kit.Example()))
}

// Stars that are long along the altitude of the mount, or along right ascension, are told apart, in pictures that lie
// mirrored too.
func TestElongationIsToldByTheAxisThatItLiesAlong(t *testing.T) {
	c := course()
	for name, want := range map[string]quality.Along{"altitude": quality.Altitude, "azimuth": quality.Azimuth, "declination": quality.Declination, "right ascension": quality.RightAscension} {
		for _, mirrored := range []bool{false, true} {
			found := kinds(night(6, func(_ int, at time.Time, a *checklist.Arrived) {
				up := c.OfJ2000(c.FieldAngle(at.Add(time.Minute)))
				long := map[quality.Along]sky.Angle{quality.Altitude: up, quality.Azimuth: up + 90*sky.Degree, quality.Declination: 0, quality.RightAscension: 90 * sky.Degree}[want]
				const camera = 33 * sky.Degree
				direction := long - camera + 90*sky.Degree
				if mirrored {
					direction = camera + 90*sky.Degree - long
				}
				a.Placed = &checklist.PlacedBody{CameraAngleDeg: camera.Degrees(), Mirrored: mirrored}
				a.Measured.Elongation, a.Measured.DirectionDeg = 1.5, direction.Wrapped().Degrees()
			}), kit.Example())
			assert.Equal(t, want, found[quality.Elongated].Along, "%s, mirrored %v", name, mirrored)
			assert.InDelta(t, 1.5, found[quality.Elongated].Share, 1e-9)
		}
	}
	// The same direction on the chip in all lights while the camera turns is the optics': none of these.
	assert.Empty(t, kinds(night(6, func(i int, _ time.Time, a *checklist.Arrived) {
		a.Placed = &checklist.PlacedBody{CameraAngleDeg: float64(20 * i)}
		a.Measured.Elongation, a.Measured.DirectionDeg = 1.5, 40
	}), kit.Example()))
}

func TestDithersThatHardlyMoveAndPixelsThatAreFullAreTold(t *testing.T) {
	k := kit.Example()
	k.Subs.DitherEvery = 2
	moved := func(by float64) checklist.Night {
		return night(14, func(i int, _ time.Time, a *checklist.Arrived) {
			x, y := by*float64(i/2), 0.1*float64(i%2)
			a.Turning = &checklist.TurningBody{MovedXPx: &x, MovedYPx: &y}
		})
	}
	assert.InDelta(t, 0.6, kinds(moved(0.6), k)[quality.SmallDithers].Pixels, 0.1)
	assert.Empty(t, kinds(moved(5), k))
	k.Subs.DitherEvery = 0
	assert.Empty(t, kinds(moved(0.6), k))

	full := kinds(night(5, func(_ int, _ time.Time, a *checklist.Arrived) {
		a.Measured.Saturated = 0.002
		a.Measured.Colours = []checklist.ColourBody{{Colour: "R"}, {Colour: "G", Saturated: 0.003}, {Colour: "B", Saturated: 0.001}}
	}), k)[quality.Saturates]
	assert.InDelta(t, 0.002, full.Share, 1e-12)
	assert.Equal(t, "G", full.Colour)
}

// From pixels: the sky of artificial lights, of a plain chip and of a colour chip's cells alike, is found to 0.15
// magnitudes without knowing what the camera adds.
func TestTheSkysBrightnessIsFound(t *testing.T) {
	k := kit.Example()
	k.Camera.GainEPerADU, k.Camera.ReadNoiseE = 0.8, 3 // as the scene has them
	for _, mosaic := range []subs.Mosaic{"", "RGGB"} {
		scene := simulate.Small(5)
		scene.Deep, scene.SkyRate = true, 2.5
		scene.Sensor.PerPixel = sky.Angle(k.ScaleArcsecPerPixel()) * sky.Arcsecond
		scene.Sensor.Width, scene.Sensor.Height, scene.FWHM = 1800, 1400, 5
		scene.Centre = framing.Middle(k.Targets[0])
		file := filepath.Join(t.TempDir(), "light.fits")
		require.NoError(t, simulate.NewField(scene).Frame(simulate.Shot{Start: from, Exposure: time.Minute}).Save(file))
		var pointing place.Pointing
		pointing.Set([]place.Sought{{Name: "Tarantula", Place: scene.Centre}})
		look, err := place.Reading(survey.Reading(1, survey.MostPixels, mosaic), k, &pointing)(context.Background(), file, false)
		require.NoError(t, err)
		require.NotNil(t, look.Placed, look.Unplaced)
		m := look.Measured
		a := checklist.Arrived{SubArrivedBody: checklist.SubArrivedBody{Placed: look.Placed, Measured: &checklist.MeasuredBody{Noise: m.Noise}}}
		got, ok := quality.SkyBrightness(a, k)
		require.True(t, ok)
		scale := k.ScaleArcsecPerPixel()
		want := -2.5 * math.Log10(scene.SkyRate/(scale*scale)/scene.StarRate)
		t.Logf("mosaic %q: %.2f for %.2f, by %d stars", mosaic, got, want, look.Placed.StarsMatched)
		assert.InDelta(t, want, got, 0.15)
	}
}
