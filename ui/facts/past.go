package facts

import (
	"time"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/sky"
)

// past lists the runs so far. Those of other targets keep their times and angles; their camera angle
// would need their own course and is left to the record.
func (t *Tonight) past(now time.Time) {
	for i, run := range t.Log.Runs {
		row := RunRow{Span: plan.Span{From: run.Start, To: run.End}, Open: run.Open, StartAngle: run.StartAngle, Target: t.Target.Name, Subs: t.subsOf[i]}
		if run.Open {
			row.To = now
		}
		if run.Target != nil {
			row.Target = run.Target.Name
		}
		if row.Target == t.Target.Name {
			t.complete(&row, run)
		} else if run.EndAngle != nil {
			row.EndAngle = *run.EndAngle
		}
		if i > 0 && !t.Log.Runs[i-1].Open {
			row.RewindBefore = max(0, run.Start.Sub(t.Log.Runs[i-1].End))
		}
		t.Past = append(t.Past, row)
	}
}

func (t *Tonight) complete(row *RunRow, run checklist.Run) {
	anchor := plan.Anchor{At: run.Start, Angle: run.StartAngle}
	row.Limit = t.Course.Limit(anchor, t.Course.Span.To)
	if run.Open && t.Anchor != nil {
		row.Limit = t.Limit
	}
	row.EndAngle = t.held(t.Course.Angle(anchor, row.To))
	if run.EndAngle != nil {
		row.EndAngle = *run.EndAngle
	}
	row.CameraAngle = t.Course.CameraAngle(run.StartAngle, run.Start)
	if run.Open && t.Log.Subs != nil {
		row.Subs += len(t.Taken.Progress(t.Log.Subs.Start, row.To).Done)
	}
}

// held keeps a computed angle within the travel: the stage stops at its limits.
func (t *Tonight) held(angle sky.Angle) sky.Angle {
	return max(t.Kit.Derotator.Min, min(angle, t.Kit.Derotator.Max))
}

// Rows returns the runs of the night in order: those so far, then those planned.
func (t *Tonight) Rows() []RunRow {
	rows := append([]RunRow(nil), t.Past...)
	if n := len(rows); n > 0 && rows[n-1].Open {
		if call, _ := t.Call(rows[n-1].To); call.After(rows[n-1].To) {
			rows[n-1].To = call
			rows[n-1].EndAngle = t.held(t.Course.Angle(*t.Anchor, call))
			if t.Log.Subs != nil {
				rows[n-1].Subs = t.LastNo
			}
		}
	}
	for i, run := range t.Ahead.Runs {
		row := RunRow{Span: run.Span, Target: t.Target.Name, Planned: true, StartAngle: run.StartAngle, EndAngle: run.EndAngle,
			CameraAngle: run.CameraAngle, Limit: run.Limit, Subs: len(run.Subs)}
		for _, rewind := range t.Ahead.Rewinds {
			if rewind.To.Equal(run.From) {
				row.RewindBefore = rewind.Length()
			}
		}
		if i == 0 && len(rows) > 0 && row.RewindBefore == 0 {
			row.RewindBefore = max(0, run.From.Sub(rows[len(rows)-1].To))
		}
		rows = append(rows, row)
	}
	return rows
}
