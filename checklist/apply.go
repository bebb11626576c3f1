package checklist

import (
	"encoding/json"
	"slices"
	"time"

	"duskhand/checklist/journal"
	"duskhand/plan"
	"duskhand/sky"
)

// step changes the night by one event that counts. It returns false if it cannot read the body.
type step func(n *Night, e journal.Event) bool

// stepOf returns what an event of the kind does; nil if the kind is not known.
func stepOf(kind string) step {
	switch kind {
	case KindNightOpened:
		return with((*Night).opened)
	case KindTargetChosen:
		return inOrder((*Night).targetChosen)
	case KindDerotatorOn:
		return inOrder((*Night).derotatorOn)
	case KindDerotatorOff:
		return inOrder((*Night).derotatorOff)
	case KindRewound:
		return inOrder((*Night).rewound)
	case KindRead:
		return inOrder((*Night).read)
	case KindSubsStarted:
		return inOrder((*Night).subsStarted)
	case KindSubsStopped:
		return inOrder((*Night).subsStopped)
	case KindAxisMeasured:
		return with((*Night).axisMeasured)
	case KindFocused:
		return with((*Night).focused)
	case KindTemperature:
		return with((*Night).temperature)
	case KindHumidity:
		return with((*Night).humidity)
	case KindSighted:
		return with((*Night).sighted)
	case KindFramed:
		return with((*Night).framed)
	case KindDivided:
		return with((*Night).divided)
	case KindSubArrived:
		return with((*Night).subArrived)
	case KindStepDone:
		return with((*Night).stepDone)
	case KindStepSkipped:
		return with((*Night).stepSkipped)
	case KindStepFailed:
		return with((*Night).stepFailed)
	case KindNoted:
		return with((*Night).noted)
	case KindClockJumped:
		return with(func(*Night, ClockJumpedBody, time.Time) {}) // the events before it have been shifted
	}
	r, _ := rowOf(kind)
	return r.change
}

// with reads the body that a change of the night takes.
func with[Body any](change func(*Night, Body, time.Time)) step {
	return func(n *Night, e journal.Event) bool {
		body, ok := decode[Body](e)
		if ok {
			change(n, body, e.At)
		}
		return ok
	}
}

func decode[Body any](e journal.Event) (body Body, ok bool) {
	return body, json.Unmarshal(e.Body, &body) == nil
}

// inOrder is with for what must not begin before that which came before it has ended.
func inOrder[Body any](change func(*Night, Body, time.Time)) step {
	return with(func(n *Night, body Body, at time.Time) { change(n, body, n.arrange(at)) })
}

// arrange returns at, or the latest instant so far if the clock went back between them unnoticed:
// order is by ordinal, and no duration is negative.
func (n *Night) arrange(at time.Time) time.Time {
	n.Behind = max(0, n.Latest.Sub(at))
	if n.Behind == 0 {
		n.Latest = at
	}
	return n.Latest
}

// apply takes in one event that counts and is no undo.
func (n *Night) apply(e journal.Event) {
	n.Key = e.Night
	n.heard(e)
	do := stepOf(e.Kind)
	if do == nil || !do(n, e) {
		n.PassedOver = append(n.PassedOver, e.Ordinal)
		return
	}
	n.proveByKind(e)
	n.proveRow(e)
	n.keep(e)
	if canBeUndone(e.Kind) {
		n.Undoable, n.Redoable = &e, nil
	}
}

// heard notes how late the night's events lie.
func (n *Night) heard(e journal.Event) {
	if e.At.After(n.newest) {
		n.newest = e.At
	}
}

func (n *Night) opened(b NightOpenedBody, at time.Time) {
	if b.Boot != "" {
		n.Count = Count{Boot: b.Boot, Began: time.Unix(0, b.BeganNs).UTC()}
	}
	if n.Opened != nil {
		at = n.Opened.At
	}
	n.Opened = &Opened{At: at, Kit: b.Kit, Target: b.Target}
}

func (n *Night) targetChosen(b TargetChosenBody, at time.Time) {
	target := targetOf(b)
	same := n.Target != nil && *n.Target == target
	n.Target = &target
	if !same || n.Subs == nil {
		n.chosen = at
	}
	if same {
		return
	}
	n.endRun(at, angle(b.AngleDeg))
	n.wentTo(target.Name, target.Star, at)
	n.prove(KindTargetChosen, at)
	n.reopenLoop()
	if n.DerotatorOn && b.AngleDeg != nil {
		n.anchor(at, *angle(b.AngleDeg), WhyTarget)
	}
}

func targetOf(b TargetChosenBody) Target {
	const milliarcsecond = sky.MilliarcsecondPerYear
	return Target{Name: b.Name, Star: sky.Star{
		Place:  sky.J2000{RA: degrees(b.RADeg), Dec: degrees(b.DecDeg)},
		Motion: sky.ProperMotion{RA: sky.Angle(b.PMRAMasPerYr) * milliarcsecond, Dec: sky.Angle(b.PMDecMasPerYr) * milliarcsecond},
	}}
}

func degrees(value float64) sky.Angle { return sky.Angle(value) * sky.Degree }

// angle returns the angle of a body that may leave it out.
func angle(deg *float64) *sky.Angle {
	if deg == nil {
		return nil
	}
	a := degrees(*deg)
	return &a
}

// derotatorOn starts tracking from the angle given or, without one, from where the derotator stands.
// Said a second time it is a reading.
func (n *Night) derotatorOn(b DerotatorOnBody, at time.Time) {
	from := angle(b.AngleDeg)
	if n.DerotatorOn {
		if from != nil {
			n.read(ReadBody{AngleDeg: *b.AngleDeg}, at)
		}
		return
	}
	n.reopenLoop()
	n.prove(KindDerotatorOn, at)
	if from == nil {
		from = n.Parked
	}
	n.DerotatorOn, n.DerotatorSince, n.Parked = true, at, nil
	if from != nil {
		n.anchor(at, *from, WhyOn)
		n.prove(ProofOnAtAngle, at)
	}
}

func (n *Night) derotatorOff(b DerotatorOffBody, at time.Time) {
	if !n.DerotatorOn {
		return
	}
	n.endRun(at, nil)
	n.Parked = angle(b.AngleDeg)
	n.DerotatorOn, n.DerotatorSince = false, at
	n.prove(KindDerotatorOff, at)
	if n.begun {
		n.prove(ProofRunsOver, at)
	}
}

func (n *Night) rewound(b RewoundBody, at time.Time) {
	n.endRun(at, angle(b.FromDeg))
	n.prove(KindRewound, at)
	n.reopenLoop()
	if n.DerotatorOn {
		n.anchor(at, degrees(b.ToDeg), WhyRewound)
		return
	}
	n.Parked = angle(&b.ToDeg)
}

func (n *Night) read(b ReadBody, at time.Time) {
	if !n.DerotatorOn {
		n.Parked = angle(&b.AngleDeg)
		return
	}
	if _, open := n.OpenRun(); open {
		reading := Reading{At: at, Angle: degrees(b.AngleDeg)}
		n.Readings = append(n.Readings, reading)
		n.Runs[len(n.Runs)-1].Read = &reading
	}
	n.anchor(at, degrees(b.AngleDeg), WhyRead)
}

func (n *Night) subsStarted(b SubsStartedBody, at time.Time) {
	n.endSubs(at)
	n.Subs = &Subs{Filter: b.Filter, Start: at}
	for _, p := range b.Order {
		n.Subs.Order = append(n.Subs.Order, plan.FilterCount(p))
	}
	n.used, n.begun = true, true
	n.prove(KindSubsStarted, at)
}

func (n *Night) subsStopped(_ SubsStoppedBody, at time.Time) { n.endSubs(at) }

func (n *Night) axisMeasured(b AxisMeasuredBody, at time.Time) {
	n.Axis = &Axis{At: at, Tilt: degrees(b.TiltDeg), Toward: degrees(b.TowardDeg).Wrapped(),
		Uncertainty: degrees(b.UncertaintyDeg), How: b.How, By: FitBy(b.By)}
	if s := b.Spread; s != nil {
		n.Axis.Spread = &plan.Spread{East: degrees(s.EastDeg), North: degrees(s.NorthDeg), Correlation: s.Correlation}
	}
	if n.Axis.By == "" {
		n.AxisBefore = n.Axis
	}
}

func (n *Night) noted(b NotedBody, at time.Time) {
	n.Notes = append(n.Notes, Note{At: at, Text: b.Text})
}

// sealed returns n with slices that no longer share room to grow, and runs of its own, so that what is
// done to it does not show in n.
func (n Night) sealed() Night {
	n.Runs = slices.Clone(n.Runs)
	if len(n.Runs) > 0 {
		last := &n.Runs[len(n.Runs)-1]
		last.Subs = slices.Clip(last.Subs)
	}
	n.Readings, n.Notes, n.PassedOver = slices.Clip(n.Readings), slices.Clip(n.Notes), slices.Clip(n.PassedOver)
	n.marks = slices.Clip(n.marks)
	n.Temperatures, n.Humidities, n.Arrived = slices.Clip(n.Temperatures), slices.Clip(n.Humidities), slices.Clip(n.Arrived)
	return n
}
