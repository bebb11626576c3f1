package command_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs/testdata/simulate"
	"duskhand/sky"
	"duskhand/ui/command"
)

// solvedOf is what the tests read of the JSON.
type solvedOf struct {
	Frames []struct {
		File     string
		Solved   bool
		Why      *string
		RA       *float64 `json:"ra_deg"`
		Dec      *float64 `json:"dec_deg"`
		Angle    *float64 `json:"camera_angle_deg"`
		Scale    *float64 `json:"scale_arcsec_per_px"`
		Mirrored *bool
		Matched  *int     `json:"stars_matched"`
		Error    *float64 `json:"angle_error_deg"`
		Seconds  float64
	}
}

func (s *shell) solve(args ...string) (got solvedOf, code int) {
	s.t.Helper()
	code = s.run("", append([]string{"solve", "--json"}, args...)...)
	require.NoError(s.t, json.Unmarshal([]byte(s.out), &got), s.err)
	return got, code
}

// wideField is a light of a field of 1.1° × 0.8° near NGC 2070.
func wideField(t *testing.T, path string, change func(s *simulate.Scene)) simulate.Scene {
	t.Helper()
	scene := simulate.Small(21)
	scene.Sensor.Width, scene.Sensor.Height, scene.Deep = 2000, 1400, true
	scene.CameraAngle, scene.Object, scene.LeastStars = 33*sky.Degree, "NGC 2070 panel 1", 400
	scene.Centre.Dec += 0.4 * sky.Degree
	if change != nil {
		change(&scene)
	}
	frame := simulate.NewField(scene).Frame(simulate.Shot{Start: time.Date(2026, 12, 5, 14, 0, 0, 0, time.UTC), Exposure: time.Minute, Filter: "L"})
	require.NoError(t, frame.Save(path))
	return scene
}

func TestSolveSaysWhereFramesLook(t *testing.T) {
	s := newShell(t)
	s.ownKit("pixel_um = 3.76", "pixel_um = 4.6", "width_px = 6248", "width_px = 2000", "height_px = 4176", "height_px = 1400") // 1.977″ for 2″
	for _, c := range []struct {
		name    string
		change  func(s *simulate.Scene)
		angle   float64
		mirror  bool
		options []string
	}{
		{"as seen, by OBJECT", nil, 33, false, nil},
		// The picture's up is the last row: in a file from the top growing rows point the other way, and mirror it.
		{"from the top", func(s *simulate.Scene) { s.TopDown = true }, 213, true, nil},
		{"mirrored, near a place", func(s *simulate.Scene) { s.Sensor.Mirrored, s.Object = true, "" }, 33, true, []string{"--near", "85.9 -69.5"}},
		{"mirrored and from the top, near a name", func(s *simulate.Scene) { s.Sensor.Mirrored, s.TopDown, s.Object = true, true, "nowhere" }, 213, false, []string{"--near", "Tarantula Nebula"}},
		{"seven degrees off", func(s *simulate.Scene) { s.Centre.Dec += 7 * sky.Degree }, 33, false, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(s.home, "light.fits")
			scene := wideField(t, path, c.change)
			got, code := s.solve(append([]string{path}, c.options...)...)
			require.Equal(t, command.Done, code, s.err)
			require.Len(t, got.Frames, 1)
			f := got.Frames[0]
			require.True(t, f.Solved)
			assert.Nil(t, f.Why)
			assert.Equal(t, path, f.File)
			place := sky.J2000{RA: sky.Angle(*f.RA) * sky.Degree, Dec: sky.Angle(*f.Dec) * sky.Degree}
			assert.Less(t, place.Direction().Separation(scene.Centre.Direction()).Arcseconds(), 0.5, "a quarter of a pixel")
			assert.InDelta(t, c.angle, *f.Angle, 0.01)
			assert.InDelta(t, 2, *f.Scale, 0.0005)
			assert.Equal(t, c.mirror, *f.Mirrored)
			assert.Greater(t, *f.Matched, 15)
			assert.InDelta(t, 0, *f.Error, 0.005)
			require.Equal(t, command.Done, s.run("", append([]string{"solve", path}, c.options...)...))
			assert.Contains(t, s.out, "light.fits  RA ")
		})
	}
}

func TestSolveSaysWhyNot(t *testing.T) {
	s := newShell(t)
	require.Equal(t, command.WrongUse, s.run("", "solve", "a.fits"))
	assert.Contains(t, s.err, "needs a kit")
	s.ownKit("pixel_um = 3.76", "pixel_um = 4.6")
	require.Equal(t, command.WrongUse, s.run("", "solve"))
	require.Equal(t, command.WrongUse, s.run("", "solve", "--near", "400 10", "a.fits"))
	assert.Contains(t, s.err, "from 0 to 360")
	require.Equal(t, command.WrongUse, s.run("", "solve", "--near", "Nothing Of The Kind", "a.fits"))

	good, nameless, dark := filepath.Join(s.home, "good.fits"), filepath.Join(s.home, "nameless.fits"), filepath.Join(s.home, "dark.fits")
	wideField(t, good, nil)
	wideField(t, nameless, func(s *simulate.Scene) { s.Object = "" })
	wideField(t, dark, func(s *simulate.Scene) { s.StarRate = 0 })
	text := filepath.Join(s.home, "text.fits")
	require.NoError(t, os.WriteFile(text, []byte("no frame"), 0o600))
	got, code := s.solve(good, nameless, dark, text, filepath.Join(s.home, "missing.fits"))
	assert.Equal(t, command.Failed, code)
	assert.Contains(t, s.err, "4 of 5 could not be placed")
	require.Len(t, got.Frames, 5)
	assert.True(t, got.Frames[0].Solved)
	for i, why := range []string{"", "names no OBJECT", "it takes 4 to tell", "END card", "looking at missing.fits"} {
		if f := got.Frames[i]; i > 0 {
			assert.False(t, f.Solved)
			require.NotNil(t, f.Why)
			assert.Contains(t, *f.Why, why)
			assert.Nil(t, f.RA)
			assert.Nil(t, f.Matched)
		}
	}
	// Elsewhere: a field on the other side of the sky from where it should look.
	got, code = s.solve(good, "--near", "264 10")
	assert.Equal(t, command.Failed, code)
	require.NotNil(t, got.Frames[0].Why)
	assert.Contains(t, *got.Frames[0].Why, "within 10°")
}

// A cut-out of a photographic plate says its scale, and is refused by that and not by cloud.
func TestSolveTellsACutOutOfAnotherScale(t *testing.T) {
	s := newShell(t)
	s.ownKit("pixel_um = 3.76", "pixel_um = 4.6") // 1.977″
	good, plate := filepath.Join(s.home, "good.fits"), filepath.Join(s.home, "plate.fits")
	wideField(t, good, func(s *simulate.Scene) { s.StarRate = 0 })
	frame, err := os.ReadFile(good)
	require.NoError(t, err)
	end := bytes.Index(frame, []byte("END     "))
	require.LessOrEqual(t, end%2880+3*80, 2880, "room for two cards more")
	copy(frame[end:], fmt.Sprintf("%-80s%-80s%-80s", "PLTSCALE= 67.20", "XPIXELSZ= 25.28", "END"))
	require.NoError(t, os.WriteFile(plate, frame, 0o600))
	got, code := s.solve(good, plate)
	require.Equal(t, command.Failed, code)
	assert.Contains(t, *got.Frames[0].Why, "it takes 4 to tell")
	assert.Contains(t, *got.Frames[1].Why, "by its header a pixel covers 1.70″, by the kit 1.98″")
}
