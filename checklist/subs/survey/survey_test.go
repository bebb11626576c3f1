package survey_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/subs"
	"duskhand/checklist/subs/arrival"
	"duskhand/checklist/subs/survey"
	"duskhand/checklist/subs/testdata/simulate"
	"duskhand/checklist/subs/turning"
	"duskhand/plan"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// smallKit is the example's kit with the camera of simulate.Small: 1000 × 700 pixels of 2″.
func smallKit() kit.Kit {
	k := kit.Example()
	k.Camera.Width, k.Camera.Height = 1000, 700
	k.Camera.PixelUM = 2 * float64(sky.Arcsecond) * 1000 * k.Optics.FocalLengthMM
	return k
}

// night is a night of one target whose lights are drawn, written, read, measured and followed.
type night struct {
	t      *testing.T
	kit    kit.Kit
	course *plan.Course
	field  *simulate.Field
	log    checklist.Night
	survey survey.Survey
	folder string
	from   time.Time
	got    []checklist.SubArrivedBody
	shots  []simulate.Shot
}

const exposure, cadence = 3 * time.Minute, 200 * time.Second

func newNight(t *testing.T, seed uint64, change func(*simulate.Scene)) *night {
	k := smallKit()
	n := &night{t: t, kit: k, course: courseOf(k), folder: t.TempDir(), survey: survey.New(k)}
	n.from = n.course.Dark[0].From.Add(time.Hour).Truncate(time.Second)
	scene := simulate.Small(seed)
	scene.HotPixels, scene.Gradient = 150, 0.2
	if change != nil {
		change(&scene)
	}
	n.field = simulate.NewField(scene)
	n.run(n.from.Add(-time.Minute), 15*sky.Degree)
	return n
}

// courseOf is the first target's way through the example night.
func courseOf(k kit.Kit) *plan.Course {
	return plan.NewNight(k, plan.Date{Year: 2026, Month: time.December, Day: 5}).Course(k.Targets[0], k.Axis)
}

// run begins a run at a reading of the derotator; the one before ends a minute earlier.
func (n *night) run(at time.Time, reading sky.Angle) {
	if last := len(n.log.Runs) - 1; last >= 0 {
		n.log.Runs[last].Open, n.log.Runs[last].End = false, at.Add(-time.Minute)
	}
	target := n.kit.Targets[0]
	n.log.Runs = append(n.log.Runs, checklist.Run{Start: at, StartAngle: reading, Open: true,
		Target: &checklist.Target{Name: target.Name, Star: target.Star}})
}

// take takes a light and follows it.
func (n *night) take(shot simulate.Shot) checklist.SubArrivedBody {
	n.t.Helper()
	path := filepath.Join(n.folder, fmt.Sprintf("%03d.fits", len(n.shots)))
	require.NoError(n.t, n.field.Frame(shot).Save(path))
	look, err := survey.Reading(1, survey.MostPixels, "")(context.Background(), path, false)
	require.NoError(n.t, err)
	info, err := os.Stat(path)
	require.NoError(n.t, err)
	end := shot.Start.Add(shot.Exposure)
	body := n.hand(arrival.Frame{File: arrival.File{Path: path, Size: info.Size(), Changed: end.Add(2 * time.Second)},
		Seen: end.Add(5 * time.Second), Late: 2 * time.Second, Header: look.Header, Measured: look.Measured, Remarks: look.Remarks})
	n.shots = append(n.shots, shot)
	return body
}

// hand follows a frame and writes it into the night.
func (n *night) hand(f arrival.Frame) (body checklist.SubArrivedBody) {
	n.survey, body = n.survey.Next(f, n.log, n.course)
	n.log.Arrived = append(n.log.Arrived, checklist.Arrived{At: f.Seen, SubArrivedBody: body})
	n.got = append(n.got, body)
	return body
}

// shot is the i-th light of a night, dithered by up to 15 pixels.
func (n *night) shot(i int) simulate.Shot {
	r := rand.New(rand.NewPCG(uint64(i), 7))
	return simulate.Shot{Start: n.from.Add(time.Duration(i) * cadence), Exposure: exposure, Filter: "L",
		Moved: framing.Pixel{X: 30*r.Float64() - 15, Y: 30*r.Float64() - 15}}
}

// alarms returns at which lights the alarm stood, and the last light's kind.
func (n *night) alarms() (first int, last turning.Kind) {
	first = -1
	for i, b := range n.got {
		require.NotNil(n.t, b.Turning, "light %d", i)
		if b.Turning.Alarm && first < 0 {
			first = i
		}
		last = turning.Kind(b.Turning.Kind)
	}
	return first, last
}

// From files to verdicts: the alarm comes within two subs of the field's beginning to turn, and never in a
// night in which it does not.
func TestNightsFromFiles(t *testing.T) {
	type change func(n *night, i int, s *simulate.Shot)
	from := func(turns func(simulate.FieldAngles, time.Time) simulate.Turning, first int) change {
		return func(n *night, i int, s *simulate.Shot) {
			s.Turned = turns(n.course, n.from.Add(time.Duration(first)*cadence))
		}
	}
	for _, test := range []struct {
		name   string
		lights int
		change change
		alarm  int // the light with which it comes, −1 for never
		kind   turning.Kind
		rate   float64 // parts of what the derotator takes out; ° an hour where it creeps
	}{
		{"a clean night", 9, nil, -1, turning.Steady, 0},
		{"satellites in every light", 7, func(_ *night, _ int, s *simulate.Shot) { s.Trail = true }, -1, turning.Steady, 0},
		{"a cloud over two lights", 9, func(_ *night, i int, s *simulate.Shot) {
			if i == 4 || i == 5 {
				s.Cloud = 0.97
			}
		}, -1, turning.Steady, 0},
		{"the derotator is off", 5, from(simulate.Off, 0), 2, turning.Off, 1},
		{"it stops after four lights", 7, from(simulate.Off, 4), 5, turning.Off, 1},
		{"it turns the wrong way", 5, from(simulate.Reversed, 0), 2, turning.Reversed, 2},
		{"it creeps", 6, func(n *night, _ int, s *simulate.Shot) { s.Turned = simulate.Slow(3*sky.DegreePerHour, n.from) }, 2, turning.Residual, 3},
	} {
		t.Run(test.name, func(t *testing.T) {
			n := newNight(t, 3, nil)
			for i := range test.lights {
				s := n.shot(i)
				if test.change != nil {
					test.change(n, i, &s)
				}
				n.take(s)
			}
			first, last := n.alarms()
			assert.Equal(t, test.alarm, first)
			assert.Equal(t, test.kind, last)
			said := n.got[test.lights-1].Turning
			assert.Equal(t, test.alarm >= 0, said.Alarm)
			want := test.rate * math.Abs(said.PredictedDegPerH)
			if test.kind == turning.Residual {
				want = test.rate
			}
			assert.InDelta(t, want, math.Abs(said.RateDegPerH), 0.3)
			n.rateIsTrue()
			assert.Equal(t, len(n.got), len(survey.Known(n.log)))
		})
	}
}

// rateIsTrue holds the last light's rate against what the camera did over as many lights.
func (n *night) rateIsTrue() {
	last := len(n.got) - 1
	b := n.got[last].Turning
	turned := n.shots[last].Turned
	if b.Lights < 2 || turned == nil {
		assert.LessOrEqual(n.t, math.Abs(b.RateDegPerH), 0.01*3600/cadence.Seconds(), "0.01° from light to light")
		return
	}
	middle := func(i int) time.Time { return n.shots[i].Start.Add(exposure / 2) }
	a, z := middle(last+1-b.Lights), middle(last)
	truth := (turned(z) - turned(a)).Degrees() / z.Sub(a).Hours()
	// A fitted line and the chord of a slightly bent curve differ by what 0.01° over the stretch makes.
	within := max(5*b.ErrorDegPerH, 0.01/z.Sub(a).Hours())
	assert.InDelta(n.t, math.Abs(truth), math.Abs(b.RateDegPerH), within)
}

// Rotation between two lights is recovered to 0.01° or its stated error, and the half-flux diameter to 3 %.
func TestRotationAndDiameterFromFiles(t *testing.T) {
	for seed := range uint64(6) {
		n := newNight(t, seed, func(s *simulate.Scene) {
			s.FWHM = 2.6 + 0.4*float64(seed)
			s.TopDown = seed%2 == 1
		})
		turned := sky.Angle(float64(seed)-2.5) * 0.3 * sky.Degree
		var stars [2][]subs.Star
		for i := range 2 {
			s := n.shot(i)
			s.Turned = func(time.Time) sky.Angle { return turned * sky.Angle(i) }
			path := filepath.Join(n.folder, fmt.Sprintf("%d.fits", i))
			require.NoError(t, n.field.Frame(s).Save(path))
			look, err := survey.Reading(2, survey.MostPixels, "")(context.Background(), path, false)
			require.NoError(t, err)
			stars[i] = look.Measured.Stars
			assert.InEpsilon(t, n.field.FWHM, look.Measured.HFD, 0.03, "a Gaussian's half-flux diameter is its full width at half maximum; seed %d", seed)
		}
		got, err := turning.Match(stars[0], stars[1])
		require.NoError(t, err)
		parity := turning.Direct
		if !n.field.Direct() {
			parity = turning.Flipped
		}
		off := (parity.CameraTurned(got) - turned).Abs()
		assert.LessOrEqual(t, off.Degrees(), max(0.01, 3*got.RotationError.Degrees()), "seed %d", seed)
	}
}

// A file can say that it is as large as it likes and take no room on the disk; its pixels are not read.
func TestAFrameWithoutMeasureIsCountedAndNotMeasured(t *testing.T) {
	path := filepath.Join(t.TempDir(), "vast.fits")
	file, err := os.Create(path)
	require.NoError(t, err)
	header := ""
	for _, card := range []string{"SIMPLE  =                    T", "BITPIX  =                  -64", "NAXIS   =                    2", "NAXIS1  =                50000",
		"NAXIS2  =                50000", "IMAGETYP= 'LIGHT   '", "END"} {
		header += fmt.Sprintf("%-80s", card)
	}
	_, err = fmt.Fprintf(file, "%-2880s", header)
	require.NoError(t, err)
	require.NoError(t, file.Truncate(2880+50000*50000*8)) // sparse: 20 GB of nothing
	require.NoError(t, file.Close())
	look, err := survey.Reading(1, kit.Example().MostPixels(), "")(context.Background(), path, false)
	require.NoError(t, err)
	assert.Nil(t, look.Measured)
	assert.Equal(t, 50000, look.Header.Width)
	assert.Equal(t, []string{"vast.fits: it has 2500 million pixels, more than the 104.4 million that are measured, so it is counted and its stars are not; " +
		"if it is a frame of yours, set watch.most_megapixels in the kit"}, look.Remarks)
}
