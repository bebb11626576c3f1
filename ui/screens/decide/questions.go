package decide

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"duskhand/checklist"
	"duskhand/sky/catalog"
	"duskhand/ui/facts"
	"duskhand/ui/keys"
	"duskhand/ui/screens"
)

// nextType goes through the types of objects; "" is every type.
func nextType(present string, by int) string {
	types := append([]string{""}, catalog.Types()...)
	at := slices.Index(types, present)
	return types[(at+by+len(types))%len(types)]
}

// pickedWords says what the list is limited to, "" for nothing.
func (m view) pickedWords() string {
	p := m.picked
	var parts []string
	if p.Type != "" {
		parts = append(parts, p.Type)
	}
	if p.Constellation != "" {
		parts = append(parts, "in "+catalog.ConstellationName(p.Constellation))
	}
	if p.NamePart != "" {
		parts = append(parts, fmt.Sprintf("named %q", p.NamePart))
	}
	if p.OneRun {
		parts = append(parts, "in one run")
	}
	if p.Fits {
		parts = append(parts, "fitting the chip")
	}
	return strings.Join(parts, ", ")
}

// askFind asks for a constellation or a part of a name; nothing lists all again.
func askFind() screens.Prompt {
	return screens.NewPrompt("a constellation, as Ori or Orion, or a part of a name", "all",
		func(text string) (screens.Intent, error) {
			text = strings.TrimSpace(text)
			constellation := facts.ConstellationNamed(text)
			if constellation != "" {
				text = ""
			}
			return screens.Hand{To: keys.DecideScreen, Msg: looksFor{constellation, text}}, nil
		})
}

// askHumidity asks what the hygrometer shows.
func askHumidity() screens.Prompt {
	return screens.NewPrompt("relative humidity, %", "", func(text string) (screens.Intent, error) {
		numbers, err := screens.ReadNumbers(strings.ReplaceAll(text, "%", " "))
		if err != nil || len(numbers) != 1 || numbers[0] < 1 || numbers[0] > 100 {
			return nil, errors.New("give one number from 1 to 100, the relative humidity in %, as 85")
		}
		return screens.Say{Action: checklist.ReadHumidity{Percent: numbers[0]}}, nil
	})
}
