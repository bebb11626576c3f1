package ui

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist"
	"duskhand/sky/catalog"
	"duskhand/ui/facts"
	"duskhand/ui/keys"
)

// What the Decide screen's keys do.

// decided handles the keys of the Decide screen that change only what it shows.
func (m Model) decided(action keys.Action) (Model, bool) {
	if m.screen != keys.DecideScreen || m.tonight == nil {
		return m, false
	}
	d := &m.decide
	switch action {
	case keys.PageOn:
		m = m.turnedPage(+1)
	case keys.PageBack:
		m = m.turnedPage(-1)
	case keys.TypeOn:
		d.picked.Type = nextType(d.picked.Type, +1)
	case keys.TypeBack:
		d.picked.Type = nextType(d.picked.Type, -1)
	case keys.OneRun:
		d.picked.OneRun = !d.picked.OneRun
	case keys.Fits:
		d.picked.Fits = !d.picked.Fits
	case keys.Find:
		m.asking = m.askFind()
	default:
		return m, false
	}
	return m, true
}

// turnedPage goes to the next page or the one before; a wide window has the targets beside all others.
func (m Model) turnedPage(by decidePage) Model {
	page := (m.pageShown() + by + decidePages) % decidePages
	if m.isWide() && page == targetsPage {
		page = (page + by + decidePages) % decidePages
	}
	m.decide.page = page
	return m
}

// nextType goes through the types of objects; "" is every type.
func nextType(present string, by int) string {
	types := append([]string{""}, catalog.Types()...)
	at := slices.Index(types, present)
	return types[(at+by+len(types))%len(types)]
}

// pickedWords says what the list is limited to, "" for nothing.
func (m Model) pickedWords() string {
	p := m.decide.picked
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
func (m Model) askFind() *prompt {
	return newPrompt("a constellation, as Ori or Orion, or a part of a name", "all", func(text string) (intent, error) {
		text = strings.TrimSpace(text)
		constellation := facts.ConstellationNamed(text)
		return func(m Model) (Model, tea.Cmd) {
			m.decide.picked.Constellation, m.decide.picked.NamePart = constellation, ""
			if constellation == "" {
				m.decide.picked.NamePart = text
			}
			return m, nil
		}, nil
	})
}

// takeTarget makes the chosen target the night's.
func (m Model) takeTarget() (Model, tea.Cmd) {
	choice, ok := m.choice()
	if !ok {
		return m, nil
	}
	if choice.Target.Name == m.tonight.Target.Name {
		m.notice = choice.Target.Name + " is tonight's target already"
		return m, nil
	}
	return m.say(checklist.ChooseTarget{Target: checklist.Target{Name: choice.Target.Name, Star: choice.Target.Star}})
}

// askHumidity asks what the hygrometer shows.
func (m Model) askHumidity() *prompt {
	return newPrompt("relative humidity, %", "", func(text string) (intent, error) {
		numbers, err := readNumbers(strings.ReplaceAll(text, "%", " "))
		if err != nil || len(numbers) != 1 || numbers[0] < 1 || numbers[0] > 100 {
			return nil, errors.New("give one number from 1 to 100, the relative humidity in %, as 85")
		}
		return saying(checklist.ReadHumidity{Percent: numbers[0]}), nil
	})
}

// airRead tells whether the page that shows wants the air's temperature and humidity.
func (m Model) airRead() bool { return m.screen == keys.DecideScreen && m.pageShown() == suppliesPage }
