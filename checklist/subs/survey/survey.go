// Package survey follows the frames of a night in the order in which they come: each is placed in its run,
// compared with those before it, and judged. What it finds is an event of the night, so that screens, record
// and a program that is started again go by the same. It also lines up the frames of a folder that no night
// is known of, and says how the lights change.
package survey

import (
	"math"
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
	known  bool // false before the first light
	index  int  // of the run in the night
	begun  sky.Angle
	target string
	at     time.Time // when the derotator's angle was known, and which
	angle  sky.Angle
	series turning.Series
	judge  turning.Judge
	last   time.Time // start of the last light
	stars  []subs.Star
	bad    bool // the last light that told says that the field turns
}

// New returns the survey of a night in which nothing has come yet.
func New(k kit.Kit) Survey { return Survey{kit: k} }

// Known returns the files whose frames the night has already: a watch needs not tell of them again.
func Known(n checklist.Night) []arrival.File {
	files := make([]arrival.File, 0, len(n.Arrived))
	for _, f := range arrival.Kept(n) {
		files = append(files, f.File)
	}
	return files
}

// Next takes in a frame and returns the event that it makes, without its list of stars. course is that of the
// present target with the axis as known; nil leaves the frame unjudged, as it does outside the runs.
//
// Lights come in the order of their exposures; one that is late is judged unknown and changes nothing. Darks,
// flats, copies, frames under a new name, what could not be measured and what a rewind spoilt are not judged.
func (s Survey) Next(f arrival.Frame, n checklist.Night, course *plan.Course) (Survey, checklist.SubArrivedBody) {
	body := arrival.BodyOf(f)
	s = s.knowing(f, n)
	entry, ok := s.place(f, n)
	if ok {
		ours := entry.Start.UnixNano()
		body.OursNs = &ours
	}
	if !ok || course == nil || f.Measured == nil || f.Was != "" || !entry.Counts() || entry.Run < 0 || entry.Target != course.Target.Name {
		return s, body
	}
	run := n.Runs[entry.Run]
	if spoilt(run, entry) {
		return s, body
	}
	late := s.run.known && !entry.Start.After(s.run.last)
	if !late && !s.run.is(run, entry) {
		before := s.run
		var over *turning.Transform
		s, over = s.begin(run, entry, course, f.Measured.Stars)
		body.Turned = s.turned(before, over, f, entry, n)
	}
	if !late {
		s.run.at, s.run.angle = run.Known() // it may have been read since
	}
	s, body.Turning = s.judged(entry, course)
	return s, body
}

// knowing learns the parity from a light that was placed: this one, or one of the night that the program knew before
// it was started again.
func (s Survey) knowing(f arrival.Frame, n checklist.Night) Survey {
	placed := f.Placed
	for i := len(n.Arrived) - 1; i >= 0 && placed == nil && s.parity == turning.UnknownParity; i-- {
		placed = n.Arrived[i].Placed
	}
	if placed == nil || s.parity != turning.UnknownParity {
		return s
	}
	s.parity = turning.Direct
	if placed.Mirrored {
		s.parity = turning.Flipped
	}
	s.run.judge = s.run.judge.Knowing(s.parity)
	return s
}

// place finds the frame among those of the night: its start by our clock, and its run.
func (s Survey) place(f arrival.Frame, n checklist.Night) (arrival.Entry, bool) {
	ledger := arrival.Keep(append(arrival.Kept(n), f), arrival.Situation{Kit: s.kit, Night: n, Current: s.kit.Targets[0].Name, Now: f.Seen})
	i := slices.IndexFunc(ledger.Entries, func(e arrival.Entry) bool { return e.File == f.File })
	if i < 0 {
		return arrival.Entry{}, false
	}
	return ledger.Entries[i], true
}

// spoiltBeyond is by how much an exposure may outlast its run: clocks are set by hand. Our choice.
const spoiltBeyond = 2 * time.Second

// spoilt tells that the exposure went on into a rewind.
func spoilt(run checklist.Run, e arrival.Entry) bool {
	return !run.Open && e.End().After(run.End.Add(spoiltBeyond))
}

// is tells that a light belongs to the run that is being followed. Its start does not tell: a jump of the clock
// moves that.
func (r following) is(run checklist.Run, e arrival.Entry) bool {
	return r.known && r.index == e.Run && r.begun == run.StartAngle && r.target == e.Target
}

// begin begins another run. over carries the last light of the run before onto this one, nil where they can't be
// compared.
func (s Survey) begin(run checklist.Run, e arrival.Entry, course *plan.Course, stars []subs.Star) (begun Survey, over *turning.Transform) {
	next := following{known: true, index: e.Run, begun: run.StartAngle, target: e.Target}
	next.at, next.angle = run.Known()
	over = s.run.over(next, stars)
	if s.parity == turning.UnknownParity && over != nil {
		s.parity = s.run.parityBefore(next, course, *over)
	}
	next.judge = turning.NewJudge(turning.DefaultLimits(cornerOf(e.Header, s.kit)), s.parity)
	s.run = next
	return s, over
}

// A rewind by an angle within these bounds tells whether the pixels lie mirrored: less could be mistaken for its
// opposite if the scale was misread, and half a turn is its own. Our choice, as is how well two readings tell
// the angle.
const (
	rewindTolerance = 1 * sky.Degree
	leastTelling    = 5 * sky.Degree
	mostTelling     = 175 * sky.Degree
)

// over carries the last light of a run onto the first of the next on the same target.
func (r following) over(next following, stars []subs.Star) *turning.Transform {
	if len(r.stars) == 0 || r.bad || r.target != next.target {
		return nil
	}
	over, err := turning.Match(r.stars, stars)
	if err != nil {
		return nil
	}
	return &over
}

// parityBefore learns the parity from how the stars turned over the rewind that lies between two runs.
func (r following) parityBefore(next following, course *plan.Course, over turning.Transform) turning.Parity {
	turned := (course.CameraAngle(next.angle, next.at) - course.CameraAngle(r.angle, r.at)).Signed()
	if turned.Abs() < leastTelling || turned.Abs() > mostTelling {
		return turning.UnknownParity
	}
	parity, _ := turning.ParityOf(over, turned, rewindTolerance)
	return parity
}

// judged compares a light of the run that is being followed and judges it.
func (s Survey) judged(e arrival.Entry, course *plan.Course) (Survey, *checklist.TurningBody) {
	light := turning.Light{Start: e.Start, Exposure: e.Exposure}
	late := s.run.last.After(e.Start) || s.run.last.Equal(e.Start)
	if !late {
		light.FieldAngle = course.FieldAngle(light.Middle())
		s.run.series, light.Compared = s.run.series.Next(e.Measured.Stars)
	}
	judge, verdict := s.run.judge.Next(light)
	if !late {
		s.run.judge, s.run.last = judge, e.Start
	}
	if light.Compared.Err == nil && !late {
		s.run.stars, s.run.bad = e.Measured.Stars, verdict.Kind.Bad()
	}
	body := BodyOf(verdict)
	if t := light.Compared.FromReference; t != nil {
		dx, dy := t.MovedAt(float64(e.Header.Width-1)/2, float64(e.Header.Height-1)/2)
		moved := math.Hypot(dx, dy)
		body.MovedPx, body.MovedXPx, body.MovedYPx = &moved, &dx, &dy
	}
	if verdict.Kind == turning.Residual {
		body.Explained = explained(judge, s.parity, course, e.Header, s.kit)
	}
	return s, &body
}

// BodyOf returns a verdict as the event has it.
func BodyOf(v turning.Verdict) checklist.TurningBody {
	body := checklist.TurningBody{Kind: string(v.Kind), Alarm: v.Alarm, RateDegPerH: v.Rate.DegreesPerHour(), ErrorDegPerH: v.RateError.DegreesPerHour(),
		PredictedDegPerH: v.Predicted.DegreesPerHour(), Lights: v.Lights, Untold: string(v.Why)}
	if v.Err != nil {
		body.Why = v.Err.Error()
	}
	return body
}
