package checklist

import (
	"fmt"
	"path"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"duskhand/checklist/journal"
	"duskhand/sky"
)

// UndoWords returns what an undo would undo, "undo: rewound to −16°, 23:41", with the time in the given
// zone; "" if there is nothing to undo.
func (n Night) UndoWords(zone *time.Location) string {
	if n.Undoable == nil {
		return ""
	}
	return "undo: " + Words(*n.Undoable) + ", " + clock(n.Undoable.At, zone)
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
			return "derotator on at " + degreesInWords(degrees(*b.AngleDeg))
		})
	case KindDerotatorOff:
		return "derotator off"
	case KindRewound:
		return said(e, func(b RewoundBody) string { return "rewound to " + degreesInWords(degrees(b.ToDeg)) })
	case KindRead:
		return said(e, func(b ReadBody) string { return "read " + degreesInWords(degrees(b.AngleDeg)) })
	case KindSubsStarted:
		return said(e, func(b SubsStartedBody) string { return strings.TrimSpace("subs started " + b.Filter) })
	case KindUndone:
		return "taken back"
	case KindSubsStopped:
		return "subs stopped"
	case KindAxisMeasured:
		return said(e, func(b AxisMeasuredBody) string { return "axis tilt " + degreesInWords(degrees(b.TiltDeg)) })
	case KindFocused:
		return "focused"
	case KindTemperature:
		return said(e, func(b TemperatureBody) string {
			return "air " + minus(strconv.FormatFloat(b.TempC, 'f', -1, 64)) + " °C"
		})
	case KindHumidity:
		return said(e, func(b HumidityBody) string { return fmt.Sprintf("humidity %g %%", b.Percent) })
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

func said[Body any](e journal.Event, words func(Body) string) string {
	body, ok := decode[Body](e)
	if !ok {
		return idInWords(e.Kind)
	}
	return words(body)
}

// degreesInWords prints an angle to a tenth of a degree, without the tenths if there are none.
func degreesInWords(a sky.Angle) string {
	return minus(strings.TrimSuffix(fmt.Sprintf("%.1f", a.Degrees()), ".0")) + "°"
}

// minus gives a printed number a minus sign that is not a hyphen, and nought none.
func minus(number string) string {
	if number == "-0" {
		return "0"
	}
	return strings.Replace(number, "-", "−", 1)
}
