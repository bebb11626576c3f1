package frame

import (
	"fmt"
	"time"

	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/ui/draw"
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
		return "Wanted " + draw.PositionText(w.CameraAngle) + "; no run is left for it."
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
	text := fmt.Sprintf("Wanted %s can't be had %s: ", draw.PositionText(w.CameraAngle), t.whenWords(w.Span.From))
	if past := beyond(d, needs); past > 0 {
		text += fmt.Sprintf("it takes %s, %.1f° beyond the travel", draw.TenthsText(needs), past.Degrees())
	} else {
		text += fmt.Sprintf("it takes %s, and the derotator stops only at its ends", draw.TenthsText(needs))
	}
	return text + fmt.Sprintf("; nearest %s at %s. ", draw.PositionText(w.CameraAngle+w.Choice.Off), draw.TenthsText(w.Choice.Nearest.Reading)) + t.keepWords()
}

func (t Told) possibleWords(w *facts.Wanted) string {
	nearest := w.Choice.Nearest
	text := fmt.Sprintf("Wanted %s: derotator at %s gives it %s, good for %s", draw.PositionText(w.CameraAngle), draw.TenthsText(nearest.Reading),
		t.whenWords(w.Span.From), facts.Lasting(nearest.Run.Until.Sub(w.Span.From)))
	if cost := w.Choice.Cost(); cost >= facts.WorthTelling {
		text += fmt.Sprintf(", %s less than from %s", facts.Lasting(cost), draw.TenthsText(w.Choice.Longest.Reading))
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
	return "at " + facts.HourMinuteUp(at, t.Run.Kit.Site.Zone)
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
		object = fmt.Sprintf("; %.0f %% of the object", 100*last.ObjectShare)
	}
	if len(shared.Runs) == 1 {
		return "One run: all of the frame" + object + "."
	}
	text := fmt.Sprintf("%d runs share %.0f %% of a frame%s; upright crop %s", len(shared.Runs), 100*last.Common.Share, object, t.cropWords(last))
	const listed = 6
	if n := len(shared.Runs); n <= listed {
		text += "; run by run"
		for _, s := range shared.Runs {
			text += fmt.Sprintf(" %.0f", 100*s.Common.Share)
		}
		text += " %"
	}
	return text + "."
}

// cropWords is the largest upright crop in shares of the frame's sides.
func (t Told) cropWords(s framing.Shared) string {
	width, height := t.Sensor.PlaneSize()
	return fmt.Sprintf("%.0f × %.0f %%", 100*float64(s.Common.CropWidth/width), 100*float64(s.Common.CropHeight/height))
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
		return fmt.Sprintf("All at %s would cost nothing: set it as the wanted angle.", draw.PositionText(shared.AlikeAngle))
	}
	return fmt.Sprintf("All at %s instead: %s of subs, not %s.", draw.PositionText(shared.AlikeAngle), facts.Lasting(shared.AlikeExposed), facts.Lasting(shared.Exposed))
}
