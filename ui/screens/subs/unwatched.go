package subs

import (
	"strings"

	"duskhand/ui/draw"
	"duskhand/ui/layout"
	"duskhand/ui/say"
	"duskhand/ui/theme"
)

// unwatched tells that no folder is watched and that nothing has come another way.
func (m view) unwatched() bool { return !m.Subs.Watched && len(m.Subs.Arrived) == 0 }

// drawUnwatched writes how to watch in the place of trends and table, which nothing would fill.
func (m view) drawUnwatched(area draw.Area) {
	y := 1
	for line := range strings.SplitSeq(say.HowToWatch, "\n") {
		y += max(1, layout.Paragraph(area, y, theme.Text, line))
	}
}
