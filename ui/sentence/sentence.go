// Package sentence tells what has changed in the night between two instants, as sentences: for a voice, a log,
// another program. What the screens say is said in their words.
package sentence

import (
	"encoding/json"
	"slices"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/plan"
	"duskhand/sky"
	"duskhand/ui/facts"
	"duskhand/ui/say"
	"duskhand/ui/spoken"
)

// Moment is the night at one instant.
type Moment struct {
	Run    facts.Run
	Spoken spoken.Words
}

// Opening returns what there is to say of a moment by itself: the answer and what to do.
func Opening(m Moment) []string {
	return []string{say.Sentence(m.Spoken.Answer[0]), say.Sentence(m.Spoken.ToDo[0])}
}

// Changes returns what has changed, in order: what was said to have happened, what the sky did, where the run
// stands, what to do, which step is next. Numbers that only go on, as a countdown does, are no change.
func Changes(before, after Moment, fresh []journal.Event) []string {
	var said []string
	for _, e := range fresh {
		if e.Kind != checklist.KindSubArrived { // one a minute: what they say of the field is in what to do
			said = append(said, say.Sentence(happened(e)))
		}
	}
	said = append(said, skyward(before.Run, after.Run)...)
	turned := before.Spoken.Do != after.Spoken.Do || before.Spoken.Why != after.Spoken.Why || after.Spoken.Level > before.Spoken.Level
	if turned {
		said = append(said, say.Sentence(after.Spoken.Answer[0]))
	}
	said = append(said, calling(before, after)...)
	toDo := say.Sentence(after.Spoken.ToDo[0])
	was := say.Sentence(before.Spoken.ToDo[0])
	asked := toDo != was && (turned || len(fresh) > 0 || after.Spoken.About != before.Spoken.About)
	if asked {
		said = append(said, toDo)
	}
	// Between two runs what to do is the step, in the run's own words, and need not be said twice.
	twice := asked && after.Run.Log.Subs == nil
	if after.Spoken.StepID != "" && after.Spoken.StepID != before.Spoken.StepID && !twice {
		said = append(said, say.Sentence(after.Spoken.Step))
	}
	return said
}

// calling tells what is on besides the run and was not: a silent sequence, dew, dawn. What to do may say it too.
func calling(before, after Moment) []string {
	var said []string
	for _, a := range after.Spoken.Unsaid {
		was := slices.ContainsFunc(before.Spoken.Unsaid, func(b say.Alert) bool { return b.Kind == a.Kind })
		if !was && a.Kind != after.Spoken.About.Alert {
			said = append(said, say.Sentence(a.Words))
		}
	}
	return said
}

// happened is an event in the words of the journal; a note is told whole.
func happened(e journal.Event) string {
	words := checklist.Words(e)
	if e.Kind != checklist.KindNoted {
		return words
	}
	var body checklist.NotedBody
	if json.Unmarshal(e.Body, &body) != nil || body.Text == "" {
		return words
	}
	return words + ": " + body.Text
}

// skyward tells what the sky did by itself: twilight, the Moon, the target's windows.
func skyward(before, after facts.Run) []string {
	var said []string
	tell := func(at time.Time, words string) {
		if at.After(before.Now) && !at.After(after.Now) {
			said = append(said, say.Sentence(words))
		}
	}
	event := func(e sky.Event, words string) {
		if e.OK {
			tell(e.At, words)
		}
	}
	event(after.Night.Twilight.Sunset, "the Sun sets")
	event(after.Night.Twilight.AstronomicalDusk, "dusk: astronomical darkness begins")
	event(after.Night.Moonrise, "the Moon rises")
	event(after.Night.Moonset, "the Moon sets")
	for _, w := range after.Windows {
		tell(w.From, after.Target.Name+" can be used from now on ("+w.OpensAfter.Text()+" until now)")
		tell(w.To, after.Target.Name+" leaves its window ("+w.ClosesBefore.Text()+")")
	}
	event(after.Night.Twilight.AstronomicalDawn, "dawn: astronomical darkness ends")
	event(after.Night.Twilight.Sunrise, "the Sun rises")
	return said
}

// DateOver returns what ends a night's sentences.
func DateOver(date plan.Date) string { return "The night of " + date.String() + " is over." }
