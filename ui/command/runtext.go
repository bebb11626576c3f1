package command

import (
	"bytes"
	"fmt"
	"strings"
	"time"
	"unicode/utf8"

	"duskhand/plan"
	"duskhand/plan/worth"
	"duskhand/sky"
	"duskhand/sky/words"
	"duskhand/ui/say"
)

// writeRuns writes the runs as a table, the rewinds between its rows.
func writeRuns(out *bytes.Buffer, t plannedTarget, local words.Wall) {
	rows := [][]string{{"run", "start", "end", "start UTC", "limit", "early", "late", "derotator", "camera", "subs"}}
	for i, run := range t.runs.Runs {
		if rewind, ok := t.runs.RewindBefore(i); ok && rewind.Turns > 0 { // at a hand-over the stage may stay where it stands
			rows = append(rows, []string{"", local.Minute(rewind.From), local.MinuteFrom(rewind.To), words.Minute(rewind.From, time.UTC),
				"rewind", "", "", travelText(rewind.FromAngle, rewind.ToAngle), "", words.ToSecond(rewind.Turns)})
		}
		limit, early, late := limitText(run.Limit, local)
		rows = append(rows, []string{fmt.Sprint(i + 1), local.MinuteFrom(run.From), local.Minute(run.To), words.MinuteFrom(run.From, time.UTC),
			limit, early, late, travelText(run.StartAngle, run.EndAngle), words.Degrees(t.course.OfJ2000(run.CameraAngle), 1), countsText(run.Counts)})
	}
	writeColumns(out, rows)
}

// limitText gives the limit and its bounds; a bound that some axis does not have says so.
func limitText(l plan.Limit, local words.Wall) (limit, early, late string) {
	if !l.Early.OK && !l.At.OK {
		return "none", "", ""
	}
	limit = l.Side.String() + ", or none"
	if l.At.OK {
		limit = l.Side.String() + " " + local.Minute(l.At.At)
	}
	return limit, local.Event(l.Early), local.EventFrom(l.Late)
}

func travelText(from, to sky.Angle) string {
	return words.Degrees(from, 1) + " → " + words.Degrees(to, 1)
}

func countsText(counts []plan.FilterCount) string {
	var parts []string
	for _, c := range counts {
		parts = append(parts, fmt.Sprintf("%d %s", c.Count, c.Filter))
	}
	return strings.Join(parts, ", ")
}

// writeColumns sets rows under one another, two blanks apart, without blanks at the end of a line.
func writeColumns(out *bytes.Buffer, rows [][]string) {
	widths := make([]int, len(rows[0]))
	for _, row := range rows {
		for i, cell := range row {
			widths[i] = max(widths[i], utf8.RuneCountInString(cell))
		}
	}
	for _, row := range rows {
		var text strings.Builder
		for i, cell := range row {
			text.WriteString("  " + cell + strings.Repeat(" ", widths[i]-utf8.RuneCountInString(cell)))
		}
		out.WriteString(strings.TrimRight(text.String(), " ") + "\n")
	}
}

// writeTotals writes what the night comes to.
func writeTotals(out *bytes.Buffer, night *plan.Night, t plannedTarget, local words.Wall) {
	taken := t.runs.After.Taken()
	var parts []string
	for i, filter := range t.course.Kit.Subs.Filters {
		if filter.Count > 0 {
			parts = append(parts, fmt.Sprintf("%s %d of %d", filter.Name, taken[i], filter.Count))
		}
	}
	note := ""
	if t.runs.After.Done() {
		note = "; all that are wanted"
	}
	if order := say.Order(worth.Parts(night, t.course, t.runs), local.Minute); order != "" {
		line(out, "  Order", "%s", order)
	}
	line(out, "  Subs", "%s%s", strings.Join(parts, ", "), note)
	exposed := t.runs.Exposed()
	dark := lengthOf(t.course.Dark)
	line(out, "  Exposed", "%s of %s dark, %s", words.Lasting(exposed), words.Lasting(dark), words.Percent(float64(exposed)/float64(dark), 0))
}

func lengthOf(spans []plan.Span) (total time.Duration) {
	for _, dark := range spans {
		total += dark.Length()
	}
	return total
}
