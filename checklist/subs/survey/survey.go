// Package survey follows the frames of a night in the order in which they come: each is placed in its run,
// compared with those before it, and judged. What it finds is an event of the night, so that screens, record
// and a program that is started again go by the same.
package survey

import (
	"slices"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/subs"
	"duskhand/checklist/subs/arrival"
	"duskhand/checklist/subs/turning"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Survey is how far the frames of a night have been followed. It is a value: Next returns another.
type Survey struct {
	kit    kit.Kit
	parity turning.Parity // learned once, kept for the night
	run    following      // that the last light belongs to
}

// following is one run, its lights so far and their judge.
type following struct {
	start  time.Time // of the run; zero before the first light
	target string
	camera sky.Angle // its camera angle, of date
	series turning.Series
	judge  turning.Judge
	stars  []subs.Star // of its last light
}

// New returns the survey of a night in which nothing has come yet.
func New(k kit.Kit) Survey { return Survey{kit: k} }

// Next takes in a frame and returns the event that it makes. course is that of the present target with the axis
// as known; nil leaves the frame unjudged, as it does outside the runs.
func (s Survey) Next(f arrival.Frame, n checklist.Night, course *plan.Course) (Survey, checklist.SubArrivedBody) {
	body := arrival.BodyOf(f)
	entry, ok := s.place(f, n)
	if !ok || course == nil || f.Measured == nil || !entry.Counts() || entry.Run < 0 || entry.Target != course.Target.Name {
		return s, body
	}
	run := n.Runs[entry.Run]
	if !run.Start.Equal(s.run.start) || s.run.target != entry.Target {
		s = s.begin(run, entry, course, f.Measured.Stars)
	}
	light := turning.Light{Start: entry.Start, Exposure: entry.Exposure}
	light.FieldAngle = course.FieldAngle(light.Middle())
	s.run.series, light.Compared = s.run.series.Next(f.Measured.Stars)
	var verdict turning.Verdict
	s.run.judge, verdict = s.run.judge.Next(light)
	s.run.stars = f.Measured.Stars
	body.Turning = s.bodyOf(verdict, course, f)
	return s, body
}

// place finds the frame among those of the night: its start by our clock, and its run.
func (s Survey) place(f arrival.Frame, n checklist.Night) (arrival.Entry, bool) {
	ledger := arrival.Keep(append(arrival.Kept(n), f), arrival.Situation{Kit: s.kit, Night: n, Current: s.current(n), Now: f.Seen})
	i := slices.IndexFunc(ledger.Entries, func(e arrival.Entry) bool { return e.File == f.File })
	if i < 0 {
		return arrival.Entry{}, false
	}
	return ledger.Entries[i], true
}

func (s Survey) current(n checklist.Night) string {
	if n.Target != nil {
		return n.Target.Name
	}
	return s.kit.Targets[0].Name
}

// rewindTolerance is how well the camera's turn over a rewind is known: as two readings of the scale are.
const rewindTolerance = 1 * sky.Degree

// begin begins another run. A rewind turned the camera by a known angle, and that tells whether the file's
// pixels show the sky mirrored.
func (s Survey) begin(run checklist.Run, e arrival.Entry, course *plan.Course, stars []subs.Star) Survey {
	at, reading := run.Known()
	camera := course.CameraAngle(reading, at)
	if s.parity == turning.UnknownParity && len(s.run.stars) > 0 && s.run.target == e.Target {
		if over, err := turning.Match(s.run.stars, stars); err == nil {
			if parity, ok := turning.ParityOf(over, (camera - s.run.camera).Signed(), rewindTolerance); ok {
				s.parity = parity
			}
		}
	}
	corner := cornerOf(e.Header, s.kit)
	s.run = following{start: run.Start, target: e.Target, camera: camera, judge: turning.NewJudge(turning.DefaultLimits(corner), s.parity)}
	return s
}

// bodyOf returns the verdict as the event has it, with what would explain a creeping field.
func (s Survey) bodyOf(v turning.Verdict, course *plan.Course, f arrival.Frame) *checklist.TurningBody {
	b := &checklist.TurningBody{Kind: string(v.Kind), Alarm: v.Alarm, RateDegPerH: v.Rate.DegreesPerHour(), ErrorDegPerH: v.RateError.DegreesPerHour(),
		PredictedDegPerH: v.Predicted.DegreesPerHour(), Lights: v.Lights, Why: v.Why}
	if v.Kind == turning.Residual {
		b.Why = s.explained(course, f)
	}
	return b
}
