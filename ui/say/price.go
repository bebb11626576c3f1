package say

import (
	"duskhand/plan"
	"duskhand/sky/words"
	"duskhand/ui/facts"
)

// PriceWords says what a better knowledge of the axis is worth, longest first; ok is false where it gains less than is
// worth telling.
func PriceWords(p plan.Price) (ways []string, ok bool) {
	if p.Standing > p.Reading && p.Standing >= facts.WorthTelling && p.Standing+facts.WorthTelling > p.Sights {
		still := "worth " + words.Lasting(p.Standing) + " of subs"
		return []string{"leave the stage still for ten minutes before dark and let the lights come: " + still, "stage still for ten minutes before dark: " + still}, true
	}
	switch {
	case p.Reading >= facts.WorthTelling && p.Sights-p.Reading >= facts.WorthTelling:
		reading := "a reading of the scale is worth " + words.Lasting(p.Reading)
		return []string{reading + ", two stars sighted " + words.Lasting(p.Sights), reading}, true
	case p.Reading >= facts.WorthTelling:
		return []string{"a reading of the scale is worth " + words.Lasting(p.Reading)}, true
	case p.Sights >= facts.WorthTelling:
		return []string{"two stars sighted are worth " + words.Lasting(p.Sights)}, true
	}
	return nil, false
}
