package advice

import (
	"time"

	"duskhand/plan"
	"duskhand/plan/framing"
	"duskhand/sky"
)

// Recentring is what a turn of the derotator does to the picture, before anybody looks: where the target stands that was
// where it is wanted, how the mount's axes are moved to bring it back, and one σ of that place, pixels.
type Recentring struct {
	Seen, Wanted framing.Pixel
	Nudge        framing.Nudge
	Sigma        float64
	Turned       sky.Angle // of the stage
	Done         bool      // the turn is over and the target is to be brought back; false: the next one
}

// Recentring returns what the last turn has done, while the target has not been brought back, or what the next will; ok
// is false where the axis is not known, no turn comes, or the mount can't make the move.
//
// Valid: the mount tracks through the turn, so that the derotator's axis looks at the same place of the sky.
func (m Moment) Recentring() (r Recentring, ok bool) {
	axis, known := m.CameraAxis()
	if !known {
		return Recentring{}, false
	}
	t, ok := m.turn()
	if !ok {
		return Recentring{}, false
	}
	place := m.Course.Place(t.after.at)
	if place.Altitude <= 0 {
		return Recentring{}, false
	}
	sensor := framing.MainSensor(m.Kit)
	was, now := m.wantedAt(sensor, t.before), m.wantedAt(sensor, t.after)
	grew := -sky.Angle(m.Kit.Derotator.Sense) * t.by
	r = Recentring{Seen: sensor.TurnedAbout(axis.At, was, grew), Wanted: now, Turned: t.by, Done: t.done}
	r.Sigma = axis.Sigma * 2 * (grew.Abs() / 2).Sin()
	mount := framing.Mount{Axis: sky.MountAxis(m.Axis.Tilt, m.Axis.Toward), ChipTurn: framing.ChipTurn(m.Kit, t.after.reading)}
	r.Nudge, ok = mount.Nudge(sensor, place.Direction(), r.Seen, now)
	return r, ok
}

// stands is a reading of the derotator at an instant.
type stands struct {
	at      time.Time
	reading sky.Angle
}

// stageTurn is a turn of the stage by an angle, how it stood before and how when the target is brought back: what it
// tracked meanwhile is no turn.
type stageTurn struct {
	before, after stands
	by            sky.Angle
	done          bool
}

// turn is how the stage has just turned, or is to turn next.
func (m Moment) turn() (t stageTurn, ok bool) {
	if m.Anchor == nil || m.Log.Anchor == nil {
		return stageTurn{}, false
	}
	if n := len(m.Log.Runs); n > 1 && m.Log.Subs == nil && len(m.InRun) == 0 && !m.isRecentred() {
		before, run := m.Log.Runs[n-2], m.Log.Runs[n-1]
		if run.Start.Equal(before.End) && before.EndAngle != nil {
			return stageTurn{stands{before.End, *before.EndAngle}, stands{m.Now, m.Angle}, run.StartAngle - *before.EndAngle, true}, true
		}
	}
	next := m.Next()
	if !next.OK || m.Call.For != plan.ForLimit {
		return stageTurn{}, false
	}
	end := m.Held(m.Course.Angle(*m.Anchor, m.Call.At))
	over := later(next.Begins, m.Call.At.Add(m.Course.RewindTime(end, next.To)))
	return stageTurn{stands{m.Call.At, end}, stands{over, next.To}, next.To - end, false}, true
}

// isRecentred tells that the target was brought back in the run that is open.
func (m Moment) isRecentred() bool {
	run, open := m.Log.OpenRun()
	return open && m.Log.Recentred != nil && !m.Log.Recentred.Before(run.Start)
}

// wantedAt is where the picture shows the target when it stands where it is wanted.
func (m Moment) wantedAt(s framing.Sensor, stage stands) framing.Pixel {
	angle := m.Course.OfJ2000(m.Course.CameraAngle(stage.reading, stage.at))
	p, _ := framing.NewChip(s, framing.Middle(m.Target), angle).Pixel(m.Target.Star.Place)
	return p
}
