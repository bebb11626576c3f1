package facts

import (
	"fmt"

	"duskhand/checklist/frames/place"
	"duskhand/sky"
	"duskhand/sky/words"
)

// PlacedOff is how far the telescope looks off the target by the last light that was placed; ok is false when none
// tells.
func (r Run) PlacedOff() (off place.Off, ok bool) {
	return place.OffOf(r.Log, r.Night, r.Axis, r.Target, r.Now)
}

// PlacedWords says how far the telescope looks off by the last light that was placed and which way to move it, with
// the camera angle that it shows; "" when none tells.
func (r Run) PlacedWords() string {
	off, ok := r.PlacedOff()
	if !ok {
		return ""
	}
	text := fmt.Sprintf("By the stars of %s it looks %s off, camera angle %s", words.Minute(off.At, r.Kit.Site.Zone),
		words.Arcminutes(off.By, 1), words.Degrees(off.CameraAngle, 2))
	if moves := NudgeText(off.Nudge.Azimuth, off.Nudge.Altitude); off.Nudgeable && moves != "" {
		text += "; nudge " + moves
	}
	return text + "."
}

// StarShown says which star the last light shows, if it was taken at one, and whether it is the one that is meant: the
// next of the pair that is not centred yet. ok is false when it shows none, or the derotator has been on.
func (r Run) StarShown(stars Stars) (said string, ok bool) {
	lights := r.Log.Placed()
	if len(lights) == 0 || !r.Log.DerotatorSince.IsZero() {
		return "", false
	}
	light := lights[len(lights)-1].Placed
	at, ok := place.StarAt(*light, r.Kit.Stars.FaintestMag)
	if !ok || light.Near == r.Target.Name {
		return "", false
	}
	off := fmt.Sprintf("%s, %s off the middle", at.Star.Name(), words.Arcminutes(at.Off, 1))
	if at.Off >= sky.Degree {
		off = fmt.Sprintf("%s, %s off the middle", at.Star.Name(), words.Degrees(at.Off, 1))
	}
	if stars.Chosen >= len(stars.Pairs) {
		return "The light shows " + off, true
	}
	pair := stars.Pairs[stars.Chosen]
	meant := pair.First.Star
	if r.centred(meant.Name()) {
		meant = pair.Second.Star
	}
	if at.Star.ID == meant.ID {
		return "The light shows " + off + ": it is the star that is meant", true
	}
	return fmt.Sprintf("The light shows %s, and not %s: go to that one, or choose another pair", off, meant.Name()), true
}

func (r Run) centred(star string) bool {
	for _, c := range r.Log.Centred {
		if c.Star == star {
			return true
		}
	}
	return false
}
