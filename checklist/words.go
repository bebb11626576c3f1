package checklist

import (
	"path"
	"path/filepath"
	"strings"
	"time"

	"duskhand/checklist/journal"
	"duskhand/sky/words"
)

// UndoWords returns what an undo would undo, "undo: rewound to −16°, 23:41", with the time in the given
// zone; "" if there is nothing to undo.
func (n Night) UndoWords(zone *time.Location) string {
	if n.Undoable == nil {
		return ""
	}
	what := Words(*n.Undoable)
	if n.Undoable.Kind == KindStepDone {
		what = said(*n.Undoable, func(b StepDoneBody) string { return "step " + idInWords(b.Step) })
	}
	return "undo: " + what + ", " + words.Minute(n.Undoable.At, zone)
}

// Words returns what happened in an event, "rewound to −16°", without its time. Kinds that are not
// known, and bodies that can't be read, give the kind's own name as words.
func Words(e journal.Event) string {
	switch e.Kind {
	case KindTargetChosen:
		return said(e, func(b TargetChosenBody) string { return "target " + b.Name })
	case KindDerotatorOn:
		return said(e, func(b DerotatorOnBody) string {
			if b.AngleDeg == nil {
				return "derotator on"
			}
			return "derotator on at " + words.DegreesAsRead(degrees(*b.AngleDeg))
		})
	case KindDerotatorOff:
		return "derotator off"
	case KindRewound:
		return said(e, func(b RewoundBody) string { return "rewound to " + words.DegreesAsRead(degrees(b.ToDeg)) })
	case KindRead:
		return said(e, func(b ReadBody) string { return "read " + words.DegreesAsRead(degrees(b.AngleDeg)) })
	case KindSubsStarted:
		return said(e, func(b SubsStartedBody) string { return strings.TrimSpace("subs started " + b.Filter) })
	case KindUndone:
		return "taken back"
	case KindSubsStopped:
		return "subs stopped"
	case KindAxisMeasured:
		return said(e, func(b AxisMeasuredBody) string { return "axis tilt " + words.DegreesAsRead(degrees(b.TiltDeg)) })
	case KindFocused:
		return "focused"
	case KindTemperature:
		return said(e, func(b TemperatureBody) string {
			return "air " + words.CelsiusAsRead(b.TempC)
		})
	case KindHumidity:
		return said(e, func(b HumidityBody) string { return "humidity " + words.PercentAsRead(b.Percent) })
	case KindSubArrived:
		return said(e, func(b SubArrivedBody) string { return "sub " + path.Base(filepath.ToSlash(b.Path)) })
	case KindDivided:
		return said(e, dividedWords)
	case KindFramed:
		return said(e, framedWords)
	case KindSighted:
		return said(e, func(b SightedBody) string { return "sight of " + b.Name })
	case KindStepDone:
		return said(e, func(b StepDoneBody) string { return "done: " + idInWords(b.Step) })
	case KindStepSkipped:
		return said(e, func(b StepSkippedBody) string { return "skipped: " + idInWords(b.Step) })
	case KindStepFailed:
		return said(e, func(b StepFailedBody) string { return "failed: " + idInWords(b.Step) })
	case KindNoted:
		return "note"
	}
	if r, ok := rowOf(e.Kind); ok {
		return r.words(e)
	}
	return idInWords(e.Kind)
}

// idInWords returns a step's id, or an event's kind, as words: they are written to be read.
func idInWords(id string) string { return strings.ReplaceAll(id, "-", " ") }

func said[Body any](e journal.Event, print func(Body) string) string {
	body, ok := decode[Body](e)
	if !ok {
		return idInWords(e.Kind)
	}
	return print(body)
}
