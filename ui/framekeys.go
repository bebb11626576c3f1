package ui

import (
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/ui/frame"
	"duskhand/ui/keys"
)

// What the Frame screen's keys do. They change a draft, which a key or a few quiet seconds make part of the
// night.

// farthestZoom bounds the zoom both ways: from a tenth of the usual field to ten times it.
const farthestZoom = 10

// framed handles the keys of the Frame screen that change nothing but the drawing or the draft.
func (m Model) framed(action keys.Action) (Model, bool) {
	if m.screen != keys.FrameScreen || m.tonight == nil {
		return m, false
	}
	switch action {
	case keys.Closer:
		m.frame.view.Zoom = min(m.frame.view.Zoom+1, farthestZoom)
	case keys.Wider:
		m.frame.view.Zoom = max(m.frame.view.Zoom-1, -farthestZoom)
	case keys.AsSeen:
		m.frame.view.AsCamera = !m.frame.view.AsCamera
	default:
		if !drafted(action) {
			return m, false
		}
		m = m.draft(action)
	}
	return m, true
}

// drafted tells whether a key changes the framing.
func drafted(action keys.Action) bool {
	return slices.Contains([]keys.Action{keys.Up, keys.Down, keys.Left, keys.Right, keys.TurnBack, keys.TurnOn, keys.TurnBackFar,
		keys.TurnOnFar, keys.Keep, keys.Middle}, action)
}

// draft changes the draft by a key.
func (m Model) draft(action keys.Action) Model {
	if m.follows != "" {
		m.asking = m.askWhoWrites()
		return m
	}
	f := m.framing()
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
	m.frame.draft, m.frame.idle = &f, 0
	return m.deriveFrame()
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
func (m Model) turned(f checklist.Framing, by sky.Angle) checklist.Framing {
	from := m.frame.facts.Chip.CameraAngle()
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
func (m Model) shifted(f checklist.Framing, right, up float64) kit.SkyOffset {
	width, height := m.frame.facts.Sensor.PlaneSize()
	view := m.frame.view.Of(m.frame.facts)
	step := float64(min(width, height)*shiftStep) / float64(view.PerPixel)
	at, _ := view.Pixel(m.frame.facts.Chip.Centre())
	moved := view.Sky(framing.Pixel{X: at.X + right*step, Y: at.Y + up*step})
	offset, _ := framing.NewTangentPlane(m.frame.facts.Target.Star.Place).Project(moved)
	return kit.SkyOffset{East: roundTo(offset.East, tenthOfArcminute), North: roundTo(offset.North, tenthOfArcminute)}
}

const tenthOfArcminute = 0.1 * sky.Arcminute

func roundTo(a, step sky.Angle) sky.Angle { return sky.Angle(math.Round(float64(a/step))) * step }

// keepFraming makes the draft part of the night.
func (m Model) keepFraming() (Model, tea.Cmd) {
	if m.frame.draft == nil {
		return m, nil
	}
	f := *m.frame.draft
	m.frame.draft = nil
	return m.say(checklist.FrameTarget{Framing: f})
}

// quietSeconds is how long after the last key a draft is kept by itself, so that nothing entered is lost.
const quietSeconds = 8

// rested keeps the draft when the keys have been quiet for a while.
func (m Model) rested() (Model, tea.Cmd) {
	if m.frame.draft == nil {
		return m, nil
	}
	if m.frame.idle++; m.frame.idle < quietSeconds {
		return m, nil
	}
	return m.keepFraming()
}

// askFraming asks for the wanted angle and the middle of the chip in numbers.
func (m Model) askFraming() *prompt {
	return newPrompt("camera angle; then, if the object is not to be in the middle, how far the middle lies east and north of it, in arcminutes", "", func(text string) (intent, error) {
		right := errors.New("give an angle from 0 to 360°, or any, and two numbers in arcminutes or none: 90 12 -5")
		words := strings.Fields(strings.ReplaceAll(text, ",", " "))
		if len(words) != 1 && len(words) != 3 {
			return nil, right
		}
		f := m.framing()
		f.CameraAngle = nil
		if words[0] != "any" {
			numbers, err := readNumbers(words[0])
			if err != nil || len(numbers) != 1 || numbers[0] < 0 || numbers[0] >= 360 {
				return nil, right
			}
			angle := degrees(numbers[0])
			f.CameraAngle = &angle
		}
		if len(words) == 3 {
			numbers, err := readNumbers(words[1] + " " + words[2])
			if err != nil || math.Abs(numbers[0]) > 1200 || math.Abs(numbers[1]) > 1200 {
				return nil, right
			}
			f.Middle = kit.SkyOffset{East: sky.Angle(numbers[0]) * sky.Arcminute, North: sky.Angle(numbers[1]) * sky.Arcminute}
		}
		return saying(checklist.FrameTarget{Framing: f}), nil
	})
}

// askSeen asks where in the picture the object is.
func (m Model) askSeen() *prompt {
	return newPrompt("the object is at: pixels right of the picture's middle, pixels up", "the middle", func(text string) (intent, error) {
		at := framing.Pixel{}
		if text != "" {
			numbers, err := readNumbers(text)
			if err != nil || len(numbers) != 2 {
				return nil, errors.New("give two numbers in pixels, right and up of the middle, left and down negative: -320 150")
			}
			at = framing.Pixel{X: numbers[0], Y: numbers[1]}
		}
		return func(m Model) (Model, tea.Cmd) { m.frame.seen = at; return m, nil }, nil
	})
}

// askGrid asks for a mosaic.
func (m Model) askGrid() *prompt {
	proposal := ""
	if rows, columns, ok := m.frame.facts.NeededPanels(frame.UsualOverlap); ok && rows*columns > 1 {
		proposal = strconv.Itoa(rows) + " " + strconv.Itoa(columns)
	}
	return newPrompt("rows and columns of a mosaic, and the overlap in % if not 15; 1 1 for none", proposal, func(text string) (intent, error) {
		if text == "" {
			text = proposal
		}
		numbers, err := readNumbers(strings.NewReplacer("x", " ", "×", " ", "%", " ").Replace(text))
		if err != nil || len(numbers) < 2 || len(numbers) > 3 || numbers[0] != math.Trunc(numbers[0]) || numbers[1] != math.Trunc(numbers[1]) {
			return nil, errors.New("give rows and columns, and the overlap if it is not 15 %: 2 3 20")
		}
		f := m.framing()
		f.Rows, f.Columns, f.Overlap = int(numbers[0]), int(numbers[1]), frame.UsualOverlap
		if len(numbers) == 3 {
			f.Overlap = numbers[2] / 100
		}
		if f.Rows == 1 && f.Columns == 1 {
			f.Rows, f.Columns, f.Overlap = 0, 0, 0
		}
		return saying(checklist.FrameTarget{Framing: f}), nil
	})
}
