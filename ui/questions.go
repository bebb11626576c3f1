package ui

import (
	"errors"
	"fmt"
	"strings"

	"duskhand/checklist"
	"duskhand/sky"
	"duskhand/ui/draw"
	"duskhand/ui/screens"
)

// askAngle asks for an angle within the derotator's travel. Enter alone takes the proposed one, if there
// is one.
func (m Model) askAngle(question string, proposed *sky.Angle, done func(sky.Angle) checklist.Action) screens.Prompt {
	d := m.config.Kit.Derotator
	proposal := ""
	if proposed != nil {
		proposal = draw.TenthsText(*proposed)
	}
	return screens.NewPrompt(question, proposal, func(text string) (screens.Intent, error) {
		if text == "" && proposed != nil {
			return screens.Say{Action: done(*proposed)}, nil
		}
		angle, err := sky.ParseAngle(text)
		if err != nil {
			return nil, err
		}
		if angle < d.Min || angle > d.Max {
			return nil, fmt.Errorf("%s is outside the travel, %s to %s; give the angle that the derotator shows", draw.TenthsText(angle), draw.DegreesText(d.Min), draw.DegreesText(d.Max))
		}
		return screens.Say{Action: done(angle)}, nil
	})
}

// askWhoWrites asks whether to follow the program that writes this night, or to write here instead.
func (m Model) askWhoWrites() screens.Prompt {
	return screens.NewPrompt(m.night.Status.Follows+"; w to write here instead", "follow it", func(text string) (screens.Intent, error) {
		switch strings.ToLower(text) {
		case "":
			return nil, nil
		case "w":
			return screens.TakeOver{}, nil
		}
		return nil, errors.New("enter to follow the other program, w and enter to write here: the other then writes no more")
	})
}
