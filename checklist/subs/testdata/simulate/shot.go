package simulate

import (
	"time"

	"duskhand/plan/framing"
	"duskhand/sky"
)

// Shot is one light: when, and what was amiss meanwhile.
type Shot struct {
	Start    time.Time
	Exposure time.Duration
	Filter   string
	Moved    framing.Pixel // by which the stars stand off at the middle of the exposure: dithers and drift
	Drift    framing.Pixel // by which they move in an hour meanwhile
	Turned   Turning       // nil while the derotator tracks
	Cloud    float64       // share of the starlight that is lost, 0 to 1
	Trail    bool          // a satellite crosses
}

// Turning is by how much the camera's position angle has grown at an instant, from the scene's.
type Turning func(time.Time) sky.Angle

// FieldAngles is what Off and Reversed follow: a course, most often.
type FieldAngles interface{ FieldAngle(time.Time) sky.Angle }

// Off returns the turning of a camera whose derotator stands still from an instant on: it keeps to the mount,
// and χ grows under it.
func Off(c FieldAngles, from time.Time) Turning { return times(1, c, from) }

// Reversed returns that of a camera whose derotator turns the wrong way.
func Reversed(c FieldAngles, from time.Time) Turning { return times(2, c, from) }

func times(k sky.Angle, c FieldAngles, from time.Time) Turning {
	start := c.FieldAngle(from)
	return func(t time.Time) sky.Angle {
		if t.Before(from) {
			return 0
		}
		return k * (c.FieldAngle(t) - start)
	}
}

// Slow returns the turning of a camera that creeps at a rate from an instant on.
func Slow(rate sky.Rate, from time.Time) Turning {
	return func(t time.Time) sky.Angle { return rate.Times(max(0, t.Sub(from))) }
}

// Mistaken returns the turning of a camera whose derotator follows one course while the mount's axis is that of
// another.
func Mistaken(followed, truth FieldAngles, from time.Time) Turning {
	start := truth.FieldAngle(from) - followed.FieldAngle(from)
	return func(t time.Time) sky.Angle { return truth.FieldAngle(t) - followed.FieldAngle(t) - start }
}

// turned returns by how much the camera has turned at t.
func (s Shot) turned(t time.Time) sky.Angle {
	if s.Turned == nil {
		return 0
	}
	return s.Turned(t)
}

// moved returns by how much the stars stand off at t, the turning apart.
func (s Shot) moved(t time.Time) framing.Pixel {
	hours := t.Sub(s.Start.Add(s.Exposure / 2)).Hours()
	return framing.Pixel{X: s.Moved.X + hours*s.Drift.X, Y: s.Moved.Y + hours*s.Drift.Y}
}
