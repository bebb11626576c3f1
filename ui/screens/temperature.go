package screens

import (
	"errors"

	"duskhand/checklist"
)

// AskTemperature asks what the thermometer shows.
func AskTemperature() Prompt {
	return NewPrompt("temperature, °C", "", func(text string) (Intent, error) {
		celsius, err := readTemperature(text)
		if err != nil {
			return nil, err
		}
		return Say{checklist.ReadTemperature{TempC: celsius}}, nil
	})
}

// AskFocused asks the same of who has just focused both telescopes on a star, and then no answer is one too.
func AskFocused(star string) Prompt {
	return NewPrompt("focused; temperature, °C", "not read", func(text string) (Intent, error) {
		if text == "" {
			return Say{checklist.FocusNow{Star: star}}, nil
		}
		celsius, err := readTemperature(text)
		if err != nil {
			return nil, err
		}
		return Say{checklist.FocusNow{Star: star, TempC: &celsius}}, nil
	})
}

func readTemperature(text string) (celsius float64, err error) {
	numbers, err := ReadNumbers(text)
	if err != nil || len(numbers) != 1 {
		return 0, errors.New("give one number, the temperature in °C, as 11.5")
	}
	return numbers[0], nil
}
