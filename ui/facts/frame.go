package facts

import (
	"math"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/checklist/subs/survey"
	"duskhand/checklist/subs/turning"
	"duskhand/plan"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Frame is what the Frame screen shows: how the target is wanted on the chip, how the chip stands or will
// stand, and what that gives. Camera angles are position angles of J2000.
type Frame struct {
	Framing checklist.Framing
	Target  kit.Target // framed so
	Sensor  framing.Sensor

	Tracking bool      // the chip stands so now; otherwise it will when the run begins
	At       time.Time // of the angle
	Reading  sky.Angle // of the derotator then
	Known    bool      // false at the end of the night: there is no angle to show
	Seen     bool      // the chip stands where the stars of the run's last light show it
	Chip     framing.Chip
	Axis     *advice.CameraAxis // of the derotator, on the chip; nil when nobody knows

	Wanted *Wanted // nil without a wanted angle
	Guide  *Guide  // nil without a guide telescope and camera
	Shared Common
	Trail  Trail
	Mosaic *Mosaic // nil for a single field

	tonight *Tonight
	next    plan.Span
}

// Wanted is what the wanted camera angle costs.
type Wanted struct {
	CameraAngle sky.Angle
	Chip        framing.Chip
	Span        plan.Span           // from when the derotator could stand there to the end of the window
	Choice      framing.AngleChoice // its angles are of date
	Off         sky.Angle           // the chip's angle less the wanted, of the turns that cover the same sky the least
	Usable      bool                // the target can still be used
}

// FramingOf returns how the night's target is wanted: as was said tonight, or else as the kit has it.
func (t *Tonight) FramingOf() checklist.Framing {
	if said, ok := t.Log.Framing(t.Target.Name); ok {
		return said
	}
	f := checklist.Framing{Target: t.Target.Name, CameraAngle: t.Target.CameraAngle, Keep: t.Target.Keep, Middle: t.Target.Middle}
	if f.Keep == "" {
		f.Keep = kit.PreferAngle
	}
	return f
}

// FrameAt derives the facts of a framing at an instant. It takes some milliseconds: the runs are planned
// once more, with one camera angle for all.
func (r Run) FrameAt(f checklist.Framing) Frame {
	t := r.Tonight
	frame := Frame{Framing: f, Target: t.Target, Sensor: framing.MainSensor(t.Kit), tonight: t}
	frame.Target.CameraAngle, frame.Target.Keep, frame.Target.Middle = f.CameraAngle, f.Keep, f.Middle
	frame.next = frame.spanOfNextRun(r)
	frame.stand(r)
	frame.want(r)
	frame.guide(r)
	frame.share(r)
	frame.trail(r)
	frame.panels(r)
	return frame
}

// stand finds the angle that the chip has now or will have when the next run begins.
func (f *Frame) stand(r Run) {
	angle := sky.Angle(0)
	switch {
	case r.Anchor != nil:
		f.Tracking, f.Known, f.At, f.Reading = true, true, r.Now, r.Angle
	case r.RewindNow().OK:
		f.Known, f.At, f.Reading = true, r.RewindNow().Begins, r.RewindNow().To
	case f.Framing.CameraAngle != nil:
		angle = *f.Framing.CameraAngle
	}
	if f.Known {
		angle = f.tonight.Course.OfJ2000(r.Course.CameraAngle(f.Reading, f.At))
	}
	centre := framing.Middle(f.Target)
	if off, ok := r.PlacedOff(); ok && f.Tracking && r.ofThisRun(off.At) { // the stars know better than what was said
		angle, f.Seen = off.AtCentre, true
		if f.Framing.Middle == f.tonight.FramingOf().Middle { // one that is being tried is drawn where it would be
			centre = off.Centre
		}
	}
	f.Chip = framing.NewChip(f.Sensor, centre, angle)
	if axis, ok := r.CameraAxis(); ok {
		f.Axis = &axis
	}
}

func (f *Frame) want(r Run) {
	if f.Framing.CameraAngle == nil {
		return
	}
	w := Wanted{CameraAngle: *f.Framing.CameraAngle, Span: f.spanOfNextRun(r)}
	w.Chip = framing.NewChip(f.Sensor, framing.Middle(f.Target), w.CameraAngle)
	w.Off = framing.Off(f.Chip.CameraAngle(), w.CameraAngle, f.Sensor.Alike())
	if w.Usable = w.Span.From.Before(w.Span.To); w.Usable {
		w.Choice = framing.ChooseAngle(r.Course, f.tonight.Course.OfDate(w.CameraAngle), f.Sensor.Alike(), w.Span)
	}
	f.Wanted = &w
}

// spanOfNextRun returns the stretch in which a run from another reading would lie: from now, or from the
// beginning of the window, to its end.
func (f *Frame) spanOfNextRun(r Run) plan.Span {
	w := r.WindowAfter(r.Now)
	return plan.Span{From: later(r.Now, w.From), To: w.To}
}

// NextSpan is when a run from another reading of the derotator could lie: from now or the beginning of the
// window to its end. ok is false at the end of the night.
func (f Frame) NextSpan() (span plan.Span, ok bool) {
	return f.next, f.next.From.Before(f.next.To)
}

// NudgeAt returns how the mount must move now so that the target comes where it is wanted, if the picture
// shows it seen pixels from the middle; ok is false where the mount cannot, or where the way depends on how
// the chip stands and nobody knows that.
//
// The chip counts as it stands now, not as it will when the run begins, and as it is turned where it shall look.
// From the middle the way is the same for every reading: the offset is one on the sky.
func (f Frame) NudgeAt(r Run, seen framing.Pixel) (n framing.Nudge, ok bool) {
	reading, known := r.readingNow()
	if r.Place.Altitude < 0 || !known && seen != (framing.Pixel{}) {
		return framing.Nudge{}, false
	}
	mount := framing.Mount{Axis: sky.MountAxis(r.Axis.Tilt, r.Axis.Toward), ChipTurn: framing.ChipTurn(r.Kit, reading)}
	to, ok := f.wantedPixel(r, mount)
	if !ok {
		return framing.Nudge{}, false
	}
	return mount.Nudge(f.Sensor, r.Place.Direction(), seen, to)
}

// wantedPixel is where the target falls on the chip once the mount looks now where the middle is wanted; ok is
// false where the field has no angle, at the mount's axis or a pole.
func (f Frame) wantedPixel(r Run, mount framing.Mount) (p framing.Pixel, ok bool) {
	middle, frame := framing.Middle(f.Target), r.Night.Frame
	chi, ok := sky.FieldAngle(frame.Pole(), frame.Direction(frame.Fix(sky.Star{Place: middle}), r.Now), mount.Axis)
	if !ok {
		return framing.Pixel{}, false
	}
	cameraAngle := frame.PositionAngleOfJ2000(middle, r.Now, chi+mount.ChipTurn)
	return framing.NewChip(f.Sensor, middle, cameraAngle).Pixel(f.Target.Star.Place)
}

// ofThisRun tells that an instant lies in the run that goes on.
func (r Run) ofThisRun(at time.Time) bool {
	last := len(r.Log.Runs) - 1
	return last >= 0 && r.Log.Runs[last].Open && !at.Before(r.Log.Runs[last].Start)
}

// readingNow returns how the derotator stands, tracking or left; known is false when nobody said.
func (r Run) readingNow() (reading sky.Angle, known bool) {
	switch {
	case r.Anchor != nil:
		return r.Angle, true
	case r.Log.Parked != nil:
		return *r.Log.Parked, true
	}
	return 0, false
}

// Trail is what would trail.
type Trail struct {
	Corner     float64 // pixels from the middle
	Pixels     float64 // trail that is allowed at the corner
	From       time.Time
	Still      time.Duration // the longest sub without derotation
	StillOK    bool          // false: it never trails by that much
	Residual   sky.Rate      // that the subs of this run show to be left; 0 if they show none
	ResidualOK time.Duration // the longest sub at it
	GuideOff   sky.Angle     // how far the guide telescope looks off, by the kit; 0 if it is not said
	GuidePixel float64       // by how much the guided field moves for each degree that it turns, pixels
}

// AtResidual finds the longest sub at a rate that the derotator leaves.
func (f *Frame) AtResidual(rate sky.Rate) {
	if sub, ok := framing.LongestSubAtRate(rate, f.Trail.Corner, f.Trail.Pixels); ok {
		f.Trail.Residual, f.Trail.ResidualOK = rate, sub
	}
}

// trailAllowed is the trail at the corner that nobody sees in a stack. Common practice.
const trailAllowed = 1.0

func (f *Frame) trail(r Run) {
	f.Trail = Trail{Corner: f.Sensor.CornerPixels(), Pixels: trailAllowed}
	span := f.spanOfNextRun(r)
	if f.Trail.From = span.From; span.From.Before(span.To) {
		f.Trail.Still, f.Trail.StillOK = framing.LongestSubStill(r.Course, span, f.Trail.Corner, trailAllowed)
	}
	if said, ok := r.Turning(); ok && said.Kind == string(turning.Residual) && !survey.AtOnce(said) {
		f.AtResidual(sky.Rate(said.RateDegPerH) * sky.Rate(sky.DegreePerHour))
	}
	if offset := r.Kit.Guide.Offset; offset != nil {
		f.Trail.GuideOff = sky.Angle(math.Hypot(float64(offset.Right), float64(offset.Up)))
		f.Trail.GuidePixel = framing.GuideShiftPixels(f.Sensor, sky.Degree, f.Trail.GuideOff)
	}
}
