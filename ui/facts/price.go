package facts

import (
	"duskhand/plan"
	"duskhand/sky/words"
)

// PriceWords says what a better knowledge of the axis is worth, longest first; ok is false where it gains less than is
// worth telling.
func PriceWords(p plan.Price) (ways []string, ok bool) {
	switch {
	case p.Reading >= WorthTelling && p.Sights-p.Reading >= WorthTelling:
		reading := "a reading of the scale is worth " + words.Lasting(p.Reading)
		return []string{reading + ", two stars sighted " + words.Lasting(p.Sights), reading}, true
	case p.Reading >= WorthTelling:
		return []string{"a reading of the scale is worth " + words.Lasting(p.Reading)}, true
	case p.Sights >= WorthTelling:
		return []string{"two stars sighted are worth " + words.Lasting(p.Sights)}, true
	}
	return nil, false
}
