package advice

import (
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
