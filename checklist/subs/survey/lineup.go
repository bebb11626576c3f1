package survey

import (
	"math"
	"strings"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/subs"
	"duskhand/checklist/subs/turning"
	"duskhand/plan"
	"duskhand/sky"
)

// Light is a light of a folder, of which no night tells the run.
type Light struct {
	Start    time.Time
	Exposure time.Duration
	Header   subs.Header
	Stars    []subs.Star
	Course   *plan.Course // of its target; nil when nobody knows that, or the site
}

// Lineup lines up the lights of a folder, in the order of their exposures, into groups within which they can be
// compared. It is a value: Next returns another.
//
// The camera's angles are positive through east if the file's first row is the bottom one and nothing mirrors;
// pixels alone can't tell.
type Lineup struct {
	begun  bool
	number int
	last   Light
	series turning.Series
	judge  turning.Judge
	group  Group
}

// Place is where a light lies in its group.
type Place struct {
	Group    int                   // counted from nought
	New      bool                  // the light begins it
	Why      Why                   // the group begins, or the light can't be compared; "" for the first of all
	Verdict  checklist.TurningBody // of NotCompared
	Compared bool

	Turned, TurnedError sky.Angle // of the camera since the group's first light
	Rate, RateError     sky.Rate  // since the light before that could be compared
	Rated               bool      // there is one
}

// Why is why a group begins with a light, or why one can't be compared.
type Why string

// The reasons.
const (
	CopyOfBefore Why = "copy"          // of the light before, by its DATE-OBS
	CameraTurned Why = "camera turned" // since the light before, by a rewind or by hand
	AnotherField Why = "another field" // than the lights before it show
	OtherObject  Why = "other object"  // by its header
	OtherSize    Why = "other size"    // of picture
	HoursLater   Why = "hours later"   // than the light before
	NotCompared  Why = "not compared"  // as the verdict beside says
)

// Group is lights that follow one another in one framing.
type Group struct {
	Object   string // as the headers name it
	Course   *plan.Course
	From, To time.Time // middles of the first and the last that could be compared
	Since    time.Time // From, or where the angles last broke: by a slip, or the derotator's stopping or starting
	Lights   int
	Compared int

	Rate, RateError sky.Rate // of the camera, since Since; the error is +Inf of fewer than two
	Predicted       sky.Rate // what Rate is with the derotator off; by Course
	Verdict         turning.Verdict
	AlarmAt         time.Time // start of the first light with which it is alarmed, zero if never
}

// Turning is what the group's lights say of the derotator. ok is false when nothing can be said without a course, or
// with fewer than two lights.
func (g Group) Turning() (b checklist.TurningBody, ok bool) {
	if g.Course == nil || g.Compared < 2 {
		return b, false
	}
	return BodyOf(g.Verdict), true
}

// Next takes in a light. Each light is compared with those before it in its group. A group ends where another
// object, another size of picture or another night begins, where nothing matches any more, or where the camera
// has been turned: by more than a field that nothing follows, or that is followed the wrong way, could.
func (l Lineup) Next(light Light) (Lineup, Place) {
	var why Why
	if l.begun {
		if l.copies(light) {
			return l, Place{Group: l.number, Why: CopyOfBefore}
		}
		why = l.broken(light)
	}
	if !l.begun || why != "" {
		l = l.begin(light)
		return l.place(light, why)
	}
	series, compared := l.series.Next(light.Stars)
	if step := compared.FromPrevious; step != nil {
		if turned := turning.Direct.CameraTurned(*step); turned.Abs() > l.mostTurn(light) {
			l = l.begin(light)
			return l.place(light, CameraTurned)
		}
	}
	if compared.Fresh && l.group.Compared > 0 {
		l = l.begin(light)
		return l.place(light, AnotherField)
	}
	return l.add(light, series, compared)
}

// copies tells that a light is the one before it once more, as renamed or copied files are.
func (l Lineup) copies(light Light) bool {
	a, b := l.last, light
	return a.Start.Equal(b.Start) && a.Exposure == b.Exposure && a.Header.Filter == b.Header.Filter && a.Header.Object == b.Header.Object &&
		a.Header.Width == b.Header.Width && a.Header.Height == b.Header.Height
}

// begin begins a group.
func (l Lineup) begin(light Light) Lineup {
	number := 0
	if l.begun {
		number = l.number + 1
	}
	corner := math.Hypot(float64(light.Header.Width), float64(light.Header.Height)) / 2
	return Lineup{begun: true, number: number, judge: turning.NewJudge(turning.DefaultLimits(corner), turning.UnknownParity),
		group: Group{Object: light.Header.Object, Course: light.Course, RateError: sky.Rate(math.Inf(1))}}
}

// place adds the first light of a group.
func (l Lineup) place(light Light, why Why) (Lineup, Place) {
	series, compared := l.series.Next(light.Stars)
	next, place := l.add(light, series, compared)
	place.New = true
	if place.Why == "" {
		place.Why = why
	}
	return next, place
}

// The bounds of a group; choices of ours.
const (
	longestPause = 6 * time.Hour
	turnSlack    = 2 * sky.Degree  // beyond three times the field's own turning
	unknownTurn  = 10 * sky.Degree // where that is not known
)

// broken says why a light can't belong to the group of the one before it, "" if it may.
func (l Lineup) broken(light Light) Why {
	a, b := l.last, light
	switch {
	case !sameObject(a, b):
		return OtherObject
	case b.Header.Width != a.Header.Width || b.Header.Height != a.Header.Height || b.Header.BinX != a.Header.BinX:
		return OtherSize
	case b.Start.Sub(a.Start) > longestPause:
		return HoursLater
	}
	return ""
}

// sameObject tells that two lights are of one object: by where the target lies that is known of each, or else by the name in their
// headers, however it is spelt.
func sameObject(a, b Light) bool {
	if a.Course != nil && b.Course != nil {
		return a.Course.Target.Star.Place == b.Course.Target.Star.Place
	}
	plain := func(name string) string { return strings.ToLower(strings.Join(strings.Fields(name), "")) }
	return plain(a.Header.Object) == plain(b.Header.Object)
}

// mostTurn returns by how much the camera can have turned since the last light that could be compared, while
// nobody turned it.
func (l Lineup) mostTurn(light Light) sky.Angle {
	if light.Course == nil {
		return unknownTurn
	}
	field := light.Course.FieldAngle(middle(light)) - light.Course.FieldAngle(l.group.To)
	return 3*field.Abs() + turnSlack
}

func middle(l Light) time.Time { return l.Start.Add(l.Exposure / 2) }

// add takes a light into the group and judges it.
func (l Lineup) add(light Light, series turning.Series, compared turning.Compared) (Lineup, Place) {
	before := l.judge.Turned()
	at := turning.Light{Start: light.Start, Exposure: light.Exposure, Compared: compared}
	if light.Course != nil {
		at.FieldAngle = light.Course.FieldAngle(at.Middle())
	}
	l.series = series
	l.judge, l.group.Verdict = l.judge.Next(at)
	l.last = light
	l.last.Stars = nil // the series has those that it needs
	l.group.Lights++
	if l.group.AlarmAt.IsZero() && l.group.Verdict.Alarm {
		l.group.AlarmAt = light.Start
	}
	place := Place{Group: l.number}
	turned := l.judge.Turned()
	if compared.Err != nil || len(turned) == len(before) && !compared.Fresh {
		place.Why, place.Verdict = NotCompared, BodyOf(l.group.Verdict)
		return l, place
	}
	place.put(turned)
	l.group.take(turned)
	return l, place
}

// put fills in what the angles of the group's lights say of its last one.
func (p *Place) put(turned []turning.Turned) {
	last := turned[len(turned)-1]
	p.Compared, p.Turned = true, last.Camera
	if len(turned) == 1 {
		return
	}
	p.TurnedError = last.Error
	before := turned[len(turned)-2]
	seconds := last.At.Sub(before.At).Seconds()
	p.Rated = true
	p.Rate = sky.Rate(float64(last.Camera-before.Camera) / seconds)
	p.RateError = sky.Rate(math.Hypot(float64(last.Error), float64(before.Error)) / seconds)
}

// Group returns the group that the last light belongs to, as it stands. ok is false before the first light.
func (l Lineup) Group() (g Group, ok bool) { return l.group, l.begun }
