package frame

import (
	"errors"
	"math"
	"strconv"
	"strings"

	"duskhand/checklist"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
	field "duskhand/ui/frame"
	"duskhand/ui/keys"
	"duskhand/ui/screens"
)

// askFraming asks for the wanted angle and the middle of the chip in numbers.
func (m view) askFraming() screens.Prompt {
	return screens.NewPrompt("camera angle; then, if the object is not to be in the middle, how far the middle lies east and north of it, in arcminutes", "", func(text string) (screens.Intent, error) {
		right := errors.New("give an angle from 0 to 360°, or any, and two numbers in arcminutes or none: 90 12 -5")
		words := strings.Fields(strings.ReplaceAll(text, ",", " "))
		if len(words) != 1 && len(words) != 3 {
			return nil, right
		}
		f := m.framing(m.Status)
		f.CameraAngle = nil
		if words[0] != "any" {
			numbers, err := screens.ReadNumbers(words[0])
			if err != nil || len(numbers) != 1 || numbers[0] < 0 || numbers[0] >= 360 {
				return nil, right
			}
			angle := screens.Degrees(numbers[0])
			f.CameraAngle = &angle
		}
		if len(words) == 3 {
			numbers, err := screens.ReadNumbers(words[1] + " " + words[2])
			if err != nil || math.Abs(numbers[0]) > 1200 || math.Abs(numbers[1]) > 1200 {
				return nil, right
			}
			f.Middle = kit.SkyOffset{East: sky.Angle(numbers[0]) * sky.Arcminute,
				North: sky.Angle(numbers[1]) * sky.Arcminute}
		}
		return screens.Say{Action: checklist.FrameTarget{Framing: f}}, nil
	})
}

// askSeen asks where in the picture the object is.
func (m view) askSeen() screens.Prompt {
	return screens.NewPrompt("the object is at: pixels right of the picture's middle, pixels up",
		"the middle", func(text string) (screens.Intent, error) {
			at := framing.Pixel{}
			if text != "" {
				numbers, err := screens.ReadNumbers(text)
				if err != nil || len(numbers) != 2 {
					return nil, errors.New("give two numbers in pixels, right and up of the middle, left and down negative: -320 150")
				}
				at = framing.Pixel{X: numbers[0], Y: numbers[1]}
			}
			return screens.Hand{To: keys.FrameScreen, Msg: seenAt{at}}, nil
		})
}

// askGrid asks for a mosaic.
func (m view) askGrid() screens.Prompt {
	proposal := ""
	if rows, columns, ok := m.facts.NeededPanels(field.UsualOverlap); ok && rows*columns > 1 {
		proposal = strconv.Itoa(rows) + " " + strconv.Itoa(columns)
	}
	return screens.NewPrompt("rows and columns of a mosaic, and the overlap in % if not 15; 1 1 for none",
		proposal, func(text string) (screens.Intent, error) {
			if text == "" {
				text = proposal
			}
			numbers, err := screens.ReadNumbers(strings.NewReplacer("x", " ", "×", " ", "%", " ").Replace(text))
			if err != nil || len(numbers) < 2 || len(numbers) > 3 || numbers[0] != math.Trunc(numbers[0]) || numbers[1] != math.Trunc(numbers[1]) {
				return nil, errors.New("give rows and columns, and the overlap if it is not 15 %: 2 3 20")
			}
			f := m.framing(m.Status)
			f.Rows, f.Columns, f.Overlap = int(numbers[0]), int(numbers[1]), field.UsualOverlap
			if len(numbers) == 3 {
				f.Overlap = numbers[2] / 100
			}
			if f.Rows == 1 && f.Columns == 1 {
				f.Rows, f.Columns, f.Overlap = 0, 0, 0
			}
			return screens.Say{Action: checklist.FrameTarget{Framing: f}}, nil
		})
}
