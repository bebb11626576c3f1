package say

import (
	"fmt"
	"path/filepath"

	"duskhand/sky"
	"duskhand/sky/foreign"
	"duskhand/sky/words"
	"duskhand/ui/facts"
)

// Placed says how far the telescope looks off the target by the last light that was placed and which way to move it,
// with the camera angle that it shows; "" when none tells.
func Placed(r facts.Run) string {
	off, ok := r.PlacedOff()
	if !ok {
		return ""
	}
	text := fmt.Sprintf("By the stars of %s it looks %s off, camera angle %s", words.Minute(off.At, r.Kit.Site.Zone),
		words.Arcminutes(off.By, 1), words.Degrees(off.CameraAngle, 2))
	if moves := Nudge(off.Nudge.Azimuth, off.Nudge.Altitude); off.Nudgeable && moves != "" {
		text += "; nudge " + moves
	}
	return text + "."
}

// Landed says how far off the target the last go-to ended, and which way; "" while no light has shown it.
func Landed(r facts.Run) string {
	l, ok := r.Log.Landed()
	if !ok {
		return ""
	}
	text := fmt.Sprintf("The go-to ended %s off", words.Arcminutes(l.Off, 1))
	if ways := Nudge(l.Azimuth, l.Altitude); ways != "" {
		text += ", " + ways
	}
	return text + ": by the first light since, " + foreign.Name(filepath.Base(l.Light)) + "."
}

// StarShown says which star a light shows, and whether it is the one that is meant.
func StarShown(s facts.StarShown) string {
	off := fmt.Sprintf("%s, %s off the middle", s.Star.Name(), words.Arcminutes(s.Off, 1))
	if s.Off >= sky.Degree {
		off = fmt.Sprintf("%s, %s off the middle", s.Star.Name(), words.Degrees(s.Off, 1))
	}
	switch {
	case s.Meant == nil:
		return "The light shows " + off
	case s.Star.ID == s.Meant.ID:
		return "The light shows " + off + ": it is the star that is meant"
	}
	return fmt.Sprintf("The light shows %s, and not %s: go to that one, or choose another pair", off, s.Meant.Name())
}
