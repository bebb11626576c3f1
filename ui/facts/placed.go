package facts

import (
	"duskhand/checklist"
	"duskhand/checklist/frames/place"
	"duskhand/sky"
	"duskhand/sky/catalog"
)

// PlacedOff is how far the telescope looks off the target by the last light that was placed; ok is false when none
// tells.
func (r Run) PlacedOff() (off place.Off, ok bool) {
	return place.OffOf(r.Log, r.Night, r.Axis, r.Target, r.Now)
}

// Landing is how far off the target the last go-to ended, by the first light since; ok is false when no light tells, or
// that is noted already.
func (r Run) Landing() (landed checklist.MeasureGoto, ok bool) {
	return place.Landing(r.Log, r.Night, r.Axis, r.Target)
}

// StarShown is the star that a light was taken at.
type StarShown struct {
	Star  catalog.Object
	Off   sky.Angle       // from the middle of the chip
	Meant *catalog.Object // the next of the pair that is not centred yet; nil where there is no pair
}

// StarShown returns the star that the last light shows, if it was taken at one. ok is false when it shows none, or the
// derotator has been on.
func (r Run) StarShown(stars Stars) (shown StarShown, ok bool) {
	lights := r.Log.Placed()
	if len(lights) == 0 || !r.Log.DerotatorSince.IsZero() {
		return shown, false
	}
	light := lights[len(lights)-1].Placed
	at, ok := place.StarAt(*light, r.Kit.Stars.FaintestMag)
	if !ok || light.Near == r.Target.Name {
		return shown, false
	}
	shown = StarShown{Star: at.Star, Off: at.Off}
	if stars.Chosen < len(stars.Pairs) {
		meant := stars.Pairs[stars.Chosen].First.Star
		if r.centred(meant.Name()) {
			meant = stars.Pairs[stars.Chosen].Second.Star
		}
		shown.Meant = &meant
	}
	return shown, true
}

func (r Run) centred(star string) bool {
	for _, c := range r.Log.Centred {
		if c.Star == star {
			return true
		}
	}
	return false
}
