package frame

import (
	"fmt"
	"strings"

	"duskhand/plan/framing"
	"duskhand/sky"
	"duskhand/sky/words"
	"duskhand/ui/say"
	"duskhand/ui/theme"
)

// What the Frame screen says of the mount, the guide star, trails and mosaics.

// nudgeWords says how to move the mount so that the target comes where it is wanted, by the hand
// controller's keys as the mount stands now.
//
// Where the stars of a light tell, they say it, unless somebody has said where the picture shows the target.
func (t Told) nudgeWords() string {
	if placed := say.Placed(t.Run); placed != "" && t.Seen == (framing.Pixel{}) {
		return placed
	}
	nudge, ok := t.NudgeAt(t.Run, t.Seen)
	if !ok {
		return ""
	}
	from := "from the middle"
	if t.Seen != (framing.Pixel{}) {
		from = fmt.Sprintf("from %s, %s pixels", words.SignedNumber(t.Seen.X, 0), words.SignedNumber(t.Seen.Y, 0))
	}
	moves := say.Nudge(nudge.Azimuth, nudge.Altitude)
	if moves == "" {
		return "Nudge: none while the picture shows it in the middle."
	}
	text := "Nudge " + from + ": " + moves
	if across := nudge.AzimuthOnSky.Abs(); nudge.Azimuth.Abs() >= leastNudge && across < nudge.Azimuth.Abs()*95/100 {
		text += fmt.Sprintf(" (azimuth %s on the sky)", words.Arcminutes(across, 1))
	}
	return text
}

// leastNudge is the smallest turn in azimuth of which the way on the sky is told.
const leastNudge = 0.05 * sky.Arcminute

// recentreWords says what the last turn of the derotator has done to the picture, or the next will, where its axis is
// known.
func (t Told) recentreWords() string {
	said, ok := say.Recentre(t.Run)
	if !ok {
		return ""
	}
	axis, _ := t.Run.CameraAxis()
	text := fmt.Sprintf("Derotator's axis %s right, %s up", words.SignedNumber(axis.At.X, 0), words.SignedNumber(axis.At.Y, 0))
	if axis.Turns > 0 {
		text += fmt.Sprintf(" (± %.0f, from %d)", axis.Sigma, axis.Turns)
	}
	return text + " pixels; " + said[0] + "."
}

// guideWords says whether there is a guide star, and which way the guide telescope must not look.
func (t Told) guideWords() (theme.Role, string) {
	g := t.Guide
	if g == nil {
		return theme.Faint, "No guide camera in the kit, so no guide star is looked for."
	}
	role, text := theme.Text, ""
	switch len(g.Stars) {
	case 0:
		role, text = theme.Caution, fmt.Sprintf("NO GUIDE STAR to magnitude %.1f", g.Faintest)
	case 1:
		text = fmt.Sprintf("One guide star, magnitude %.1f", g.Stars[0].Mag)
	default:
		text = fmt.Sprintf("%d guide stars, the best of magnitude %.1f", len(g.Stars), g.Stars[0].Mag)
	}
	if g.Complete < g.Faintest {
		text += fmt.Sprintf(" (fainter than %.1f not all are listed)", g.Complete)
	}
	return role, text + "; " + t.withoutWords(g.Distance, g.Without)
}

func (t Told) withoutWords(off sky.Angle, arcs []framing.Arc) string {
	by := fmt.Sprintf("%s off", words.Degrees(off, 1))
	switch {
	case len(arcs) == 0:
		return "one in every direction if the guide telescope looks " + by + "."
	case arcs[0] == framing.Arc{}:
		return "none in any direction if the guide telescope looks " + by + "."
	}
	var ranges []string
	for _, arc := range arcs[:min(len(arcs), 3)] {
		ranges = append(ranges, words.Number(arc.From.Degrees(), 0)+"–"+words.Degrees(arc.To, 0))
	}
	return fmt.Sprintf("none if the guide telescope looks %s towards %s left of the chip's up.", by, strings.Join(ranges, ", "))
}

func (t Told) trailWords() string {
	trail := t.Trail
	text := ""
	if trail.StillOK {
		text = fmt.Sprintf("Without derotation %s until the corner trails %.0f pixel.", words.Exposure(trail.Still.Truncate(100_000_000)), trail.Pixels)
	}
	if trail.Residual != 0 {
		text += fmt.Sprintf(" With %s left over, %s.", words.AnHour(trail.Residual, 2), words.Exposure(trail.ResidualOK.Truncate(100_000_000)))
	}
	if trail.GuidePixel > 0 {
		text += fmt.Sprintf(" A guide star %s off moves the field %.1f pixels for each degree that it turns.", words.Degrees(trail.GuideOff, 1), trail.GuidePixel)
	}
	return strings.TrimSpace(text)
}

// mosaicWords says what a mosaic covers and what its night gives.
func (t Told) mosaicWords() string {
	mosaic := t.Mosaic
	if mosaic == nil {
		return t.tooLargeWords()
	}
	width, height := mosaic.Grid.Size()
	text := fmt.Sprintf("%d × %d fields, %s overlap: %s × %s", mosaic.Grid.Rows, mosaic.Grid.Columns,
		words.Percent(mosaic.Grid.Overlap, 0), words.Degrees(width, 1), words.Degrees(height, 1))
	if len(mosaic.Night.Runs) == 0 {
		return text + "; no run serves them all tonight."
	}
	return text + fmt.Sprintf("; %s on them in %s, %s lost to moves and rewinds.", words.Lasting(mosaic.Night.Gained), words.Count(len(mosaic.Night.Runs), "run"), words.Lasting(mosaic.Night.Wasted))
}

// UsualOverlap is what neighbours of a mosaic share if nothing is said.
const UsualOverlap = framing.UsualOverlap

func (t Told) tooLargeWords() string {
	rows, columns, ok := t.NeededPanels(UsualOverlap)
	if !ok || rows*columns <= 1 {
		return ""
	}
	return fmt.Sprintf("The object is larger than the field: %d × %d fields hold it.", rows, columns)
}
