package record

import (
	"slices"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/frames/stage"
	"duskhand/checklist/tally"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// report works the night out: angles, common fields, what is owed.
func (l log) report() Night {
	sun := plan.NewNight(l.kit, l.date)
	n := Night{Date: l.date, Span: sun.Span, Axis: tally.Axis(l.kit, l.night), Strays: l.strays, Lights: l.placed, Gotos: l.night.Landings}
	if l.night.Axis != nil {
		n.AxisHow = l.night.Axis.How
	}
	courses := map[string]*plan.Course{}
	for i, run := range l.runs {
		name := run.target.Name
		if courses[name] == nil {
			exact := n.Axis
			exact.Uncertainty = 0 // no bounds are asked for
			courses[name] = sun.Course(run.target, exact)
		}
		at := slices.IndexFunc(n.Targets, func(t Target) bool { return t.Name == name })
		if at < 0 {
			at, n.Targets = len(n.Targets), append(n.Targets, Target{Name: name})
		}
		n.Targets[at].Runs = append(n.Targets[at].Runs, l.run(i, courses[name], sun.Frame))
	}
	for i := range n.Targets {
		n.Targets[i].compare(l.kit)
		n.Targets[i].Counts = sum(l.kit, n.Targets[i].Runs)
	}
	n.Rewinds = l.rewinds()
	n.Mentions = l.withCalibrations(append(l.mentions(), l.gotos()...), sun, n.Axis)
	n.Owed = l.owed(n.Targets)
	n.underTheSky(sun)
	return n
}

func (l log) run(i int, course *plan.Course, frame *sky.Frame) Run {
	from := l.runs[i]
	run := Run{Span: plan.Span{From: from.Start, To: from.End}, Number: i + 1, Open: from.Open, StartAngle: from.StartAngle}
	if run.Open {
		run.To = later(from.Start, l.openTill)
	}
	at, known := from.Known()
	run.CameraAngle = course.OfJ2000(course.CameraAngle(known, at))
	if from.EndAngle != nil {
		run.EndAngle, run.EndRead = *from.EndAngle, true
	} else {
		d := l.kit.Derotator // the stage stops at its limits
		run.EndAngle = max(d.Min, min(course.Angle(plan.Anchor{At: at, Angle: known}, run.To), d.Max))
	}
	run.Filters = byFilter(l.kit, from.subs, course.Dark, frame)
	run.Stage = stage.Follow(slices.DeleteFunc(stage.SeenOf(l.night, course), func(s stage.Seen) bool { return s.Run != i }), course)
	run.Frames = l.measured[i]
	run.Seen = seenIn(run.Number, l.placed)
	return run
}

// byFilter sorts the subs of one run by filter, in the kit's order.
func byFilter(k kit.Kit, subs []plan.Sub, dark []plan.Span, frame *sky.Frame) (filters []FilterSubs) {
	for _, filter := range k.Subs.Filters {
		f := FilterSubs{Filter: filter.Name, Exposure: filter.Exposure}
		for i, sub := range subs {
			if sub.Filter.Name != filter.Name {
				continue
			}
			if f.First.IsZero() {
				f.First, f.Exposure = sub.Exposure.From, sub.Filter.Exposure
			}
			if tally.InTheDark(dark, sub) {
				f.Count++
			} else {
				f.Early++
			}
			f.Last = sub.Exposure.To
			f.Sun = append(f.Sun, frame.Sun(sub.Exposure.From.Add(sub.Exposure.Length()/2)).Altitude)
			if last := len(f.Numbers) - 1; last >= 0 && f.Numbers[last].To == i {
				f.Numbers[last].To = i + 1
			} else {
				f.Numbers = append(f.Numbers, Stretch{i + 1, i + 1})
			}
		}
		if f.Count+f.Early > 0 {
			filters = append(filters, f)
		}
	}
	return filters
}

// sum adds the subs of runs up by filter.
func sum(k kit.Kit, runs []Run) (filters []FilterSubs) {
	for _, filter := range k.Subs.Filters {
		all := FilterSubs{Filter: filter.Name, Exposure: filter.Exposure}
		for _, run := range runs {
			for _, f := range run.Filters {
				if f.Filter != filter.Name {
					continue
				}
				if all.First.IsZero() {
					all.First, all.Exposure = f.First, f.Exposure
				}
				all.Count, all.Early, all.Last = all.Count+f.Count, all.Early+f.Early, f.Last
			}
		}
		if all.Count+all.Early > 0 {
			filters = append(filters, all)
		}
	}
	return filters
}

// rewinds lists the turnings back, with what they cost in exposure.
func (l log) rewinds() (all []Rewind) {
	for _, e := range l.events {
		body, ok := bodyOf[checklist.RewoundBody](e, checklist.KindRewound)
		if !ok {
			continue
		}
		r := Rewind{At: e.At, To: sky.Angle(body.ToDeg) * sky.Degree}
		if body.FromDeg != nil {
			from := sky.Angle(*body.FromDeg) * sky.Degree
			r.From = &from
			turned := (r.To - from).Abs()
			r.Turning = time.Duration(float64(turned) / float64(l.kit.Derotator.RewindSpeed) * float64(time.Second))
		}
		r.Pause, r.Pauses = l.pause(e.At)
		all = append(all, r)
	}
	return all
}

// pause returns how long no exposure went on around an instant.
func (l log) pause(at time.Time) (length time.Duration, ok bool) {
	var before, after time.Time
	for _, run := range l.runs {
		for _, sub := range run.subs {
			switch {
			case !sub.Exposure.To.After(at):
				before = later(before, sub.Exposure.To)
			case !sub.Exposure.From.Before(at) && after.IsZero():
				after = sub.Exposure.From
			}
		}
	}
	return after.Sub(before), !before.IsZero() && !after.IsZero()
}
