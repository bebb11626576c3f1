package screens

import (
	"fmt"
	"strings"
	"time"

	"duskhand/sky"
	"duskhand/sky/words"
	"duskhand/ui/draw"
	"duskhand/ui/layout"
	"duskhand/ui/theme"
)

// Header says whose night it is, the time, and where the target stands.
func (s Status) Header(area draw.Area) {
	zone := s.Zone()
	local, utc := words.SecondWithZone(s.Now, zone), words.Second(s.Now, time.UTC)+" UT"
	x := area.PutRight(area.Width(), 0, theme.Faint,
		layout.Longest(area.Width()/2, local+"   "+utc, local, words.Minute(s.Now, zone)))
	role := theme.Faint
	if s.Mark != "" {
		role = theme.Caution
	}
	site := s.Kit.Site.Name
	area.Put(0, 0, role, layout.Longest(x-1, strings.TrimPrefix(s.Mark+" · "+site, " · "), s.Mark+site[:0],
		ShortMark(s.Mark)))
	if s.Tonight == nil || area.Height() < 2 {
		return
	}
	target := s.Tonight.Target
	place := s.whereItStands()
	end := area.PutRight(area.Width(), 1, theme.Text, layout.Longest(area.Width()*3/5, place...))
	area.Put(0, 1, theme.Text, layout.Longest(end-2, s.targetWords(), target.Name))
}

// MarkOf says what kind of night is shown, if not the real one.
func MarkOf(example, replaying bool, night, follows string, orphaned bool) string {
	switch {
	case example:
		return "EXAMPLE NIGHT"
	case replaying:
		return "REPLAY of " + night
	case orphaned:
		return "FOLLOWING NOBODY"
	case follows != "":
		return "FOLLOWING"
	}
	return ""
}

// ShortMark is a mark in one word.
func ShortMark(mark string) string {
	first, _, _ := strings.Cut(mark, " ")
	return first
}

// targetWords is the target's number with its name for people, if it has one.
func (s Status) targetWords() string {
	return s.Tonight.Target.Called()
}

func (s Status) whereItStands() []string {
	p := s.Run.Place
	if p.Altitude < 0 {
		return []string{"below the horizon", "below"}
	}
	way := "sinking"
	if s.Run.Climbing {
		way = "climbing"
	}
	up := fmt.Sprintf("%s up, ", words.Degrees(p.Altitude, 0))
	filter := ""
	if s.Log.Subs != nil && !s.Run.Progress.Waiting {
		f := s.Run.Progress.Now.Filter
		filter = fmt.Sprintf(" · %s %s", f.Name, words.Exposure(f.Exposure))
	}
	return []string{
		up + words.Compass(p.Azimuth) + ", " + way + filter,
		up + words.Compass(p.Azimuth) + ", " + way,
		up + words.CompassLetters(p.Azimuth),
	}
}

// Tilt prints how the axis is taken to lean, for the sentence on what the bounds assume.
func (s Status) Tilt() string {
	a := s.Tonight.Axis
	if a.Tilt == 0 && a.Uncertainty == 0 {
		return "axis taken as levelled"
	}
	digits := 1
	if a.Uncertainty < 0.1*sky.Degree {
		digits = 2
	}
	return fmt.Sprintf("axis tilt %s toward %s ± %s", words.Degrees(a.Tilt, 1), words.Compass(a.Toward),
		words.Degrees(a.Uncertainty, digits))
}

// Marked puts the mark of the example or of a replay before the label where the header has no room: it
// stands on every screen.
func (s Status) Marked(header layout.Band, label []string) []string {
	mark := ShortMark(s.Mark)
	if mark == "" || header.Height > 0 {
		return label
	}
	ways := make([]string, 0, len(label)+1)
	for _, way := range label {
		ways = append(ways, mark+" · "+way)
	}
	return append(ways, mark)
}
