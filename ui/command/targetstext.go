package command

import (
	"bytes"
	"fmt"
	"io"

	"duskhand/plan/choose"
	"duskhand/sky/words"
	"duskhand/ui/facts"
	"duskhand/ui/say"
)

func writeTargetsText(to io.Writer, r rankedTargets) error {
	var out bytes.Buffer
	k := r.night.Kit
	if k.Example {
		out.WriteString("EXAMPLE: the built-in kit, all equipment invented; make your own with: duskhand kit new\n\n")
	}
	local := words.WallOf(r.night.Span.From, r.night.Span.To, k.Site.Zone)
	what := fmt.Sprintf("Targets for the night of %s at %s, %s", r.night.Date, k.Site.Name, local.Heading())
	if from := r.Question.From; !from.IsZero() {
		what += ", from " + local.MinuteFrom(from) + " on"
	}
	out.WriteString(what + "\n")
	if len(r.Choices) == 0 {
		out.WriteString("\nNo target of the kit or the catalogue is like that; ask for less.\n")
		_, err := to.Write(out.Bytes())
		return err
	}
	line(&out, "Answer", "%s", say.Verdict(facts.VerdictOf(r.Choices[0]), k)[0])
	line(&out, "Listed", "%d of %d, by worth: hours at the zenith in the dark, without a rewind", r.shown, len(r.Choices))
	out.WriteString("\n")
	writeColumns(&out, targetRows(r))
	out.WriteString("\n")
	for i, c := range r.Choices[:r.shown] {
		fmt.Fprintf(&out, "%4d  %s: %s\n", i+1, c.Target.Called(), say.Choice(c, k))
	}
	_, err := to.Write(out.Bytes())
	return err
}

func targetRows(r rankedTargets) [][]string {
	rows := [][]string{{"", "target", "type", "in", "subs", "worth", "rewinds", "lost", "Moon", "size"}}
	for i, c := range r.Choices[:r.shown] {
		rows = append(rows, []string{fmt.Sprint(i + 1), c.Target.Called(), c.Target.Object.Type, c.Target.Object.Constellation,
			words.Lasting(c.Working), words.Lasting(c.Worth), fmt.Sprint(c.Rewinds), lostText(c, choose.ByTurning), lostText(c, choose.ByMoon), sizeText(c.Size)})
	}
	return rows
}

func lostText(c choose.Choice, of choose.Reason) string {
	return words.Percent(1-c.Factors[of].Share, 0)
}

func sizeText(s choose.Size) string {
	switch s.Fit {
	case choose.NotKnown:
		return "?"
	case choose.Larger:
		return fmt.Sprintf("%d × %d fields", s.Columns, s.Rows)
	}
	return s.Fit.String()
}
