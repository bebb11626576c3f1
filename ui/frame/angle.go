package frame

import (
	"fmt"
	"time"

	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/words"
	"duskhand/ui/facts"
)

// What the Frame screen says of the wanted angle and of the frames of all runs.

// wantedWords says what the wanted angle costs, and what the plan does about it.
func (t Told) wantedWords() string {
	w := t.Wanted
	switch {
	case w == nil:
		return "No angle is wanted: runs begin where they last longest."
	case !w.Usable:
		return "Wanted " + words.Direction(w.CameraAngle, 1) + "; no run is left for it."
	case w.Choice.Possible():
		return t.possibleWords(w)
	}
	d := t.Run.Kit.Derotator
	needs := w.Choice.Giving[0].Reading
	for _, other := range w.Choice.Giving {
		if beyond(d, other.Reading) < beyond(d, needs) {
			needs = other.Reading
		}
	}
	text := fmt.Sprintf("Wanted %s can't be had %s: ", words.Direction(w.CameraAngle, 1), t.whenWords(w.Span.From))
	if past := beyond(d, needs); past > 0 {
		text += fmt.Sprintf("it takes %s, %s beyond the travel", words.SignedTenths(needs), words.Degrees(past, 1))
	} else {
		text += fmt.Sprintf("it takes %s, and the derotator stops only at its ends", words.SignedTenths(needs))
	}
	return text + fmt.Sprintf("; nearest %s at %s. ", words.Direction(w.CameraAngle+w.Choice.Off, 1), words.SignedTenths(w.Choice.Nearest.Reading)) + t.keepWords()
}

func (t Told) possibleWords(w *facts.Wanted) string {
	nearest := w.Choice.Nearest
	text := fmt.Sprintf("Wanted %s: derotator at %s gives it %s, good for %s", words.Direction(w.CameraAngle, 1), words.SignedTenths(nearest.Reading),
		t.whenWords(w.Span.From), words.Lasting(nearest.Run.Until.Sub(w.Span.From)))
	if cost := w.Choice.Cost(); cost >= facts.WorthTelling {
		text += fmt.Sprintf(", %s less than from %s", words.Lasting(cost), words.SignedTenths(w.Choice.Longest.Reading))
	}
	return text + ". " + t.keepWords()
}

// beyond is how far a reading lies outside the travel.
func beyond(d kit.Derotator, reading sky.Angle) sky.Angle {
	return max(d.Min-reading, reading-d.Max, 0)
}

func (t Told) whenWords(at time.Time) string {
	if !at.After(t.Run.Now) {
		return "now"
	}
	return "at " + words.MinuteFrom(at, t.Run.Kit.Site.Zone)
}

// keepWords says which runs the plan begins at the wanted angle.
func (t Told) keepWords() string {
	switch t.Framing.Keep {
	case kit.PreferAngle:
		return "Runs begin there when they can."
	case kit.AlwaysKeep:
		return "Every run waits for it."
	}
	return "The plan takes the longest runs instead."
}

// sharedWords says what the frames of all runs have in common.
func (t Told) sharedWords() string {
	shared := t.Shared
	last, ok := shared.Last()
	if !ok {
		return ""
	}
	object := ""
	if shared.Outline {
		object = fmt.Sprintf("; %s of the object", words.Percent(last.ObjectShare, 0))
	}
	if len(shared.Runs) == 1 {
		return "One run: all of the frame" + object + "."
	}
	text := fmt.Sprintf("%d runs share %s of a frame%s; cropped upright, %s of its sides", len(shared.Runs), words.Percent(last.Common.Share, 0), object, t.cropWords(last))
	if left := t.leftRunByRun(); left != "" {
		text += "; after each run " + left
	}
	return text + "."
}

// leftRunByRun is what is still common after each run, "" where those are too many to be listed.
func (t Told) leftRunByRun() string {
	const listed = 6
	if len(t.Shared.Runs) > listed {
		return ""
	}
	var left []string
	for _, s := range t.Shared.Runs {
		left = append(left, words.Number(100*s.Common.Share, 0))
	}
	return words.List(left) + " %"
}

// sharedRows are the facts of sharedWords by their names; none for a single run.
func (t Told) sharedRows() (rows [][2]string) {
	last, ok := t.Shared.Last()
	if !ok || len(t.Shared.Runs) == 1 {
		return nil
	}
	rows = append(rows, [2]string{"shared by", words.Count(len(t.Shared.Runs), "run")},
		[2]string{"of the frame", words.Percent(last.Common.Share, 0)})
	if t.Shared.Outline {
		rows = append(rows, [2]string{"of the object", words.Percent(last.ObjectShare, 0)})
	}
	rows = append(rows, [2]string{"upright crop", t.cropWords(last)})
	if left := t.leftRunByRun(); left != "" {
		rows = append(rows, [2]string{"after each run", left})
	}
	return rows
}

// cropWords is the largest upright crop in shares of the frame's sides.
func (t Told) cropWords(s framing.Shared) string {
	width, height := t.Sensor.PlaneSize()
	return fmt.Sprintf("%.0f × %s", 100*float64(s.Common.CropWidth/width), words.Percent(float64(s.Common.CropHeight/height), 0))
}

// alikeWords says what it would cost to have all frames cover the same sky.
func (t Told) alikeWords() string {
	shared := t.Shared
	if last, ok := shared.Last(); !ok || last.Common.Share > 0.99 {
		return ""
	}
	if shared.AlikeExposed == 0 {
		return "No later run can have one angle with the first."
	}
	if shared.Exposed-shared.AlikeExposed < facts.WorthTelling {
		return fmt.Sprintf("All at %s would cost nothing: set it as the wanted angle.", words.Direction(shared.AlikeAngle, 1))
	}
	return fmt.Sprintf("All at %s instead: %s of subs, not %s.", words.Direction(shared.AlikeAngle, 1), words.Lasting(shared.AlikeExposed), words.Lasting(shared.Exposed))
}
