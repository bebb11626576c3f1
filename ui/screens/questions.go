package screens

import (
	"errors"
	"fmt"
	"strings"

	"duskhand/checklist"
	"duskhand/sky"
	"duskhand/ui/draw"
)

// AskAngle asks for an angle within the derotator's travel. Enter alone takes the proposed one, if there
// is one.
func (s Status) AskAngle(question string, proposed *sky.Angle, done func(sky.Angle) checklist.Action) Prompt {
	d := s.Kit.Derotator
	proposal := ""
	if proposed != nil {
		proposal = draw.TenthsText(*proposed)
	}
	return NewPrompt(question, proposal, func(text string) (Intent, error) {
		if text == "" && proposed != nil {
			return Say{done(*proposed)}, nil
		}
		angle, err := sky.ParseAngle(text)
		if err != nil {
			return nil, err
		}
		if angle < d.Min || angle > d.Max {
			return nil, fmt.Errorf("%s is outside the travel, %s to %s; give the angle that the derotator shows", draw.TenthsText(angle), draw.DegreesText(d.Min), draw.DegreesText(d.Max))
		}
		return Say{done(angle)}, nil
	})
}

// AskWhoWrites asks whether to follow the program that writes this night, or to write here instead.
func (s Status) AskWhoWrites() Prompt {
	if s.Orphaned {
		return NewPrompt(s.Follows, "write here", func(text string) (Intent, error) {
			if text == "" || strings.EqualFold(text, "w") {
				return TakeOver{}, nil
			}
			return nil, errors.New("enter to write here from now on; esc leaves it unwritten")
		})
	}
	return NewPrompt(s.Follows+"; w to write here instead", "follow it", func(text string) (Intent, error) {
		switch strings.ToLower(text) {
		case "":
			return nil, nil
		case "w":
			return TakeOver{}, nil
		}
		return nil, errors.New("enter to follow the other program, w and enter to write here: the other then writes no more")
	})
}

// AskDivide asks whether the rest of the night is divided among the kit's targets.
func (s Status) AskDivide() Prompt {
	action := s.Run.Divide()
	if len(action.Parts) < 2 && s.Tonight.Shared() == nil {
		return NewPrompt("fewer than two targets want subs: enter leaves it", "",
			func(string) (Intent, error) { return nil, nil })
	}
	var names []string
	for _, p := range action.Parts {
		names = append(names, p.Target)
	}
	return NewPrompt("divide the rest of the night among "+strings.Join(names,
		", ")+"; n: one target alone", "divide", func(text string) (Intent, error) {
		switch strings.ToLower(text) {
		case "":
			return Say{action}, nil
		case "n":
			return Say{checklist.DivideNight{}}, nil
		}
		return nil, errors.New("enter divides the night, n and enter leaves it to one target")
	})
}
