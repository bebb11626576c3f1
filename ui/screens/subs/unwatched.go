package subs

import (
	"strings"

	"duskhand/ui/draw"
	"duskhand/ui/layout"
	"duskhand/ui/theme"
)

// howToWatch says how a folder is watched, and what one gains by it.
const howToWatch = `Name the folder that the camera program writes its lights to, in the kit file:

  [watch]
  folders = ["/where/the/lights/go"]

Then leave (q) and open duskhand again: it goes on where it was.

Each light then counts for its run, and its stars are measured: focus, sky, and where it looks. A field that turns, a stage that slips and a guide star that is lost are called after two or three lights.

Once, without watching: duskhand subs FOLDER`

// unwatched tells that no folder is watched and that nothing has come another way.
func (m view) unwatched() bool { return !m.Subs.Watched && len(m.Subs.Arrived) == 0 }

// drawUnwatched writes how to watch in the place of trends and table, which nothing would fill.
func (m view) drawUnwatched(area draw.Area) {
	y := 1
	for line := range strings.SplitSeq(howToWatch, "\n") {
		y += max(1, layout.Paragraph(area, y, theme.Text, line))
	}
}
