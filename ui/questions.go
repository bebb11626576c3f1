package ui

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/sky"
	"duskhand/sky/catalog"
)

// saying is the intent of saying an action.
func saying(a checklist.Action) intent {
	return func(m Model) (Model, tea.Cmd) { return m.say(a) }
}

// askAngle asks for an angle within the derotator's travel. Enter alone takes the proposed one, if there
// is one.
func (m Model) askAngle(question string, proposed *sky.Angle, done func(sky.Angle) intent) *prompt {
	d := m.config.Kit.Derotator
	proposal := ""
	if proposed != nil {
		proposal = tenths(*proposed)
	}
	return newPrompt(question, proposal, func(text string) (intent, error) {
		if text == "" && proposed != nil {
			return done(*proposed), nil
		}
		angle, err := sky.ParseAngle(text)
		if err != nil {
			return nil, err
		}
		if angle < d.Min || angle > d.Max {
			return nil, fmt.Errorf("%s is outside the travel, %s to %s; give the angle that the derotator shows", tenths(angle), degreesText(d.Min), degreesText(d.Max))
		}
		return done(angle), nil
	})
}

// askWhoWrites asks whether to follow the program that writes this night, or to write here instead.
func (m Model) askWhoWrites() *prompt {
	write := func(m Model) (Model, tea.Cmd) { return m, takeOver(m.config, m.night(), m.store) }
	if m.orphaned {
		return newPrompt(m.follows, "write here", func(text string) (intent, error) {
			if text == "" || strings.EqualFold(text, "w") {
				return write, nil
			}
			return nil, errors.New("enter to write here from now on; esc leaves it unwritten")
		})
	}
	return newPrompt(m.follows+"; w to write here instead", "follow it", func(text string) (intent, error) {
		switch strings.ToLower(text) {
		case "":
			return nil, nil
		case "w":
			return write, nil
		}
		return nil, errors.New("enter to follow the other program, w and enter to write here: the other then writes no more")
	})
}

// askSight asks what the mount's axes show with a star centred: the star expected next, or another that is
// named first.
func (m Model) askSight() *prompt {
	star := m.nextSight()
	proposal := ""
	if star != nil {
		proposal = "for " + star.Name() + ", or name another first"
	}
	p := newPrompt("axes with the star centred, altitude azimuth", "", func(text string) (intent, error) { return readSight(text, star) })
	if proposal != "" {
		p.question += " " + proposal
	}
	return p
}

// nextSight is the first star of the chosen pair, its second and the check star that has no sight yet.
func (m Model) nextSight() *catalog.Object {
	if m.pair >= len(m.stars.Pairs) {
		return nil
	}
	pair := m.stars.Pairs[m.pair]
	next := []*plan.Candidate{pair.First, pair.Second}
	if check, ok := m.stars.Check(m.pair); ok {
		next = append(next, check.Star)
	}
	for _, candidate := range next {
		sighted := false
		for _, s := range m.log.Sights {
			sighted = sighted || s.Name == candidate.Star.Name()
		}
		if !sighted {
			return &candidate.Star
		}
	}
	return nil
}

func readSight(text string, expected *catalog.Object) (intent, error) {
	words := strings.Fields(strings.ReplaceAll(text, ",", " "))
	if len(words) < 2 {
		return nil, errors.New("give two numbers in degrees, the altitude axis and the azimuth axis, as 37.06 104.96")
	}
	altitude, err := sky.ParseAngle(words[len(words)-2])
	if err != nil {
		return nil, err
	}
	azimuth, err := sky.ParseAngle(words[len(words)-1])
	if err != nil {
		return nil, err
	}
	star := expected
	if name := strings.Join(words[:len(words)-2], " "); name != "" {
		found, err := catalog.Find(name)
		if err != nil {
			return nil, err
		}
		if star == nil || star.ID != found.ID { // else it is the one expected, by the name that the kit has for it
			star = &found
		}
	}
	if star == nil {
		return nil, errors.New("name the star first, as Rigel 37.06 104.96")
	}
	return saying(checklist.Sighted{Name: star.Name(), Star: star.Star, Readout: sky.Horizontal{Altitude: altitude, Azimuth: azimuth}}), nil
}

// levelGoodTo is how well a phone or a small level tells a slope when nothing is said of it (common
// practice).
const levelGoodTo = 0.5 * sky.Degree

// askLevel asks for the slope of the base, as a phone or level lying on it shows.
func (m Model) askLevel() *prompt {
	return newPrompt("slope of the base, azimuth of its low side (± if known), degrees", "", func(text string) (intent, error) {
		numbers, err := readNumbers(strings.ReplaceAll(text, "±", " "))
		if err != nil || len(numbers) < 2 || len(numbers) > 3 {
			return nil, errors.New("give two numbers, or three: slope, azimuth of the low side, and how well known, as 2.4 210 0.5")
		}
		good := levelGoodTo.Degrees()
		if len(numbers) == 3 {
			good = numbers[2]
		}
		if numbers[0] < 0 || numbers[0] > 15 || good <= 0 || good > 15 {
			return nil, errors.New("give a slope from 0 to 15°, known to more than 0 and at most 15°; a steeper base wants its legs set first")
		}
		axis := plan.AxisFromLevel(degrees(numbers[0]), degrees(numbers[1]), degrees(good))
		return saying(checklist.MeasureAxis{Tilt: axis.Tilt, Toward: axis.Toward, Uncertainty: axis.Uncertainty, How: "level on the base"}), nil
	})
}

// askTemperature asks what the thermometer shows; focused says whether both telescopes have just been
// focused, and then no answer is one too.
func (m Model) askTemperature(focused bool) *prompt {
	question, proposal := "temperature, °C", ""
	if focused {
		question, proposal = "focused; temperature, °C", "not read"
	}
	star := ""
	if focused && m.focusStar < len(m.stars.Focus) {
		star = m.stars.Focus[m.focusStar].Star.Name()
	}
	return newPrompt(question, proposal, func(text string) (intent, error) {
		if text == "" && focused {
			return saying(checklist.FocusNow{Star: star}), nil
		}
		numbers, err := readNumbers(text)
		if err != nil || len(numbers) != 1 {
			return nil, errors.New("give one number, the temperature in °C, as 11.5")
		}
		if focused {
			return saying(checklist.FocusNow{Star: star, TempC: &numbers[0]}), nil
		}
		return saying(checklist.ReadTemperature{TempC: numbers[0]}), nil
	})
}

func readNumbers(text string) ([]float64, error) {
	var numbers []float64
	for _, word := range strings.Fields(strings.ReplaceAll(strings.ReplaceAll(text, "°", " "), "−", "-")) {
		x, err := strconv.ParseFloat(word, 64)
		if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
			return nil, fmt.Errorf("%q is no number", word)
		}
		numbers = append(numbers, x)
	}
	return numbers, nil
}

func degrees(x float64) sky.Angle { return sky.Angle(x) * sky.Degree }
