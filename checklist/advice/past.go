package advice

import (
	"slices"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/tally"
	"duskhand/plan"
	"duskhand/sky"
)

// RunRow is one run of the table of the night, over, going on or planned.
type RunRow struct {
	plan.Span
	Target               string
	Open, Planned        bool
	StartAngle, EndAngle sky.Angle
	CameraAngle          sky.Angle // J2000
	Limit                plan.Limit
	Subs                 int
	Early                int           // beside those: taken while it was not dark
	Rewound              bool          // a rewind came, or will come, before it
	RewindTakes          time.Duration // how long; 0 if unknown
}

// Past lists the runs so far, each with the course of its own target.
func (t *Tonight) Past() []RunRow { return t.past() }

func (t *Tonight) runsSoFar() (past []RunRow) {
	for i, run := range t.Log.Runs {
		target := tally.Chosen(t.Kit, t.Log, run.Target)
		row := RunRow{Span: plan.Span{From: run.Start, To: run.End}, Open: run.Open, StartAngle: run.StartAngle,
			Target: target.Name, Subs: len(t.subs.Runs[i]) - t.subs.Early[i], Early: t.subs.Early[i], Rewound: i > 0}
		course := t.Course
		if target.Name != t.Target.Name {
			course = t.CourseOf(target)
		}
		if run.Open {
			row.To = t.now
		}
		t.complete(&row, run, course)
		past = append(past, row)
	}
	return past
}

func (t *Tonight) complete(row *RunRow, run checklist.Run, course *plan.Course) {
	at, known := run.Known()
	anchor := plan.Anchor{At: at, Angle: known}
	if window, ok := plan.WindowFor(t.kept.windows(course), run.Start); ok {
		row.Limit = course.Limit(anchor, window.To)
	}
	row.EndAngle = t.Held(course.Angle(anchor, row.To))
	if run.EndAngle != nil {
		row.EndAngle = *run.EndAngle
	}
	row.CameraAngle = course.OfJ2000(course.CameraAngle(known, at))
	if run.Open && t.Subs != nil && !t.subs.Watched() {
		taken, early := t.countedApart(t.going.Progress(t.Subs.Start, row.To).Done)
		row.Subs, row.Early = row.Subs+taken, row.Early+early
	}
}

// Rows returns the runs of the night in order: those so far, then those planned.
func (t *Tonight) Rows() []RunRow {
	rows := slices.Clone(t.Past())
	if n := len(rows); n > 0 && rows[n-1].Open {
		t.carryOn(&rows[n-1])
	}
	for i, run := range t.Ahead().Runs {
		row := RunRow{Span: run.Span, Target: t.Target.Name, Planned: true, StartAngle: run.StartAngle, EndAngle: run.EndAngle,
			CameraAngle: t.Course.OfJ2000(run.CameraAngle), Limit: run.Limit, Subs: len(run.Subs), Rewound: i > 0 || len(rows) > 0}
		for _, rewind := range t.Ahead().Rewinds {
			if !rewind.To.After(run.From) {
				row.RewindTakes = rewind.Length() // the last before the run
			}
		}
		rows = append(rows, row)
	}
	end := t.Night.Span.From
	if n := len(rows); n > 0 {
		end = rows[n-1].To
	}
	return append(rows, t.laterRows(end)...)
}

// countedApart counts subs of the present target in the dark, and those that are not.
func (t *Tonight) countedApart(subs []plan.Sub) (taken, early int) {
	for _, sub := range subs {
		if tally.InTheDark(t.Course.Dark, sub) {
			taken++
		} else {
			early++
		}
	}
	return taken, early
}

// carryOn takes the run that is going on to its call.
func (t *Tonight) carryOn(row *RunRow) {
	call, ok := t.Call(row.To)
	last, any := call.Last()
	if !ok || !any || !last.Over.After(row.To) {
		return
	}
	row.To = last.Over
	row.EndAngle = t.Held(t.Course.Angle(*t.Anchor, row.To))
	row.Subs, row.Early = t.countedApart(append(slices.Clone(t.InRun), call.Subs...))
}
