package advice

import (
	"duskhand/plan"
	"duskhand/plan/framing"
	"duskhand/sky"
)

// CameraAxis is where the derotator's axis meets the chip, from its middle as the picture shows it. Sigma is one σ of
// how far from there it may be, pixels, and Turns from how many turns it was learned: both 0 where the kit says it.
type CameraAxis struct {
	At    framing.Pixel
	Sigma float64
	Turns int
}

// mountMoves is by how much a mount moves beside a turn of the derotator, one σ. Common practice.
const mountMoves = 5 * sky.Arcsecond

// CameraAxis returns where the axis is, by the kit or from tonight's turns; ok is false where neither tells. It learns
// only from the last light before a turn and the first after, where nothing else moved the picture between.
func (m Moment) CameraAxis() (a CameraAxis, ok bool) {
	if said := m.Kit.Camera.Axis; said != nil {
		return CameraAxis{At: framing.Pixel{X: said.Right, Y: said.Up}}, true
	}
	sensor := framing.MainSensor(m.Kit)
	var turns []framing.AxisTurn
	for _, light := range m.Log.Arrived {
		t := light.Turned
		if t == nil || !t.Free || t.Parity == 0 {
			continue
		}
		up := float64(t.Parity) // the picture's up is the file's Y where neither it nor the file is mirrored, or both are
		if sensor.Mirrored {
			up = -up
		}
		turns = append(turns, framing.AxisTurn{About: framing.Pixel{X: t.AboutX, Y: up * t.AboutY}, By: sky.Angle(t.RotationDeg) * sky.Degree, Error: t.ErrorPx})
	}
	a.Turns = len(turns)
	a.At, a.Sigma, ok = framing.AxisOf(turns, float64(mountMoves/sensor.PerPixel))
	return a, ok
}

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
func (m Moment) Recentring() (r Recentring, ok bool) {
	axis, known := m.CameraAxis()
	if !known || m.Place.Altitude <= 0 {
		return Recentring{}, false
	}
	from, to, done, ok := m.turn()
	if !ok {
		return Recentring{}, false
	}
	sensor := framing.MainSensor(m.Kit)
	was, now := m.wantedAt(sensor, from), m.wantedAt(sensor, to)
	grew := -sky.Angle(m.Kit.Derotator.Sense) * (to - from)
	r = Recentring{Seen: sensor.TurnedAbout(axis.At, was, grew), Wanted: now, Turned: to - from, Done: done}
	r.Sigma = axis.Sigma * 2 * (grew.Abs() / 2).Sin()
	mount := framing.Mount{Axis: sky.MountAxis(m.Axis.Tilt, m.Axis.Toward), ChipTurn: framing.ChipTurn(m.Kit, to)}
	r.Nudge, ok = mount.Nudge(sensor, m.Place.Direction(), r.Seen, now)
	return r, ok
}

// turn is from where to where the stage has just turned, or is to turn next.
func (m Moment) turn() (from, to sky.Angle, done, ok bool) {
	if m.Anchor == nil || m.Log.Anchor == nil {
		return 0, 0, false, false
	}
	if n := len(m.Log.Runs); n > 1 && m.Log.Subs == nil && len(m.InRun) == 0 && !m.isRecentred() {
		before := m.Log.Runs[n-2]
		if m.Log.Runs[n-1].Start.Equal(before.End) && before.EndAngle != nil {
			return *before.EndAngle, m.Log.Runs[n-1].StartAngle, true, true
		}
	}
	if m.Next().OK && m.Call.For == plan.ForLimit {
		return m.Held(m.Course.Angle(*m.Anchor, m.Call.At)), m.Next().To, false, true
	}
	return 0, 0, false, false
}

// isRecentred tells that the target was brought back in the run that is open.
func (m Moment) isRecentred() bool {
	run, open := m.Log.OpenRun()
	return open && m.Log.Recentred != nil && !m.Log.Recentred.Before(run.Start)
}

// wantedAt is where the picture shows the target when it stands where it is wanted, the derotator at an angle.
func (m Moment) wantedAt(s framing.Sensor, reading sky.Angle) framing.Pixel {
	angle := m.Course.OfJ2000(m.Course.CameraAngle(reading, m.Now))
	p, _ := framing.NewChip(s, framing.Middle(m.Target), angle).Pixel(m.Target.Star.Place)
	return p
}
