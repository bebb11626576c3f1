package sheet

import (
	"strings"

	"github.com/charmbracelet/x/ansi"

	"duskhand/ui/draw"
	"duskhand/ui/keys"
	"duskhand/ui/screens"
	"duskhand/ui/theme"
)

// group is a heading with the keys that hold there.
type group struct {
	heading string
	keys    []keys.Bound
}

// groups are the keys by where they hold: on the screen that shows, for the night, everywhere; then those of the other
// screens, one group each, so that no key stands twice without its place.
func groups(now screens.Status) []group {
	here := group{heading: "On this screen: " + now.Screen.String()}
	night, everywhere := group{heading: "The night, on every screen"}, group{heading: "Everywhere"}
	var others []group
	for room := range keys.ScreenCount {
		others = append(others, group{heading: "On the screen " + room.String()})
	}
	for _, b := range now.Keys.All() {
		switch {
		case len(b.On) == int(keys.ScreenCount)-1: // all screens but one
			everywhere.keys = append(everywhere.keys, b)
		case len(b.On) > 0 && b.IsOn(now.Screen):
			here.keys = append(here.keys, b)
		case len(b.On) == 0 && b.Says:
			night.keys = append(night.keys, b)
		case len(b.On) == 0:
			everywhere.keys = append(everywhere.keys, b)
		default:
			others[b.On[0]].keys = append(others[b.On[0]].keys, b)
		}
	}
	return append([]group{here, night, everywhere}, others...)
}

// lines are the rows of a group in a column of a width; words that are too long go on in the next row.
func (g group) lines(width int) (lines []line) {
	if len(g.keys) == 0 {
		return nil
	}
	lines = append(lines, line{key: " ", role: theme.Faint}, line{heading: draw.Shorten(draw.Unicode, g.heading, width)})
	for _, b := range g.keys {
		role := theme.Text
		if !b.Possible {
			role = theme.Faint
		}
		key := b.Shown
		for _, words := range strings.Split(ansi.Wordwrap(b.Words+also(b), max(1, width-widestKey), ""), "\n") {
			lines = append(lines, line{key: key, words: words, role: role})
			key = ""
		}
	}
	return lines
}

// also names the second screen of a key that two screens have.
func also(b keys.Bound) string {
	if len(b.On) != 2 {
		return ""
	}
	return ", on " + b.On[0].String() + " and " + b.On[1].String()
}
