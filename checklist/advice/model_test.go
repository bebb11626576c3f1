package advice_test

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"slices"
	"time"

	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/checklist/journal"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// A model of the night: the mount as it really stands, the stage, the camera program by the clock, and the tool's own
// night as it is told. The geometry is the handbook's section 5; the best that can be had is the schedule's, which is
// held against a programme of its own in package plan (Bellman 1957).

// model is one simulated night.
type model struct {
	t       require.TestingT
	kit     kit.Kit
	steps   checklist.List
	date    plan.Date
	log     checklist.Night
	ordinal int64
	tonight *advice.Tonight
	derived time.Time

	axis    kit.Axis     // as it really is, known exactly
	truth   *plan.Course // of the present target with it
	other   bool         // the second of the targets
	written []journal.Event
	stage   sky.Angle    // where it stands while it is off
	anchor  *plan.Anchor // where it tracks from, as it really does
	subs    *time.Time   // since when the camera program exposes
	fits    int          // as many subs as it takes before it stops
	untrue  bool         // the stage was said to stand where it does not
	promise []promised
	clouded []plan.Span
	taken   []plan.Sub
	guided  guided
	crossed int // subs in which the stage stood at its limit
	lost    int // subs in twilight, or while the target could not be used
}

// at derives the moment, as the screens do: anew when something was said, and each minute.
func (n *model) at(now time.Time) advice.Moment {
	if n.tonight == nil || now.Sub(n.derived) >= time.Minute || now.Before(n.derived) {
		n.tonight, n.derived = advice.For(n.kit, n.date, n.log, now, n.tonight), now
	}
	return n.tonight.At(now)
}

// say has an action judged by the checklist and folded in.
func (n *model) say(now time.Time, a checklist.Action) {
	m := n.at(now)
	if choice, ok := m.ChoiceBefore(a); ok {
		n.write(now, choice)
	}
	n.write(now, n.at(now).Completed(a))
}

func (n *model) write(now time.Time, a checklist.Action) {
	kind, body, err := n.steps.Say(n.log, a, n.kit.Site.Zone)
	require.NoError(n.t, err, "%T at %s", a, now)
	raw, err := json.Marshal(body)
	require.NoError(n.t, err)
	n.ordinal++
	n.written = append(n.written, journal.Event{Ordinal: n.ordinal, Night: n.date.String(), At: now, Kind: kind, Body: raw})
	n.log = n.log.Next(n.written[len(n.written)-1])
	n.derived = time.Time{}
}

// angle is where the stage really stands: it stops at its limits.
func (n *model) angle(now time.Time) sky.Angle {
	if n.anchor == nil {
		return n.stage
	}
	d := n.kit.Derotator
	limit := n.truth.Limit(*n.anchor, now)
	if limit.At.OK {
		if limit.Side == plan.MinLimit {
			return d.Min
		}
		return d.Max
	}
	return n.truth.Angle(*n.anchor, now)
}

// target is the one that the telescope points at.
func (n *model) target() kit.Target {
	if n.other {
		return n.kit.Targets[1]
	}
	return n.kit.Targets[0]
}

// trueCourse is the present target's with the axis as it really is.
func (n *model) trueCourse() *plan.Course {
	return plan.NewNight(n.kit, n.date).Course(n.target(), n.axis)
}

// does carries an action out, and returns how long that took.
func (n *model) does(now time.Time, a checklist.Action) (took time.Duration) {
	n.guides(now, a)
	switch a := a.(type) {
	case checklist.Rewound:
		took = n.truth.RewindTime(n.angle(now), a.To)
		if n.anchor != nil {
			n.anchor = &plan.Anchor{At: now.Add(took), Angle: a.To}
		}
		n.stage = a.To
	case checklist.TurnOn:
		n.anchor = &plan.Anchor{At: now, Angle: n.stage}
	case checklist.TurnOff:
		n.stage, n.anchor = n.angle(now), nil
	case checklist.StartSubs:
		n.subs, n.fits = &now, math.MaxInt
	case checklist.StopSubs:
		n.stopSubs(now)
	}
	return took
}

// stopSubs counts what the camera program took: one sub after the other, from when it was started on.
func (n *model) stopSubs(now time.Time) {
	sequence := plan.NewSequence(n.kit.Subs)
	at := *n.subs
	for range n.fits {
		sub, after, ok := sequence.Next(at)
		if !ok || sub.Exposure.To.After(now) {
			break
		}
		n.judge(sub)
		sequence, at = after, sub.Over
	}
	n.subs = nil
}

// judge tells a good sub from one that is lost.
func (n *model) judge(sub plan.Sub) {
	limit := n.truth.Limit(*n.anchor, sub.Exposure.To)
	usable := false
	for _, w := range n.truth.Windows() {
		usable = usable || !sub.Exposure.From.Before(w.From.Add(-time.Second)) && !sub.Exposure.To.After(w.To.Add(time.Second))
	}
	switch {
	case limit.At.OK:
		n.crossed++
	case !usable:
		n.lost++
	case slices.ContainsFunc(n.clouded, func(c plan.Span) bool { return c.Overlap(sub.Exposure) > 0 }):
	default:
		n.taken = append(n.taken, sub)
	}
}

func (n *model) exposed() (total time.Duration) {
	for _, sub := range n.taken {
		total += sub.Exposure.Length()
	}
	return total
}

// randomNight draws a kit, a night, and an axis within what the kit says of it. ok is false where no run is possible.
func randomNight(t require.TestingT, r *rand.Rand) (n *model, ok bool) {
	k := kit.Example()
	k.Example = false
	latitude := 15 + 45*r.Float64()
	if r.IntN(2) == 0 {
		latitude = -latitude
	}
	k.Site.Place = sky.Site{Latitude: sky.Angle(latitude) * sky.Degree, Longitude: sky.Angle(360*r.Float64()-180) * sky.Degree}
	k.Site.Zone = time.UTC
	k.Horizon = kit.NewHorizon(nil)
	travel := sky.Angle(20+160*r.Float64()) * sky.Degree
	k.Derotator.Min, k.Derotator.Max = -travel/2, travel/2
	k.Derotator.StopsAnywhere = r.IntN(2) == 0
	k.Derotator.Sense = 1 - 2*r.IntN(2)
	k.Derotator.RewindSpeed = sky.Rate(0.2+2*r.Float64()) * sky.DegreePerSecond
	k.Axis = kit.Axis{Tilt: sky.Angle(4*r.Float64()) * sky.Degree, Toward: sky.Angle(360*r.Float64()) * sky.Degree,
		Uncertainty: sky.Angle(3*r.Float64()) * sky.Degree}
	k.Subs.Filters = []kit.Filter{{Name: "L", Exposure: time.Duration(30+r.IntN(270)) * time.Second, Count: 2000}}
	place := sky.J2000{RA: sky.Angle(360*r.Float64()) * sky.Degree, Dec: sky.Angle(math.Asin(2*r.Float64() - 1))}
	k.Targets = []kit.Target{{Name: "drawn", Star: sky.Star{Place: place}}}
	place.RA, place.Dec = (place.RA + sky.Angle(10+30*r.Float64())*sky.Degree).Wrapped(), place.Dec*0.8
	k.Targets = append(k.Targets, kit.Target{Name: "other", Star: sky.Star{Place: place}})
	n = &model{t: t, kit: k, steps: checklist.Steps(), date: plan.Date{Year: 2027, Month: time.Month(1 + r.IntN(12)), Day: 1 + r.IntN(28)}}
	night := plan.NewNight(k, n.date)
	n.axis = trueAxis(k.Axis, r)
	n.truth = n.trueCourse()
	planned := night.Course(k.Targets[0], k.Axis).Schedule(plan.Start{At: night.Span.From}, plan.NewSequence(k.Subs))
	return n, planned.Exposed() > time.Hour
}

// trueAxis draws an axis within the circle that the kit's uncertainty is, known exactly.
func trueAxis(a kit.Axis, r *rand.Rand) kit.Axis {
	off, around := float64(a.Uncertainty)*math.Sqrt(r.Float64()), 2*math.Pi*r.Float64()
	east := float64(a.Tilt)*math.Sin(float64(a.Toward)) + off*math.Sin(around)
	north := float64(a.Tilt)*math.Cos(float64(a.Toward)) + off*math.Cos(around)
	return kit.Axis{Tilt: sky.Angle(math.Hypot(east, north)), Toward: sky.Angle(math.Atan2(east, north)).Wrapped()}
}
