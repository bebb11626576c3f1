package say

import (
	"fmt"
	"math"
	"strings"

	"duskhand/sky"
	"duskhand/sky/words"
	"duskhand/ui/facts"
)

// leastNudge is the smallest move that is worth a press: what rounds to a tenth of an arcminute.
const leastNudge = 0.05 * sky.Arcminute

// Nudge names a move of both axes by the keys of the hand control: azimuth 1.2′ right, altitude 0.4′ down; "" for one
// that is not worth a press.
func Nudge(azimuth, altitude sky.Angle) string {
	var moves []string
	for _, m := range []struct {
		by             sky.Angle
		axis, yes, not string
	}{{azimuth, "azimuth", "right", "left"}, {altitude, "altitude", "up", "down"}} {
		way := m.yes
		if m.by < 0 {
			way = m.not
		}
		if m.by.Abs() >= leastNudge {
			moves = append(moves, fmt.Sprintf("%s %s %s", m.axis, words.Arcminutes(m.by.Abs(), 1), way))
		}
	}
	return strings.Join(moves, ", ")
}

// Recentre says where the target stands after a turn of the derotator and how it is brought back, longest first; ok is
// false where nobody knows the derotator's axis, or no turn comes.
func Recentre(r facts.Run) (ways []string, ok bool) {
	to, ok := r.Recentring()
	if !ok {
		return nil, false
	}
	nudge := Nudge(to.Nudge.Azimuth, to.Nudge.Altitude)
	if nudge == "" {
		nudge = "no nudge"
	}
	off := fmt.Sprintf("%.0f pixels off", math.Hypot(to.Seen.X-to.Wanted.X, to.Seen.Y-to.Wanted.Y))
	if to.Sigma > 0 {
		off += fmt.Sprintf(" (± %.0f)", to.Sigma)
	}
	when := "the next rewind leaves"
	if to.Done {
		when = "the rewind has left"
	}
	return []string{fmt.Sprintf("%s the target %s: %s", when, off, nudge), "after it nudge " + nudge, nudge}, true
}
