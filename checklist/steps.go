package checklist

import (
	"slices"
	"strings"
)

// Stage is a part of the night, a group of steps.
type Stage string

// Stages returns the stages of the night in their order.
func Stages() []Stage {
	return []Stage{"decide", "set up", "two stars", "focus", "frame", "rewind", "guide", "run", "rewind again", "stow"}
}

// Screens returns the names of the screens that a step can lead to.
func Screens() []string {
	return []string{"run", "night", "two stars", "focus star", "frame", "subs", "decide"}
}

// Step is one item of the checklist. Texts are for the person; Do and Plain say the same, Do with
// placeholders for facts of the night.
type Step struct {
	ID      string
	Stage   Stage
	Do      string
	Plain   string // "" if Do has no placeholders
	Why     string
	Caution string // "" if the work hurts nobody and nothing
	Screen  string // which screen helps; "" for none
	When    string // from when on it can be done, one of Whens; "" for at once

	Loop       bool     // to be done in every run again
	DoneBy     []string // proofs that it is done
	ReopenedBy []string // proofs that it must be done again
	Owed       bool     // leaving it out leaves a debt for after the night
	EndsRuns   bool     // once settled, steps of the loop are no longer asked for
	Guards     []Guard
}

// Guard says which steps must (or should) be done or skipped before its step is.
type Guard struct {
	After []string // ids
	Must  bool     // false: only warned about
	Say   string   // what is at stake, and what to do first
}

// From when on a step can be done.
const (
	AfterSunset    = "sunset"
	AtCivilDusk    = "civil-dusk"    // the Sun 6° down: the brightest stars stand out
	AtNauticalDusk = "nautical-dusk" // the Sun 12° down: a short exposure shows what it points at
	WhenTargetUp   = "target-up"     // nautical dusk, and the target stands where it can be used
	WhenTurning    = "turning"       // the derotator is on and has been seen to turn
)

// Whens returns the names of what a step can wait for.
func Whens() []string {
	return []string{AfterSunset, AtCivilDusk, AtNauticalDusk, WhenTargetUp, WhenTurning}
}

// Placeholder is a fact of the night that a step's sentence may hold in braces, {target}.
type Placeholder struct{ Name, Meaning string }

// Placeholders returns all that are known.
func Placeholders() []Placeholder {
	return []Placeholder{
		{"target", "the target's name"},
		{"dusk", "local time at which astronomical night begins"},
		{"dawn", "local time at which it ends"},
		{"window_from", "local time from which the target can be used"},
		{"window_to", "local time until which it can be used"},
		{"moon", "how much of the Moon is lit, when it is up while the target is, and how near it comes"},
		{"runs", "how many runs the night's plan has, as in 4 runs"},
		{"rewinds", "how many rewinds, as in 3 rewinds"},
		{"subs_fit", "how many subs fit the night"},
		{"travel_from", "the derotator's lower end, in degrees"},
		{"travel_to", "its upper end, in degrees"},
		{"site", "the site's name"},
		{"star_1", "the first alignment star"},
		{"star_2", "the second alignment star"},
		{"pair", "both, as in Achernar, then Canopus"},
		{"check_star", "a third star to be sure with"},
		{"focus_star", "the star to focus on"},
		{"camera_angle", "the wanted camera angle, in degrees"},
		{"start_angle", "the derotator's angle from which the first run lasts longest, in degrees"},
		{"run_length", "how long the run from there lasts"},
		{"first_sub", "local time at which the first sub can start"},
		{"last_sub", "the number of the run's last sub"},
		{"call_at", "local time at which the present run must end"},
		{"rewind_to", "the angle to rewind to next, in degrees"},
		{"next_run", "how long the run after that rewind lasts"},
		{"recentre", "how the target is brought back after a turn of the derotator: the nudge, where its axis is known"},
		{"wound", "by how many turns the mount's cables are wound, and which way they are turned back, where that is half a turn or more"},
		{"guide_turned", "by how much the guide camera has turned since the guiding was calibrated, where that matters"},
		{"refocus_kelvin", "by how many degrees the tube may cool before it must be focused again"},
	}
}

// placeholders returns the names that stand in braces in a sentence. What is open to its end is no name.
func placeholders(sentence string) []string {
	var names []string
	for {
		_, after, found := strings.Cut(sentence, "{")
		name, rest, closed := strings.Cut(after, "}")
		if !found || !closed {
			return names
		}
		names, sentence = append(names, name), rest
	}
}

// Names tells whether what to do holds a fact of the night, by its name.
func (s Step) Names(fact string) bool { return slices.Contains(placeholders(s.Do), fact) }

// Sentence returns what to do with the night's facts filled in, given as ready text by the names of
// Placeholders; in plain words if one of those it needs is missing or empty.
func (s Step) Sentence(facts map[string]string) string {
	var filled []string // pairs of what stands in the sentence and what replaces it
	for _, name := range placeholders(s.Do) {
		if facts[name] == "" {
			return s.Plain
		}
		filled = append(filled, "{"+name+"}", facts[name])
	}
	return strings.NewReplacer(filled...).Replace(s.Do)
}
