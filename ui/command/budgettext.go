package command

import (
	"bytes"
	"fmt"
	"io"
	"time"

	"duskhand/plan/exposure"
	"duskhand/sky/words"
	"duskhand/ui/facts"
	"duskhand/ui/say"
)

func writeBudgetText(to io.Writer, b budget) error {
	var out bytes.Buffer
	k := b.run.Kit
	if k.Example {
		out.WriteString("EXAMPLE: the built-in kit, all equipment invented; make your own with: duskhand kit new\n\n")
	}
	local := words.WallOf(b.run.Night.Span.From, b.run.Night.Span.To, k.Site.Zone)
	fmt.Fprintf(&out, "Budget of the night of %s at %s, %s\n", b.run.Night.Date, k.Site.Name, local.Heading())
	if b.subs.OK {
		fmt.Fprintf(&out, "\nSubs of %s that begin at %s (%s)\n", b.subs.Target.Name, local.MinuteFrom(b.subs.At), words.MinuteFromUTC(b.subs.At))
		writeColumns(&out, subRows(b.subs))
		for _, words := range wishWords(b.subs) {
			out.WriteString("  " + words + "\n")
		}
		for _, words := range say.SubLengths(b.subs) {
			out.WriteString("  " + words + "\n")
		}
	} else {
		fmt.Fprintf(&out, "\n%s can't be used from then on this night: there is no sub length to give.\n", b.subs.Target.Name)
	}
	out.WriteString("\nSupplies\n")
	for _, told := range say.Supplies(b.supplies) {
		out.WriteString("  " + told.Text + "\n")
	}
	_, err := to.Write(out.Bytes())
	return err
}

// wishWords says what was asked for beyond the usual.
func wishWords(s facts.SubLengths) (said []string) {
	for _, a := range s.Filters {
		if a.StarFills.OK {
			said = append(said, fmt.Sprintf("%s: that star burns out in subs of %s and longer.", a.Filter.Name, words.Exposure(a.StarFills.Value)))
		}
		if a.SubsWanted.OK {
			said = append(said, fmt.Sprintf("%s: %d subs of %s give that signal to noise, %s together.", a.Filter.Name, a.SubsWanted.Value,
				words.Exposure(a.Filter.Exposure), words.Lasting(time.Duration(a.SubsWanted.Value)*a.Filter.Exposure)))
		}
	}
	return said
}

func subRows(s facts.SubLengths) [][]string {
	rows := [][]string{{"filter", "the kit's", "at least", "without Moon", "reading adds", "sky fills", "Moon takes", "saturates at"}}
	share := func(x float64) string { return words.Percent(x, 1) }
	for _, a := range s.Filters {
		rows = append(rows, []string{a.Filter.Name, words.Exposure(a.Filter.Exposure), figureOr(a.Shortest, words.ExposureAtLeast), figureOr(a.ShortestDark, words.ExposureAtLeast),
			figureOr(a.ReadNoise, share), figureOr(a.WellShare, share), figureOr(a.MoonTakes, func(x float64) string { return words.Percent(x, 0) }), figureOr(a.Saturates, func(mag float64) string { return "magnitude " + words.Number(mag, 1) })})
	}
	return rows
}

// figureOr prints a figure, ? if the kit lacks what it needs, and "none" if there is no such thing.
func figureOr[T any](f exposure.Figure[T], print func(T) string) string {
	switch {
	case f.OK:
		return print(f.Value)
	case len(f.Lacks) > 0:
		return "?"
	}
	return "none"
}
