package page

import (
	"fmt"

	"duskhand/plan"
	"duskhand/sky/words"
	"duskhand/ui/say"
	"duskhand/ui/theme"
)

// notes say why nothing is exposed in the rest of the dark, and what a better knowledge of the axis is worth.
func (n Night) notes() (notes []string) {
	run := n.Told.Run
	wall := words.WallOf(run.Night.Span.From, run.Night.Span.To, run.Kit.Site.Zone)
	all := run.Tonight.Idle()
	for _, i := range all {
		what := "Gap"
		if i.Why == plan.BetterStart {
			what = "Wait"
		}
		from, to := say.EdgesOf(i.Span, all, run.Course.Dark, wall)
		notes = append(notes, fmt.Sprintf("%s %s to %s, %s: %s.", what, from, to, words.Lasting(i.Length()), say.WhyIdle(i)))
	}
	if ways, tells := say.PriceWords(n.Price); tells {
		notes = append(notes, say.Sentence(ways[0]))
	}
	return notes
}

// remarks writes the notes below the table and returns where they end.
func (s *svg) remarks(n Night, y float64) float64 {
	for _, note := range n.notes() {
		s.text(point{edge, y}, letters, theme.Text, "start", note)
		y += lineHeight
	}
	return y
}
