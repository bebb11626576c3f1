package stars

import (
	"errors"
	"strings"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/sky"
	"duskhand/sky/catalog"
	"duskhand/ui/screens"
)

// askSight asks what the mount's axes show with a star centred: the star expected next, or another that is
// named first.
func askSight(s screens.Status) screens.Prompt {
	star := nextSight(s)
	question := "axes with the star centred, altitude azimuth"
	if star != nil {
		question += " for " + star.Name() + ", or name another first"
	}
	return screens.NewPrompt(question, "", func(text string) (screens.Intent,
		error) {
		return readSight(text, star)
	})
}

// nextSight is the first star of the chosen pair, its second and the check star that has no sight yet.
func nextSight(s screens.Status) *catalog.Object {
	if s.Stars.Chosen >= len(s.Stars.Pairs) {
		return nil
	}
	pair := s.Stars.Pairs[s.Stars.Chosen]
	next := []*plan.Candidate{pair.First, pair.Second}
	if check, ok := s.Stars.Check(s.Stars.Chosen); ok {
		next = append(next, check.Star)
	}
	for _, candidate := range next {
		sighted := false
		for _, done := range s.Log.Sights {
			sighted = sighted || done.Name == candidate.Star.Name()
		}
		if !sighted {
			return &candidate.Star
		}
	}
	return nil
}

func readSight(text string, expected *catalog.Object) (screens.Intent, error) {
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
	return screens.Say{Action: checklist.Sighted{Name: star.Name(), Star: star.Star,
		Readout: sky.Horizontal{Altitude: altitude, Azimuth: azimuth}}}, nil
}

// levelGoodTo is how well a phone or a small level tells a slope when nothing is said of it (common
// practice).
const levelGoodTo = 0.5 * sky.Degree

// askLevel asks for the slope of the base, as a phone or level lying on it shows.
func askLevel() screens.Prompt {
	return screens.NewPrompt("slope of the base, azimuth of its low side (± if known), degrees", "",
		func(text string) (screens.Intent, error) {
			numbers, err := screens.ReadNumbers(strings.ReplaceAll(text, "±", " "))
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
			axis := plan.AxisFromLevel(screens.Degrees(numbers[0]), screens.Degrees(numbers[1]),
				screens.Degrees(good))
			return screens.Say{Action: checklist.MeasureAxis{Tilt: axis.Tilt, Toward: axis.Toward,
				Uncertainty: axis.Uncertainty, How: "level on the base"}}, nil
		})
}
