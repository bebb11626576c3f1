package facts

import (
	"time"

	"duskhand/plan"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Common is what the night's frames of the target share.
type Common struct {
	Runs    []framing.Shared // after the first run, the first two and so on
	Exposed time.Duration    // that the plan still gives
	Outline bool             // the object's size is known

	// Alike is the plan in which every run has one angle, or angles that cover the same sky.
	AlikeAngle   sky.Angle // J2000
	AlikeExposed time.Duration
	AlikeRuns    int
}

// Last returns what all runs share; ok is false when there are none.
func (c Common) Last() (s framing.Shared, ok bool) {
	if len(c.Runs) == 0 {
		return framing.Shared{}, false
	}
	return c.Runs[len(c.Runs)-1], true
}

// share compares the frames of the night's runs of the target, those so far that gave subs and those planned
// under the framing, and the plan in which all are alike.
func (f *Frame) share(r Run) {
	c := r.Course.WithRule(r.Night.RuleFor(f.Target))
	planned, exposed := r.Ahead(), r.SubsLeft()
	if c.Rule != r.Course.Rule {
		planned = c.Schedule(plan.Start{At: r.Now, Stage: r.Stands}, r.SequenceFromNow())
		exposed = planned.Exposed()
	}
	angles := f.anglesSoFar(r)
	for _, run := range planned.Runs {
		angles = append(angles, f.tonight.Course.OfJ2000(run.CameraAngle))
	}
	var outline *framing.Ellipse
	if e, ok := framing.OutlineOf(f.Target.Object); ok {
		outline = &e
	}
	f.Shared.Outline = outline != nil
	from := framing.PlanePoint{East: -f.Framing.Middle.East, North: -f.Framing.Middle.North}
	f.Shared.Runs = framing.SharedBy(f.Sensor, angles, outline, from)
	f.Shared.Exposed = exposed
	f.alike(r, angles)
}

func (f *Frame) anglesSoFar(r Run) []sky.Angle {
	var angles []sky.Angle
	for _, row := range r.Past() {
		if row.Target == f.Target.Name && (row.Subs > 0 || row.Open) {
			angles = append(angles, row.CameraAngle)
		}
	}
	return angles
}

// alike plans the rest of the night at one angle: that of the first frames, or the wanted one before there
// are any, or that of the longest run.
func (f *Frame) alike(r Run, angles []sky.Angle) {
	var wanted *sky.Angle
	switch {
	case len(f.anglesSoFar(r)) > 0:
		angle := f.tonight.Course.OfDate(angles[0])
		wanted = &angle
	case f.Framing.CameraAngle != nil && f.Framing.Keep != kit.NeverKeep:
		angle := f.tonight.Course.OfDate(*f.Framing.CameraAngle)
		wanted = &angle
	}
	runs := framing.CoincidingRuns(r.Course, r.Now, r.Stands, wanted, f.Sensor.Alike(), r.SequenceFromNow())
	f.Shared.AlikeExposed, f.Shared.AlikeRuns = runs.Exposed(), len(runs.Runs)
	if len(runs.Runs) > 0 {
		f.Shared.AlikeAngle = f.tonight.Course.OfJ2000(runs.Runs[0].CameraAngle)
	}
}

// FirstChip returns the chip as it stands in the first of the runs that are compared.
func (f Frame) FirstChip() framing.Chip {
	if len(f.Shared.Runs) == 0 {
		return f.Chip
	}
	return framing.NewChip(f.Sensor, f.Chip.Centre(), f.Shared.Runs[0].CameraAngles[0])
}
