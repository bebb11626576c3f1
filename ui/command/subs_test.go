package command_test

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs/testdata/simulate"
	"duskhand/plan"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/ui/command"
)

// smallCamera changes the example's kit to the camera of simulate.Small: 1000 × 700 pixels of 2″, which at
// 480 mm are 480 mm × 2/206265 = 4.6542 µm wide.
func smallCamera() []string {
	return []string{"pixel_um = 3.76", "pixel_um = 4.6542", "width_px = 6248", "width_px = 1000", "height_px = 4176", "height_px = 700"}
}

// shots writes lights of the example night's first target into a folder, three minutes each, and returns its
// course.
func shots(t *testing.T, folder string, n int, change func(i int, c *plan.Course, from time.Time, s *simulate.Shot)) *plan.Course {
	t.Helper()
	k := kit.Example()
	night := plan.NewNight(k, plan.Date{Year: 2026, Month: time.December, Day: 5})
	course := night.Course(k.Targets[0], k.Axis)
	from := night.Dark[0].From.Add(time.Hour).Truncate(time.Second)
	scene := simulate.Small(4)
	scene.Object = k.Targets[0].Name
	field := simulate.NewField(scene)
	require.NoError(t, os.MkdirAll(folder, 0o700))
	for i := range n {
		s := simulate.Shot{Start: from.Add(time.Duration(i) * 200 * time.Second), Exposure: 3 * time.Minute, Filter: "L", Moved: framing.Pixel{X: float64(3 * i), Y: -float64(2 * i)}}
		if change != nil {
			change(i, course, from, &s)
		}
		// Later lights get names that sort earlier: the order is that of the exposures.
		require.NoError(t, field.Frame(s).Save(filepath.Join(folder, fmt.Sprintf("sub%02d.fits", n-i))))
	}
	return course
}

// surveyOf is what the tests read of the JSON.
type surveyOf struct {
	Kit    *string
	Frames []struct {
		Path      string
		Unread    *string
		Start     *time.Time
		Dated     bool
		Kind      string
		Stars     *int
		HFD       *float64 `json:"hfd_px"`
		HFDArcsec *float64 `json:"hfd_arcsec"`
		Group     *int
		New       bool `json:"begins_group"`
		Why       *string
		Turned    *float64 `json:"turned_deg"`
		Rate      *float64 `json:"rate_deg_per_h"`
		RateError *float64 `json:"rate_error_deg_per_h"`
	}
	Groups []struct {
		Object, Words   string
		Target, Kind    *string
		Lights          int
		Rate, Predicted *float64
		RateDegPerH     float64    `json:"rate_deg_per_h"`
		RateError       float64    `json:"rate_error_deg_per_h"`
		PredictedPerH   *float64   `json:"predicted_deg_per_h"`
		AlarmAt         *time.Time `json:"alarm_at"`
		Since           *time.Time
	}
}

func (s *shell) subs(args ...string) (got surveyOf) {
	s.t.Helper()
	s.run("", append([]string{"subs", "--json"}, args...)...)
	require.NoError(s.t, json.Unmarshal([]byte(s.out), &got), s.err)
	return got
}

func TestSubsOfACleanStretch(t *testing.T) {
	s := newShell(t)
	s.ownKit(smallCamera()...)
	folder := filepath.Join(s.home, "frames")
	shots(t, filepath.Join(folder, "deeper"), 6, nil)
	require.Equal(t, command.Done, s.run("", "subs", folder), s.err)
	t.Log("\n" + s.out)
	assert.Empty(t, s.err, "no bar where nobody sits")
	assert.Contains(t, s.out, "The field holds still")
	assert.NotContains(t, s.out, "it was sure")
	assert.Contains(t, s.out, "start ACDT")

	got := s.subs(folder, "--workers", "3")
	require.Len(t, got.Frames, 6)
	require.Len(t, got.Groups, 1)
	assert.Equal(t, "Saltbush Flat", *got.Kit)
	for i, f := range got.Frames {
		assert.Equal(t, fmt.Sprintf("sub%02d.fits", 6-i), filepath.Base(f.Path))
		assert.Equal(t, 0, *f.Group)
		assert.Equal(t, i == 0, f.New)
		assert.InDelta(t, 2.8, *f.HFD, 0.03*2.8, "FWHM of the scene's Gaussian stars; the measurement's 3 %")
		assert.InDelta(t, 2**f.HFD, *f.HFDArcsec, 0.002, "2″ a pixel; three decimals")
		assert.InDelta(t, 0, *f.Turned, 0.01)
	}
	assert.Equal(t, "steady", *got.Groups[0].Kind)
	assert.InDelta(t, 0, got.Groups[0].RateDegPerH, 4*got.Groups[0].RateError)
	once := s.out
	s.subs(folder, "--workers", "1")
	assert.Equal(t, once, s.out, "how many work makes no difference")
}

func TestSubsOfADerotatorThatStops(t *testing.T) {
	s := newShell(t)
	s.ownKit(smallCamera()...)
	folder := filepath.Join(s.home, "frames")
	course := shots(t, folder, 8, func(i int, c *plan.Course, from time.Time, s *simulate.Shot) {
		s.Turned = simulate.Off(c, from.Add(3*200*time.Second))
	})
	got := s.subs(folder)
	require.Len(t, got.Groups, 1)
	g := got.Groups[0]
	assert.Equal(t, "off", *g.Kind)
	assert.Contains(t, g.Words, "see that it is on")
	require.NotNil(t, g.AlarmAt)
	assert.Equal(t, *got.Frames[4].Start, *g.AlarmAt, "it stops with the light of index 3; two lights later is index 5 at most")
	first, last := got.Frames[3].Start.Add(90*time.Second), got.Frames[7].Start.Add(90*time.Second)
	require.NotNil(t, g.Since)
	assert.Equal(t, first, *g.Since, "the rates are since it stopped")
	assert.InDelta(t, (course.FieldAngle(last)-course.FieldAngle(first)).Degrees()/last.Sub(first).Hours(), *g.PredictedPerH, 0.001)
	turned := course.FieldAngle(last) - course.FieldAngle(got.Frames[3].Start.UTC())
	assert.InDelta(t, turned.Degrees(), *got.Frames[7].Turned, 0.01)
	require.Equal(t, command.Done, s.run("", "subs", folder))
	t.Log("\n" + s.out)
	assert.Contains(t, s.out, "it was sure that the field turns")
}

func TestSubsFindTheRewind(t *testing.T) {
	s := newShell(t)
	s.ownKit(smallCamera()...)
	folder := filepath.Join(s.home, "frames")
	shots(t, folder, 6, func(i int, _ *plan.Course, _ time.Time, s *simulate.Shot) {
		if i >= 3 {
			s.Turned = func(time.Time) sky.Angle { return -30 * sky.Degree }
		}
	})
	got := s.subs(folder)
	require.Len(t, got.Groups, 2)
	assert.Equal(t, 3, got.Groups[1].Lights)
	assert.Contains(t, *got.Frames[3].Why, "rewind")
	for _, g := range got.Groups {
		assert.Nil(t, g.AlarmAt)
		assert.Equal(t, "steady", *g.Kind)
	}
}

func TestSubsWithoutAKitAndWithAnotherObject(t *testing.T) {
	s := newShell(t)
	folder := filepath.Join(s.home, "frames")
	shots(t, folder, 3, func(i int, c *plan.Course, from time.Time, s *simulate.Shot) { s.Turned = simulate.Off(c, from) })
	require.Equal(t, command.Done, s.run("", "subs", folder), s.err)
	assert.Contains(t, s.out, "No kit: pixels and UTC only")
	assert.Contains(t, s.out, "takes a kit")
	assert.Contains(t, s.out, "start UTC")
	got := s.subs(folder)
	assert.Nil(t, got.Kit)
	assert.Nil(t, got.Frames[1].HFDArcsec)
	assert.InDelta(t, 17, got.Groups[0].RateDegPerH, 1, "the example night's field turns by 17° an hour then")
	assert.Nil(t, got.Groups[0].Kind)
	assert.Equal(t, command.WrongUse, s.run("", "subs", folder, "--target", "NGC 2070"))
	assert.Contains(t, s.err, "duskhand kit new")

	s.ownKit()
	require.Equal(t, command.Done, s.run("", "subs", folder), s.err)
	assert.Contains(t, s.out, "Frames of 1000 × 700 pixels, where the kit's camera has 6248 × 4176")
	s.ownKit(smallCamera()...)
	require.Equal(t, command.Done, s.run("", "subs", folder), s.err)
	assert.NotContains(t, s.out, "Frames of")
	assert.Equal(t, "off", *s.subs(folder, "--target", "NGC 2070").Groups[0].Kind)
	assert.Equal(t, command.WrongUse, s.run("", "subs", folder, "--target", "NGC 207O"))
	assert.Contains(t, s.err, "NGC 2070")
}

// What can't be read is named, and the rest is measured all the same.
func TestSubsNameWhatCannotBeRead(t *testing.T) {
	s := newShell(t)
	s.ownKit(smallCamera()...)
	folder := filepath.Join(s.home, "frames")
	shots(t, folder, 2, nil)
	whole, err := os.ReadFile(filepath.Join(folder, "sub01.fits"))
	require.NoError(t, err)
	s.write("frames/cut.fits", string(whole[:100_000]))
	s.write("frames/words.fit", strings.Repeat("this is no frame ", 400))
	s.write("frames/notes.txt", "no frame by its name")
	s.write("frames/.hidden.fits", "")
	dark := strings.Replace(string(whole), "'LIGHT   '", "'DARK    '", 1)
	require.NotEqual(t, string(whole), dark)
	s.write("frames/dark.fits", dark)

	assert.Equal(t, command.Failed, s.run("", "subs", folder))
	t.Log("\n" + s.out)
	assert.Contains(t, s.err, "2 of 5 could not be read")
	assert.Contains(t, s.out, "words.fit")
	assert.Contains(t, s.out, "is not a FITS file")
	assert.Contains(t, s.out, "cut short")
	assert.NotContains(t, s.out, "hidden")
	got := s.subs(folder)
	require.Len(t, got.Frames, 5)
	assert.Equal(t, 2, got.Groups[0].Lights)
	for _, f := range got.Frames {
		if f.Kind == "dark" {
			assert.Nil(t, f.Stars)
			assert.Nil(t, f.Group)
		}
	}
	assert.NotNil(t, got.Frames[4].Unread)
	now, err := os.ReadFile(filepath.Join(folder, "sub01.fits"))
	require.NoError(t, err)
	assert.Equal(t, whole, now, "frames are only read")
}

func TestSubsRefuse(t *testing.T) {
	s := newShell(t)
	empty := filepath.Join(s.home, "empty")
	require.NoError(t, os.MkdirAll(empty, 0o700))
	for _, test := range []struct {
		name string
		args []string
		code int
		want string
	}{
		{"no folder", nil, command.WrongUse, "duskhand subs ~/frames"},
		{"a folder that is not there", []string{filepath.Join(s.home, "nowhere")}, command.Failed, "there is no folder"},
		{"a folder without frames", []string{empty}, command.Failed, "there is no frame in"},
		{"no workers", []string{empty, "--workers", "0"}, command.WrongUse, "from 1 to 64"},
		{"a kit that is not there", []string{empty, "--kit", "missing.toml"}, command.Failed, "kit new"},
	} {
		t.Run(test.name, func(t *testing.T) {
			assert.Equal(t, test.code, s.run("", append([]string{"subs"}, test.args...)...))
			assert.Contains(t, s.err, test.want)
			assert.Empty(t, s.out)
		})
	}
}

func TestSubsInASCII(t *testing.T) {
	s := newShell(t)
	s.env["LANG"] = "C"
	folder := filepath.Join(s.home, "frames")
	shots(t, folder, 2, nil)
	require.Equal(t, command.Done, s.run("", "subs", folder), s.err)
	for _, r := range s.out {
		require.Less(t, r, rune(128))
	}
}

// Names of files and what headers say are anybody's: nothing of them drives the terminal.
func TestSubsShowNamesThatDriveNoTerminal(t *testing.T) {
	s := newShell(t)
	folder := filepath.Join(s.home, "frames")
	shots(t, folder, 2, nil)
	require.NoError(t, os.Rename(filepath.Join(folder, "sub01.fits"), filepath.Join(folder, "a\x1b]0;x\x07\u009b31m\u202e\n.fits")))
	s.write("frames/\x1b[2Jbroken\nnot read: all is well.fits", "no frame")
	s.run("", "subs", folder)
	for _, text := range []string{s.out, s.err} {
		for _, r := range text {
			require.True(t, r == '\n' || unicode.IsPrint(r), "%q", text)
		}
	}
	assert.Contains(t, s.out, `\x1b[2Jbroken\nnot read`)
	assert.NotContains(t, s.out, "\nnot read")
}
