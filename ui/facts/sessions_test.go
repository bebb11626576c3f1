package facts_test

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/checklist/frames/place"
	"duskhand/checklist/subs"
	"duskhand/checklist/subs/arrival"
	"duskhand/checklist/subs/survey"
	"duskhand/checklist/subs/testdata/simulate"
	"duskhand/plan"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/ui/facts"
)

var sweep = flag.Int("sweep", 1, "how many sessions of each kind are lived")

// A session is lights of one run, from their stars to the alerts; what goes wrong does so with the light goesWrong.
const (
	sessionLights = 14
	goesWrong     = 6
	sessionEach   = 200 * time.Second
)

// sessionOf is a kind of session: what is done to the scene and to each light, and which alert is to tell.
type sessionOf struct {
	name  string
	scene func(*simulate.Scene)
	light func(s *simulate.Shot, i int, course *plan.Course, wrong time.Time, r *rand.Rand)
	tells facts.AlertKind // "": nothing is wrong
}

func sessions() []sessionOf {
	since := func(i int) bool { return i >= goesWrong }
	return []sessionOf{
		{name: "nothing"},
		{name: "large dithers", light: func(s *simulate.Shot, _ int, _ *plan.Course, _ time.Time, r *rand.Rand) {
			s.Moved = framing.Pixel{X: 60*r.Float64() - 30, Y: 60*r.Float64() - 30}
		}},
		{name: "wind", light: func(s *simulate.Shot, _ int, _ *plan.Course, _ time.Time, r *rand.Rand) {
			s.Drift = framing.Pixel{X: 60 * r.NormFloat64(), Y: 60 * r.NormFloat64()}
		}},
		{name: "thin cloud", light: func(s *simulate.Shot, _ int, _ *plan.Course, _ time.Time, r *rand.Rand) { s.Cloud = 0.6 * r.Float64() }},
		{name: "cloud over five lights", light: func(s *simulate.Shot, i int, _ *plan.Course, _ time.Time, _ *rand.Rand) {
			if i >= 5 && i < 10 {
				s.Cloud = 0.995
			}
		}},
		{name: "moonlight", scene: func(s *simulate.Scene) { s.SkyRate, s.Gradient = 30, 0.6 }},
		{name: "mirrored, donuts", scene: func(s *simulate.Scene) { s.FWHM, s.Sensor.Mirrored = 12, true }},
		{name: "a crowd", scene: func(s *simulate.Scene) { s.LeastStars, s.FaintestMade = 3000, 16 }},
		{name: "few stars", scene: func(s *simulate.Scene) { s.StarRate /= 300; s.LeastStars = 0 }},
		{name: "derotator off", tells: facts.FieldTurns, light: func(s *simulate.Shot, _ int, c *plan.Course, wrong time.Time, _ *rand.Rand) {
			s.Turned = simulate.Off(c, wrong)
		}},
		{name: "derotator off, few stars", tells: facts.FieldTurns, scene: func(s *simulate.Scene) { s.StarRate /= 500; s.LeastStars = 0 },
			light: func(s *simulate.Shot, _ int, c *plan.Course, wrong time.Time, _ *rand.Rand) {
				s.Turned = simulate.Off(c, wrong)
			}},
		{name: "wrong way", tells: facts.FieldTurns, light: func(s *simulate.Shot, _ int, c *plan.Course, wrong time.Time, _ *rand.Rand) {
			s.Turned = simulate.Reversed(c, wrong)
		}},
		{name: "slip of 0.3°", tells: facts.StageSlips, light: func(s *simulate.Shot, i int, _ *plan.Course, _ time.Time, _ *rand.Rand) {
			if since(i) {
				s.Turned = func(time.Time) sky.Angle { return 0.3 * sky.Degree }
			}
		}},
		{name: "slip of 3° in cloud", tells: facts.StageSlips, light: func(s *simulate.Shot, i int, _ *plan.Course, _ time.Time, r *rand.Rand) {
			s.Cloud = 0.5 * r.Float64()
			if since(i) {
				s.Turned = func(time.Time) sky.Angle { return -3 * sky.Degree }
			}
		}},
		{name: "guide star lost", tells: facts.LightsWalk, light: func(s *simulate.Shot, i int, _ *plan.Course, _ time.Time, _ *rand.Rand) {
			if since(i) {
				s.Moved = framing.Pixel{X: 4 * float64(i-goesWrong+1), Y: 2 * float64(i-goesWrong+1)}
			}
		}},
	}
}

// score is what came of the sessions of a kind.
type score struct{ sessions, falsely, missed, delay, placed, stars int }

// Sessions of every kind, from the stars of each light to the alerts: nothing is called where nothing is wrong, nor
// before it is, and what is wrong is called with the light or the one after; a lost guide star among dithers as large as
// its steps with the fifth.
func TestSessionsOfEveryKindCallForWhatIsWrong(t *testing.T) {
	t.Parallel()
	t.Logf("%-24s %9s %7s %7s %6s %14s %6s", "session", "sessions", "false", "missed", "delay", "lights placed", "stars")
	for _, kind := range sessions() {
		var s score
		for seed := range uint64(*sweep) {
			s.add(t, kind, seed)
		}
		t.Logf("%-24s %9d %7d %7d %6d %14d %6d", kind.name, s.sessions, s.falsely, s.missed, s.delay, s.placed, s.stars/s.sessions/sessionLights)
		assert.Zero(t, s.falsely, "%s: called for nothing", kind.name)
		assert.Zero(t, s.missed, "%s: not called for", kind.name)
		within := 1
		if kind.tells == facts.LightsWalk {
			within = 4
		}
		assert.LessOrEqual(t, s.delay, within, kind.name)
	}
}

// judged are the alerts that lights alone raise.
var judged = []facts.AlertKind{facts.FieldTurns, facts.StageSlips, facts.LightsWalk}

func (s *score) add(t *testing.T, kind sessionOf, seed uint64) {
	n := &night{t: t, kit: kit.Example()}
	n.kit.Camera.Width, n.kit.Camera.Height, n.kit.Subs.Filters[0].Exposure = 1000, 700, 3*time.Minute
	n.kit.Camera.PixelUM = 2 * float64(sky.Arcsecond) * 1000 * n.kit.Optics.FocalLengthMM
	begins := dusk.Add(20 * time.Minute).Truncate(time.Second)
	target := n.kit.Targets[0]
	n.at(begins.Add(-3*time.Minute), checklist.ChooseTarget{Target: checklist.Target{Name: target.Name, Star: target.Star}}, checklist.TurnOn{Angle: degrees(-10)},
		checklist.GuidingCalibrated{}, checklist.GuidingOn{})
	r := n.at(begins.Add(-time.Second), checklist.StartSubs{})
	scene := simulate.Small(seed)
	scene.Deep, scene.Centre, scene.CameraAngle = true, framing.Middle(target), sky.Angle(37+20*seed)*sky.Degree
	if kind.scene != nil {
		kind.scene(&scene)
	}
	field, followed := simulate.NewField(scene), survey.New(n.kit)
	random := rand.New(rand.NewPCG(seed, 15))
	first := -1
	for i := range sessionLights {
		shot := simulate.Shot{Start: begins.Add(time.Duration(i) * sessionEach), Exposure: 3 * time.Minute, Filter: "L",
			Moved: framing.Pixel{X: 8*random.Float64() - 4, Y: 8*random.Float64() - 4}}
		if kind.light != nil {
			kind.light(&shot, i, r.Course, begins.Add(goesWrong*sessionEach), random)
		}
		light := seenLight(field, shot, i)
		s.stars += light.Measured.Count
		light.Placed = placedLight(n.kit, light, target)
		if light.Placed != nil {
			s.placed++
		}
		var body checklist.SubArrivedBody
		followed, body = followed.Next(light, n.log, r.Course)
		r = n.at(light.Seen, checklist.SubArrived{Body: body})
		on := onOf(r)
		if first < 0 && slices.Contains(on, kind.tells) {
			first = i
		}
		if len(on) > 0 && (kind.tells == "" || i < goesWrong) {
			s.falsely++
			t.Logf("%s, seed %d, light %d: %v", kind.name, seed, i, on)
		}
	}
	s.sessions++
	if kind.tells != "" && first < 0 {
		s.missed++
	}
	s.delay = max(s.delay, first-goesWrong)
}

func onOf(r facts.Run) (on []facts.AlertKind) {
	for _, a := range r.Alerts(r.Advice(), facts.Subs{}) {
		if a.Level > advice.Quiet && slices.Contains(judged, a.Kind) {
			on = append(on, a.Kind)
		}
	}
	return on
}

// seenLight is a light as a good measurement finds it, read as it is written.
func seenLight(field *simulate.Field, shot simulate.Shot, i int) arrival.Frame {
	stars := field.Seen(shot)
	start, exposure, end := shot.Start, shot.Exposure, shot.Start.Add(shot.Exposure)
	return arrival.Frame{File: arrival.File{Path: fmt.Sprintf("/subs/light_%03d.fits", i), Size: 1_400_000, Changed: end.Add(2 * time.Second)},
		Seen: end.Add(4 * time.Second), Late: time.Second,
		Header:   subs.Header{Kind: subs.Light, BinX: 1, BinY: 1, Width: 1000, Height: 700, Filter: shot.Filter, Start: &start, Exposure: &exposure},
		Measured: &subs.Measured{Count: len(stars), Stars: stars, HFD: 2.8, Elongation: 1.1}}
}

func placedLight(k kit.Kit, light arrival.Frame, target kit.Target) *checklist.PlacedBody {
	near, placed, err := place.Among(k, place.Light{Header: light.Header, Measured: light.Measured}, []place.Sought{{Name: target.Name, Place: target.Star.Place}})
	if err != nil {
		return nil
	}
	return place.BodyOf(near.Name, placed)
}
