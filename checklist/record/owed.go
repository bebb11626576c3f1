package record

import (
	"fmt"
	"slices"
	"strings"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/plan/card"
	"duskhand/sky/words"
)

// Owed is calibration frames that the subs of the night want.
type Owed struct {
	Frames string // "flats", "flat-darks", "darks", "bias"
	For    string // which: "filter L", "60 s", ""
	Done   bool
	State  string    // "done", or why it is owed: "not recorded", "skipped: clouds"
	Sky    plan.Span // when the sky of the morning is right for flats; zero for others, and where that is not known
}

// owed lists the calibration frames: flats for each filter that was used (the whole train turns together,
// so that one set serves all runs) and flat-darks as long as those are, darks for each exposure, and bias.
func (l log) owed(targets []Target) (all []Owed) {
	var filters, exposures []string
	for _, t := range targets {
		for _, f := range t.Counts {
			filters = addNew(filters, "filter "+f.Filter)
			exposures = addNew(exposures, words.Exposure(f.Exposure))
		}
	}
	if len(filters) == 0 {
		return nil
	}
	for _, frames := range []struct {
		name string
		each []string
	}{{"flats", filters}, {"flat-darks", filters}, {"darks", exposures}, {"bias", []string{""}}} {
		done, state := l.stateOf(frames.name)
		for _, each := range frames.each {
			all = append(all, Owed{Frames: frames.name, For: each, Done: done, State: state})
		}
	}
	return all
}

// underTheSky notes when the flats that are owed can be taken of the morning's sky, or what the kit would have to say.
func (n *Night) underTheSky(night *plan.Night) {
	owed := slices.ContainsFunc(n.Owed, func(o Owed) bool { return o.Frames == "flats" && !o.Done })
	if !owed {
		return
	}
	flats := card.FlatsOf(night)
	n.SkyLacks = flats.Lacks
	underTheSky(n.Owed, flats.Morning)
}

func underTheSky(all []Owed, mornings []card.FlatTime) {
	for i := range all {
		for _, m := range mornings {
			if all[i].Frames == "flats" && all[i].For == "filter "+m.Filter && m.From.OK && m.To.OK {
				all[i].Sky = plan.Span{From: m.From.At, To: m.To.At}
			}
		}
	}
}

func addNew(list []string, item string) []string {
	if slices.Contains(list, item) {
		return list
	}
	return append(list, item)
}

// stateOf returns what was said last of a step of that name, or in a note that says that they are done.
func (l log) stateOf(frames string) (done bool, state string) {
	state = "not recorded"
	for _, e := range l.events {
		if b, ok := bodyOf[checklist.StepDoneBody](e, checklist.KindStepDone); ok && b.Step == frames {
			done, state = true, "done"
		}
		if b, ok := bodyOf[checklist.StepSkippedBody](e, checklist.KindStepSkipped); ok && b.Step == frames {
			done, state = false, reason("skipped", b.Reason)
		}
		if b, ok := bodyOf[checklist.StepFailedBody](e, checklist.KindStepFailed); ok && b.Step == frames {
			done, state = false, reason("failed", b.Note)
		}
		if b, ok := bodyOf[checklist.NotedBody](e, checklist.KindNoted); ok && says(b.Text, frames, "done") {
			done, state = true, fmt.Sprintf("done, by the note %q", strings.TrimSpace(b.Text))
		}
	}
	return done, state
}

// says tells whether a note has both words, alone.
func says(note, frames, word string) bool {
	words := strings.FieldsFunc(strings.ToLower(note), func(r rune) bool { return strings.ContainsRune(" \t\n.,;:!()", r) })
	return slices.Contains(words, frames) && slices.Contains(words, word) && !slices.Contains(words, "not")
}

func reason(state, why string) string {
	if why = strings.TrimSpace(why); why != "" {
		return state + ": " + why
	}
	return state
}
