// Package told reads what a script says in words, as "rewound -16" or "note thin cloud", into the actions
// that keys make in the screens. One table says what can be said; help is made from it too.
package told

import (
	"fmt"
	"slices"
	"strings"

	"duskhand/checklist"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/decimal"
)

// Event is one thing that can be said.
type Event struct {
	Name, Args, Meaning string
	least, most         int // how many words may follow; most < 0: any number
	action              func(k kit.Kit, words []string) (checklist.Action, error)
}

// Events returns what can be said. Words in brackets may be left out.
func Events() []Event {
	return []Event{
		{"derotator-on", "[ANGLE]", "the derotator is on and seen to turn, at ANGLE or where it stands", 0, 1, turnOn},
		{"derotator-off", "", "the derotator is off", 0, 0, plain(checklist.TurnOff{})},
		{"rewound", "ANGLE [FROM]", "the derotator has been turned to ANGLE, from the reading FROM", 1, 2, rewound},
		{"read", "ANGLE", "the derotator's scale shows ANGLE", 1, 1, read},
		{"subs-started", "[FILTER]", "exposures go on from now, through FILTER or as the filters take turns", 0, 1, startSubs},
		{"subs-stopped", "", "no exposure is going on", 0, 0, plain(checklist.StopSubs{})},
		{"target", "NAME [ANGLE]", "the mount points at NAME from now on, with the derotator at ANGLE", 1, 2, chooseTarget},
		{"sighted", "STAR [ALT AZ]", "STAR stands centred, and the mount's axes show ALT and AZ", 1, 3, sighted},
		{"focused", "[STAR]", "both telescopes have been focused, on STAR", 0, 1, focused},
		{"temperature", "DEGREES", "the thermometer shows so many degrees Celsius", 1, 1, temperature},
		{"humidity", "PERCENT", "the hygrometer shows so much relative humidity", 1, 1, humidity},
		{"guiding-calibrated", "", "the guiding has been calibrated as the telescope stands", 0, 0, plain(checklist.GuidingCalibrated{})},
		{"guiding-on", "", "the guiding is on and holds its star", 0, 0, plain(checklist.GuidingOn{})},
		{"guiding-off", "", "the guiding is off", 0, 0, plain(checklist.GuidingOff{})},
		{"guiding-lost", "", "the guiding has lost its star", 0, 0, plain(checklist.GuidingLost{})},
		{"guide-check", "yes|no", "a correction was seen to move the star back, or not", 1, 1, guideCheck},
		{"recentred", "", "the target stands again where it is wanted on the chip", 0, 0, plain(checklist.Recentred{})},
		{"cables-straight", "", "the mount's cables hang straight", 0, 0, plain(checklist.CablesStraight{})},
		{"cloud", "", "the target is behind cloud", 0, 0, plain(checklist.CloudCame{})},
		{"clear", "", "the cloud has gone", 0, 0, plain(checklist.SkyCleared{})},
		{"step-done", "ID", "the step ID of the checklist is done", 1, 1, stepDone},
		{"note", "TEXT...", "anything in words", 1, -1, note},
		{"undo", "", "the last thing said is taken back", 0, 0, plain(checklist.Undo{})},
		{"redo", "", "the last undo is taken back", 0, 0, plain(checklist.Redo{})},
	}
}

// Usage returns the event as it is written, "rewound ANGLE [FROM]".
func (e Event) Usage() string { return strings.TrimSpace(e.Name + " " + e.Args) }

// Action returns the action that words say with this kit, for checklist.Say to judge. Angles are in
// degrees.
//
// Error: in words, when the words are none of ours or the kit lacks what they name.
func Action(k kit.Kit, words []string) (checklist.Action, error) {
	event, err := find(words)
	if err != nil {
		return nil, err
	}
	args := words[1:]
	switch {
	case len(args) < event.least:
		return nil, fmt.Errorf("%s says too little; write: %s (%s)", strings.Join(words, " "), event.Usage(), event.Meaning)
	case event.most >= 0 && len(args) > event.most:
		return nil, fmt.Errorf("%s does not take %q; write: %s", event.Name, strings.Join(args, " "), event.Usage())
	}
	return event.action(k, args)
}

func find(words []string) (Event, error) {
	events := Events()
	var names []string
	for _, e := range events {
		names = append(names, e.Name)
	}
	if len(words) == 0 {
		return Event{}, fmt.Errorf("nothing is said; say one of %s", strings.Join(names, ", "))
	}
	i := slices.Index(names, words[0])
	if i < 0 {
		return Event{}, fmt.Errorf("%q can't be said; say one of %s", words[0], strings.Join(names, ", "))
	}
	return events[i], nil
}

func plain(a checklist.Action) func(kit.Kit, []string) (checklist.Action, error) {
	return func(kit.Kit, []string) (checklist.Action, error) { return a, nil }
}

// angle reads a mechanical angle in degrees and refuses one that the stage can't have.
func angle(k kit.Kit, word string) (sky.Angle, error) {
	d := k.Derotator
	value, err := number(word)
	a := sky.Angle(value) * sky.Degree
	const slack = 1 * sky.Degree // a scale is not zeroed to the tenth
	if err != nil || !(a >= d.Min-slack && a <= d.Max+slack) {
		return 0, fmt.Errorf("%q is no angle that the derotator can have; give %g to %g degrees", word, d.Min.Degrees(), d.Max.Degrees())
	}
	return a, nil
}

// number reads a decimal number; people may write a degree sign behind it.
func number(word string) (float64, error) { return decimal.Parse(strings.TrimSuffix(word, "°")) }

func angleIfGiven(k kit.Kit, words []string, i int) (*sky.Angle, error) {
	if i >= len(words) {
		return nil, nil
	}
	a, err := angle(k, words[i])
	return &a, err
}
