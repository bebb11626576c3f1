package frame

import (
	"math"
	"slices"

	"duskhand/checklist"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/ui/keys"
)

// What the keys do. They change a draft, which a key or a few quiet seconds make part of the night.

// drafted tells whether a key changes the framing.
func drafted(action keys.Action) bool {
	return slices.Contains([]keys.Action{keys.Up, keys.Down, keys.Left, keys.Right, keys.TurnBack,
		keys.TurnOn, keys.TurnBackFar,
		keys.TurnOnFar, keys.Keep, keys.Middle}, action)
}

// changed is the framing after a key.
func (m view) changed(action keys.Action) checklist.Framing {
	f := m.framing(m.Status)
	switch action {
	case keys.Left:
		f.Middle = m.shifted(f, -1, 0)
	case keys.Right:
		f.Middle = m.shifted(f, +1, 0)
	case keys.Up:
		f.Middle = m.shifted(f, 0, +1)
	case keys.Down:
		f.Middle = m.shifted(f, 0, -1)
	case keys.TurnBack:
		f = m.turned(f, -1*sky.Degree)
	case keys.TurnOn:
		f = m.turned(f, +1*sky.Degree)
	case keys.TurnBackFar:
		f = m.turned(f, -10*sky.Degree)
	case keys.TurnOnFar:
		f = m.turned(f, +10*sky.Degree)
	case keys.Middle:
		f.Middle = kit.SkyOffset{}
	case keys.Keep:
		f.Keep = afterwards(f.Keep)
	}
	return f
}

// afterwards is the next of the ways to keep an angle.
func afterwards(keep kit.KeepAngle) kit.KeepAngle {
	switch keep {
	case kit.PreferAngle:
		return kit.AlwaysKeep
	case kit.AlwaysKeep:
		return kit.NeverKeep
	}
	return kit.PreferAngle
}

// turned turns the wanted angle; the first time from where the chip stands, to the whole degree.
func (m view) turned(f checklist.Framing, by sky.Angle) checklist.Framing {
	from := m.facts.Chip.CameraAngle()
	if f.CameraAngle != nil {
		from = *f.CameraAngle
	}
	angle := (sky.Angle(math.Round((from + by).Degrees())) * sky.Degree).Wrapped()
	f.CameraAngle = &angle
	return f
}

// shiftStep is how far one press moves the frame, as a share of the chip's shorter side.
const shiftStep = 0.05

// shifted moves the middle of the chip across the drawing.
func (m view) shifted(f checklist.Framing, right, up float64) kit.SkyOffset {
	width, height := m.facts.Sensor.PlaneSize()
	view := m.looks.Of(m.facts)
	step := float64(min(width, height)*shiftStep) / float64(view.PerPixel)
	at, _ := view.Pixel(m.facts.Chip.Centre())
	moved := view.Sky(framing.Pixel{X: at.X + right*step, Y: at.Y + up*step})
	offset, _ := framing.NewTangentPlane(m.facts.Target.Star.Place).Project(moved)
	return kit.SkyOffset{East: roundTo(offset.East, tenthOfArcminute),
		North: roundTo(offset.North, tenthOfArcminute)}
}

const tenthOfArcminute = 0.1 * sky.Arcminute

func roundTo(a, step sky.Angle) sky.Angle { return sky.Angle(math.Round(float64(a/step))) * step }
