package record

import (
	"fmt"
	"strings"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/sky/foreign"
	"duskhand/sky/words"
)

// Mention is something that the person who stacks should know of.
type Mention struct {
	At   time.Time
	Kind string // "note", "focus", "temperature", "humidity", "failed", "skipped", "command", "clock", "reading", "guiding", "cloud"
	Text string
}

// mentions lists them. Kinds that are not known here are passed over.
func (l log) mentions() (all []Mention) {
	for _, e := range l.events {
		if kind, text := mention(e); printable(text) != "" {
			all = append(all, Mention{At: e.At, Kind: kind, Text: printable(text)})
		}
	}
	return all
}

// printable makes one line of a text, without what would move a terminal's cursor.
func printable(text string) string {
	return strings.Join(strings.Fields(foreign.Line(text)), " ")
}

func mention(e journal.Event) (kind, text string) {
	switch e.Kind {
	case checklist.KindNoted:
		return "note", say(e, func(b checklist.NotedBody) string { return strings.TrimSpace(b.Text) })
	case checklist.KindFocused:
		return "focus", say(e, focused)
	case checklist.KindTemperature:
		return "temperature", say(e, func(b checklist.TemperatureBody) string { return words.Celsius(b.TempC, 1) })
	case checklist.KindHumidity:
		return "humidity", say(e, func(b checklist.HumidityBody) string { return words.Percent(b.Percent/100, 0) })
	case checklist.KindStepFailed:
		return "failed", say(e, func(b checklist.StepFailedBody) string { return step(b.Step, b.Loop, b.Note) })
	case checklist.KindStepSkipped:
		return "skipped", say(e, func(b checklist.StepSkippedBody) string { return step(b.Step, b.Loop, b.Reason) })
	case checklist.KindCommandFailed:
		return "command", say(e, func(b checklist.CommandFailedBody) string {
			return fmt.Sprintf("%s, bound to %s, failed: %s", strings.Join(b.Command, " "), b.Event, b.Problem)
		})
	case checklist.KindClockJumped:
		return "clock", say(e, jumped)
	case checklist.KindRead:
		return "reading", checklist.Words(e)
	case checklist.KindGuidingLost, checklist.KindGuideCheck:
		return "guiding", checklist.Words(e)
	case checklist.KindCloud, checklist.KindClear:
		return "cloud", checklist.Words(e)
	}
	return "", ""
}

func say[Body any](e journal.Event, print func(Body) string) string {
	body, ok := bodyOf[Body](e, e.Kind)
	if !ok {
		return ""
	}
	return print(body)
}

func focused(b checklist.FocusedBody) string {
	text := "focused"
	if b.Star != "" {
		text += " on " + b.Star
	}
	if b.TempC != nil {
		text += " at " + words.Celsius(*b.TempC, 1)
	}
	return text
}

// step says a step by its name, for which its words joined by hyphens are good enough to read.
func step(id string, loop int, text string) string {
	name := strings.ReplaceAll(id, "-", " ")
	if loop > 0 {
		name += fmt.Sprintf(" (run %d)", loop)
	}
	if text = strings.TrimSpace(text); text != "" {
		name += ": " + text
	}
	return name
}

// jumped says a jump of the clock. Times before it are given as the clock went after it.
func jumped(b checklist.ClockJumpedBody) string {
	by, way := time.Duration(b.ToNs-b.FromNs), "ahead"
	if by < 0 {
		by, way = -by, "back"
	}
	return fmt.Sprintf("the computer's clock went %s by %s; times before are given as it went after, frames before bear the old ones",
		way, words.ToSecond(by))
}
