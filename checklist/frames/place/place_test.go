package place_test

import (
	"context"
	"encoding/json"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/frames/place"
	"duskhand/checklist/frames/solve"
	"duskhand/checklist/subs"
	"duskhand/checklist/subs/survey"
	"duskhand/checklist/subs/testdata/simulate"
	"duskhand/plan"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/catalog"
)

// smallKit is the example's kit with a camera of 1400 × 1000 pixels of 4″: a field of 1.6°.
func smallKit() kit.Kit {
	k := kit.Example()
	k.Camera.Width, k.Camera.Height = 1400, 1000
	k.Camera.PixelUM = 4 * float64(sky.Arcsecond) * 1000 * k.Optics.FocalLengthMM
	return k
}

// lookingAt is a scene of that camera.
func lookingAt(centre sky.J2000, angle sky.Angle, mirrored bool) simulate.Scene {
	s := simulate.Small(3)
	s.Sensor = framing.Sensor{Width: 1400, Height: 1000, PerPixel: 4 * sky.Arcsecond, Mirrored: mirrored}
	s.Centre, s.CameraAngle, s.Deep, s.HotPixels = centre, angle, true, 50
	return s
}

// dusk is that of the example night, near enough.
var dusk = time.Date(2026, 12, 5, 11, 30, 0, 0, time.UTC)

func tonight(k kit.Kit) *plan.Night {
	return plan.NewNight(k, plan.Date{Year: 2026, Month: time.December, Day: 5})
}

// measured is a light as a good measurement finds it.
func measured(s simulate.Scene) place.Light {
	stars := simulate.NewField(s).Seen(simulate.Shot{Exposure: 2 * time.Minute})
	return place.Light{Header: subs.Header{Kind: subs.Light, BinX: 1, BinY: 1, Width: 1400, Height: 1000},
		Measured: &subs.Measured{Count: len(stars), Stars: stars, HFD: 2.6, Elongation: 1.1}}
}

func offset(from sky.J2000, east, north sky.Angle) sky.J2000 {
	return framing.NewTangentPlane(from).Sky(framing.PlanePoint{East: east, North: north})
}

// From the file to the place: the reader measures, places and says why not.
func TestAReaderPlacesWhatItMeasures(t *testing.T) {
	k := smallKit()
	target := k.Targets[0]
	centre := offset(target.Star.Place, 0.4*sky.Degree, -0.2*sky.Degree)
	path := filepath.Join(t.TempDir(), "light.fits")
	shot := simulate.Shot{Start: time.Date(2026, 12, 5, 14, 0, 0, 0, time.UTC), Exposure: 2 * time.Minute}
	require.NoError(t, simulate.NewField(lookingAt(centre, 37*sky.Degree, true)).Frame(shot).Save(path))
	var pointing place.Pointing
	read := place.Reading(survey.Reading(1, survey.MostPixels, ""), k, &pointing)

	look, err := read(context.Background(), path, false)
	require.NoError(t, err)
	assert.Nil(t, look.Placed, "nobody has said where to look")
	assert.Empty(t, look.Unplaced)

	pointing.Set(place.Of(checklist.Night{}, target, nil, nil))
	look, err = read(context.Background(), path, false)
	require.NoError(t, err)
	require.NotNil(t, look.Placed)
	assert.Equal(t, target.Name, look.Placed.Near)
	assert.Less(t, look.Placed.Centre().Direction().Separation(centre.Direction()).Arcseconds(), 2.0)
	assert.InDelta(t, 37, look.Placed.CameraAngleDeg, 0.01)
	assert.InDelta(t, 4, look.Placed.ScaleArcsec, 0.002)
	assert.True(t, look.Placed.Mirrored)

	_, err = os.Stat(path + place.SideEnding)
	require.ErrorIs(t, err, fs.ErrNotExist, "the kit does not ask for it")
	k.Watch.SideFiles = true
	_, err = place.Reading(survey.Reading(1, survey.MostPixels, ""), k, &pointing)(context.Background(), path, false)
	require.NoError(t, err)
	assert.FileExists(t, path+place.SideEnding)

	pointing.Set([]place.Sought{{Name: "elsewhere", Place: sky.J2000{RA: target.Star.Place.RA, Dec: 20 * sky.Degree}}})
	look, err = read(context.Background(), path, false)
	require.NoError(t, err)
	assert.Nil(t, look.Placed)
	assert.Equal(t, string(solve.NowhereNear), look.Unplaced)
}

// A frame at another star than the one that was meant says which it is, and how far off the middle.
func TestAFrameSaysWhichStarItIs(t *testing.T) {
	k := smallKit()
	night := tonight(k)
	sky0 := night.Stars(k.Axis, dusk.Add(-30*time.Minute))
	require.GreaterOrEqual(t, len(sky0.Fit), 4)
	meant, other := sky0.Fit[0].Star, sky0.Fit[3].Star
	light := measured(lookingAt(offset(other.Star.Place, 0.2*sky.Degree, 0.1*sky.Degree), 200*sky.Degree, false))
	sought := place.Of(checklist.Night{}, k.Targets[0], []catalog.Object{meant}, sky0)
	assert.Equal(t, meant.Name(), sought[0].Name)
	assert.Equal(t, k.Targets[0].Name, sought[1].Name)
	near, placed, err := place.Among(k, light, sought)
	require.NoError(t, err)
	assert.Equal(t, other.Name(), near.Name)
	at, ok := place.StarAt(*place.BodyOf(near.Name, placed), k.Stars.FaintestMag)
	require.True(t, ok)
	assert.Equal(t, other.ID, at.Star.ID)
	assert.InDelta(t, 0.2236, at.Off.Degrees(), 0.001, "√(0.2² + 0.1²)")
	_, ok = place.StarAt(checklist.PlacedBody{DecDeg: -89}, 1)
	assert.False(t, ok)
}

// The way to the target stands there without typing: moved so, the telescope looks where it should.
func TestAPlacedLightSaysHowFarOffTheTelescopeLooks(t *testing.T) {
	k := smallKit()
	night, target := tonight(k), k.Targets[0]
	target.Middle = kit.SkyOffset{East: 6 * sky.Arcminute}
	wanted := framing.Middle(target)
	now := dusk.Add(3 * time.Hour)
	centre := offset(wanted, -0.3*sky.Degree, 0.25*sky.Degree)
	axis := kit.Axis{Tilt: 4 * sky.Degree, Toward: 300 * sky.Degree}
	exposure, start := 60.0, now.Add(-2*time.Minute).UnixNano()
	n := checklist.Night{Arrived: []checklist.Arrived{{SubArrivedBody: checklist.SubArrivedBody{OursNs: &start, ExposureS: &exposure,
		Placed: &checklist.PlacedBody{RADeg: centre.RA.Degrees(), DecDeg: centre.Dec.Degrees(), CameraAngleDeg: 30, ScaleArcsec: 4}}}}}
	off, ok := place.OffOf(n, night, axis, target, now)
	require.True(t, ok)
	assert.Equal(t, now.Add(-90*time.Second), off.At)
	assert.InDelta(t, 0.3905, off.By.Degrees(), 0.001, "√(0.3² + 0.25²)")
	require.True(t, off.Nudgeable)
	where := func(p sky.J2000) sky.Direction {
		return night.Frame.Direction(night.Frame.Fix(sky.Star{Place: p}), now)
	}
	up := sky.MountAxis(axis.Tilt, axis.Toward)
	altitude := func(d sky.Direction) float64 { return 90 - d.Separation(up).Degrees() }
	assert.InDelta(t, altitude(where(wanted))-altitude(where(centre)), off.Nudge.Altitude.Degrees(), 1e-9)
	assert.Greater(t, off.Nudge.Azimuth.Abs().Degrees(), 0.1)
	assert.NotEqual(t, 30.0, off.CameraAngle.Degrees(), "at the target, not at the middle")
	assert.InDelta(t, 30, off.CameraAngle.Degrees(), 1)
	_, ok = place.OffOf(n, night, axis, k.Targets[len(k.Targets)-1], now)
	assert.False(t, ok, "it was sent elsewhere since")
	_, ok = place.OffOf(checklist.Night{}, night, axis, target, now)
	assert.False(t, ok)
}

// What a placement is survives the journal.
func TestAPlacementIsKeptWithItsFrame(t *testing.T) {
	body := checklist.SubArrivedBody{Path: "a.fits", Placed: &checklist.PlacedBody{Near: "M 42", RADeg: 83.8, DecDeg: -5.4, CameraAngleDeg: 12.5, Mirrored: true, StarsMatched: 40}}
	raw, err := json.Marshal(body)
	require.NoError(t, err)
	var back checklist.SubArrivedBody
	require.NoError(t, json.Unmarshal(raw, &back))
	assert.Equal(t, body, back)
	assert.Contains(t, string(raw), `"camera_angle_deg":12.5`)
	assert.Empty(t, back.Unplaced)
}
