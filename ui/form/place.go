package form

import (
	"maps"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// placeRead is a site as it was understood; neither known nor wrong while nothing is typed.
type placeRead struct {
	site  sky.Site
	known bool
	err   error
}

func readPlace(text string) placeRead {
	if text == "" {
		return placeRead{}
	}
	site, err := sky.ParseSite(text)
	return placeRead{site, err == nil, err}
}

// answer gives the kit's answers that the place holds.
func (p placeRead) answer(answers map[string]string) {
	if p.known {
		maps.Copy(answers, kit.PlaceAnswers(p.site))
	}
}
