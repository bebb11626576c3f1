package facts

import (
	"maps"

	"duskhand/checklist"
)

// Standing returns the night's facts as they stand in the steps that an action settles: what it names
// itself, a star that was sighted or focused on, goes before what was proposed.
func Standing(log checklist.Night, words map[string]string, a checklist.Action) map[string]string {
	changed := map[string]string{}
	maps.Copy(changed, words)
	switch said := a.(type) {
	case checklist.Sighted:
		if first := log.Alignment().First; first != "" && first != said.Name {
			changed["star_2"] = said.Name
		} else {
			sightedFirst(changed, said.Name)
		}
		changed["pair"] = changed["star_1"] + ", then " + changed["star_2"]
	case checklist.FocusNow:
		if said.Star != "" {
			changed["focus_star"] = said.Star
		}
	}
	return changed
}

// sightedFirst names a star that was sighted before any other as the pair's first: the proposed pair may be
// taken in the other order, and for a star that is none of it no second has been chosen yet.
func sightedFirst(words map[string]string, star string) {
	first, second := words["star_1"], words["star_2"]
	words["star_1"] = star
	switch star {
	case first:
	case second:
		words["star_2"] = first
	default:
		delete(words, "star_2")
	}
}
