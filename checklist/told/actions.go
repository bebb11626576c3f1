package told

import (
	"fmt"
	"strings"

	"duskhand/checklist"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/catalog"
)

func turnOn(k kit.Kit, words []string) (checklist.Action, error) {
	at, err := angleIfGiven(k, words, 0)
	return checklist.TurnOn{Angle: at}, err
}

func rewound(k kit.Kit, words []string) (checklist.Action, error) {
	to, err := angle(k, words[0])
	if err != nil {
		return nil, err
	}
	from, err := angleIfGiven(k, words, 1)
	return checklist.Rewound{From: from, To: to}, err
}

func read(k kit.Kit, words []string) (checklist.Action, error) {
	a, err := angle(k, words[0])
	return checklist.Read{Angle: a}, err
}

// startSubs takes the filter's name as the kit writes it, since subs are counted by it.
func startSubs(k kit.Kit, words []string) (checklist.Action, error) {
	if len(words) == 0 {
		return checklist.StartSubs{}, nil
	}
	var names []string
	for _, filter := range k.Subs.Filters {
		if strings.EqualFold(filter.Name, words[0]) {
			return checklist.StartSubs{Filter: filter.Name}, nil
		}
		names = append(names, filter.Name)
	}
	return nil, fmt.Errorf("the kit has no filter %q; it has %s", words[0], strings.Join(names, ", "))
}

func chooseTarget(k kit.Kit, words []string) (checklist.Action, error) {
	target, err := k.FindTarget(words[0])
	if err != nil {
		return nil, err
	}
	at, err := angleIfGiven(k, words, 1)
	return checklist.ChooseTarget{Target: checklist.Target{Name: target.Name, Star: target.Star}, Angle: at}, err
}

func focused(_ kit.Kit, words []string) (checklist.Action, error) {
	return checklist.FocusNow{Star: strings.Join(words, " ")}, nil
}

func temperature(_ kit.Kit, words []string) (checklist.Action, error) {
	c, err := number(words[0])
	if err != nil {
		return nil, fmt.Errorf("%q is no temperature; give degrees Celsius, as -3.5", words[0])
	}
	return checklist.ReadTemperature{TempC: c}, nil
}

func humidity(_ kit.Kit, words []string) (checklist.Action, error) {
	percent, err := number(strings.TrimSuffix(words[0], "%"))
	if err != nil {
		return nil, fmt.Errorf("%q is no humidity; give the relative humidity in percent, as 85", words[0])
	}
	return checklist.ReadHumidity{Percent: percent}, nil
}

func note(_ kit.Kit, words []string) (checklist.Action, error) {
	return checklist.WriteNote{Text: strings.Join(words, " ")}, nil
}

// sighted takes any name that the catalogue knows, and gives the star the one that the kit's list of known stars
// has. Readouts come in a pair or not at all.
func sighted(k kit.Kit, words []string) (checklist.Action, error) {
	star, err := catalog.Find(words[0])
	if err != nil {
		return nil, err
	}
	a := checklist.Sighted{Name: star.Name(), Star: star.Star, Unread: len(words) == 1}
	if name, listed := k.Stars.KnownNames()[star.ID]; listed {
		a.Name = name
	}
	switch {
	case star.Kind != catalog.Star:
		return nil, fmt.Errorf("%s is no star; name the one that is centred", star.Name())
	case len(words) == 2:
		return nil, fmt.Errorf("%q stands alone; give what both axes show, altitude and azimuth, or neither", words[1])
	case a.Unread:
		return a, nil
	}
	altitude, altErr := number(words[1])
	azimuth, azErr := number(words[2])
	if altErr != nil || azErr != nil {
		return nil, fmt.Errorf("%q are no readouts; give degrees, altitude and azimuth, as 41.2 153.7", strings.Join(words[1:], " "))
	}
	a.Readout = sky.Horizontal{Altitude: sky.Angle(altitude) * sky.Degree, Azimuth: sky.Angle(azimuth) * sky.Degree}
	return a, nil
}

func guideCheck(_ kit.Kit, words []string) (checklist.Action, error) {
	if words[0] != "yes" && words[0] != "no" {
		return nil, fmt.Errorf("%q is no answer; say yes if the correction moved the star back, or no", words[0])
	}
	return checklist.GuideChecked{Yes: words[0] == "yes"}, nil
}

func stepDone(_ kit.Kit, words []string) (checklist.Action, error) {
	return checklist.DoStep{Step: words[0]}, nil
}
