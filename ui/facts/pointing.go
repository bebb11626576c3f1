package facts

import (
	"duskhand/checklist/frames/place"
	"duskhand/plan"
	"duskhand/sky/catalog"
)

// Sought is where a light that comes now may look. Until the derotator has been on those are stars, too: the pair
// that the screens name first.
func (r Run) Sought(stars Stars) []place.Sought {
	if !r.Log.DerotatorSince.IsZero() || stars.Sky == nil {
		return place.Of(r.Log, r.Target, nil, nil)
	}
	var named []catalog.Object
	if stars.Chosen < len(stars.Pairs) {
		pair := stars.Pairs[stars.Chosen]
		for _, c := range []*plan.Candidate{pair.First, pair.Second} {
			named = append(named, c.Star)
		}
	}
	return place.Of(r.Log, r.Target, named, stars.Sky)
}
