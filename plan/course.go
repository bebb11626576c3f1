package plan

import (
	"time"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// trackStep is the distance of a course's samples in time. A target moves half a degree in it, so that
// between samples everything turns at most once.
const trackStep = 2 * time.Minute

// Course is a target's way through a night, for the mount's axis as known and for all that it may be.
type Course struct {
	Kit    kit.Kit // its subs as the target wants them
	Target kit.Target
	Axis   kit.Axis
	Span   Span   // the stretch that is followed
	Dark   []Span // the dark part of it
	Rule   AngleRule

	frame   *sky.Frame
	track   *sky.Track
	axes    region
	nominal *sky.Path
	chi     []float64   // of the nominal path, at the track's samples
	rim     *rim        // nil when the axis is known exactly
	limits  *limitsKept // that were asked for
	turns   []Span      // of the target among others; nil when it has the night to itself
}

// Course follows target through the night with the axis given, which may be better known by now than
// the kit's.
func (n *Night) Course(target kit.Target, axis kit.Axis) *Course {
	return n.CourseWithin(target, axis, nil)
}

// CourseWithin is Course for an axis whose spread a fit has given: the bounds are taken over its ellipse
// instead of the circle of the axis's uncertainty. A nil spread leaves the circle.
func (n *Night) CourseWithin(target kit.Target, axis kit.Axis, spread *Spread) *Course {
	axes := circleOf(axis)
	if spread != nil {
		axes = ellipseOf(*spread, axis)
	}
	c := newCourse(n.Kit, n.Frame, n.Span, target, axis, axes)
	c.Dark, c.Rule = n.DarkFor(target), n.RuleFor(target)
	return c
}

// NewCourse follows target through a stretch of time, of at most a day around the frame's middle, in
// which no darkness is known.
func NewCourse(k kit.Kit, frame *sky.Frame, span Span, target kit.Target, axis kit.Axis) *Course {
	return newCourse(k, frame, span, target, axis, circleOf(axis))
}

func newCourse(k kit.Kit, frame *sky.Frame, span Span, target kit.Target, axis kit.Axis, axes region) *Course {
	c := &Course{Kit: k.For(target), Target: target, Axis: axis, Span: span, frame: frame, axes: axes, limits: &limitsKept{}}
	c.track = frame.Track(frame.Fix(target.Star), span.From, span.To, trackStep)
	c.nominal = c.track.Path(axes.centre)
	c.chi = atSamples(c.nominal)
	c.rim = c.newRim()
	return c
}

// atSamples returns χ of a path at the samples of its track, in radians; a path has knots between them too.
func atSamples(path *sky.Path) (chi []float64) {
	times := path.Track().Times()
	for _, knot := range path.Knots() {
		if len(chi) < len(times) && knot.At.Equal(times[len(chi)]) {
			chi = append(chi, float64(knot.Chi))
		}
	}
	return chi
}

// Place returns where the target stands at t, airless.
func (c *Course) Place(t time.Time) sky.Horizontal { return c.track.At(t).Horizontal() }

// AboutAxis returns the target's altitude about the mount's axis at t, which is what the keyhole counts
// from: 90° at the axis itself.
func (c *Course) AboutAxis(t time.Time) sky.Angle {
	return 90*sky.Degree - c.track.At(t).Separation(c.nominal.Axis())
}

// FieldAngle returns χ at t, unwrapped through the night, for the axis as known.
func (c *Course) FieldAngle(t time.Time) sky.Angle { return c.nominal.At(t) }

// FieldRate returns dχ/dt at t for the axis as known, positive through east.
func (c *Course) FieldRate(t time.Time) sky.Rate { return c.nominal.Rate(t) }

// Reversals returns the instants in span at which the field stops and turns back.
func (c *Course) Reversals(span Span) []time.Time {
	var within []time.Time
	for _, t := range c.nominal.Reversals() {
		if span.Contains(t) {
			within = append(within, t)
		}
	}
	return within
}

// CameraAngle returns the position angle (of date) of the chip's up direction while the derotator reads angle
// at t: χ, plus the chip's angle from the mount's up at reading 0, minus what the derotator has turned.
// It stays constant while the derotator tracks. [0°, 360°).
func (c *Course) CameraAngle(angle sky.Angle, t time.Time) sky.Angle {
	d := c.Kit.Derotator
	return (c.FieldAngle(t) + c.Kit.Camera.AngleAtZero - sky.Angle(d.Sense)*angle).Wrapped()
}

// OfJ2000 takes a position angle of date at the target to the one of J2000, which people and catalogues mean.
func (c *Course) OfJ2000(ofDate sky.Angle) sky.Angle {
	return c.frame.PositionAngleOfJ2000(c.Target.Star.Place, c.Span.From, ofDate)
}

// OfDate undoes OfJ2000.
func (c *Course) OfDate(ofJ2000 sky.Angle) sky.Angle {
	return c.frame.PositionAngleOfDate(c.Target.Star.Place, c.Span.From, ofJ2000)
}

// UpUntil returns when the target first sinks below an airless altitude after from, or the end of the
// course if it does not; from itself when it is below already.
func (c *Course) UpUntil(floor sky.Angle, from time.Time) time.Time {
	if c.Place(from).Altitude < floor {
		return from
	}
	curve := sky.Sample(func(t time.Time) sky.Angle { return c.track.At(t).Altitude() }, from, c.Span.To, 2*trackStep)
	for _, crossing := range curve.Crossings(floor) {
		if !crossing.Rising {
			return crossing.At
		}
	}
	return c.Span.To
}
