package frame

import (
	"strings"

	"duskhand/plan/framing"
	"duskhand/sky/words"
	"duskhand/ui/facts"
	"duskhand/ui/say"
	"duskhand/ui/theme"
)

// Told is a framing at an instant, with all that its sentences need.
type Told struct {
	facts.Frame
	Run  facts.Run
	View View
	Seen framing.Pixel // where the picture shows the object, from its middle
}

// Sentence is a paragraph with its role. Facts of one kind stand in rows too, each with its name, for whoever has room
// for a table.
type Sentence struct {
	Role theme.Role
	Text string
	Rows [][2]string
}

// Answer returns the camera angle in digits, empty when there is none, and the answer in words, longest
// first.
func (t Told) Answer() (digits string, ways []string) {
	if !t.Known {
		return "", []string{"no camera angle: no run is left tonight", "no run is left"}
	}
	angle := words.Direction(t.Chip.CameraAngle(), 1)
	when := "now"
	if !t.Tracking {
		when = "from " + words.MinuteFrom(t.At, t.Run.Kit.Site.Zone)
	}
	switch {
	case t.Wanted == nil:
		return angle, []string{"camera angle " + angle + " " + when, "camera " + angle, angle}
	case t.Wanted.Off.Abs() < CloseEnough:
		return angle, []string{"camera angle " + angle + " " + when + ", as wanted", angle + ", as wanted", angle}
	}
	off := strings.TrimPrefix(words.SignedTenths(t.Wanted.Off.Abs()), "+") + " off"
	return angle, []string{"camera angle " + angle + " " + when + ", " + off, "camera " + angle + ", " + off, angle + ", " + off}
}

// Sentences returns all that is to be said, the more important first.
func (t Told) Sentences() []Sentence {
	guideRole, guide := t.guideWords()
	var said []Sentence
	for _, s := range []Sentence{
		{Role: theme.Text, Text: t.wantedWords()}, {Role: theme.Text, Text: t.nudgeWords()}, {Role: theme.Faint, Text: say.Landed(t.Run)}, {Role: theme.Text, Text: t.recentreWords()},
		{Role: theme.Text, Text: t.sharedWords(), Rows: t.sharedRows()}, {Role: guideRole, Text: guide}, {Role: theme.Text, Text: t.mosaicWords()},
		{Role: theme.Faint, Text: t.alikeWords()}, {Role: theme.Faint, Text: t.trailWords()}, {Role: theme.Faint, Text: t.View.LeftOut(t.Frame)},
	} {
		if s.Text != "" {
			said = append(said, s)
		}
	}
	return said
}
