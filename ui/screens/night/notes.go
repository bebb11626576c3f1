package night

import (
	"time"

	"duskhand/sky/words"
	"duskhand/ui/say"
)

// notes say in which order the subs are taken and why, where that hangs on the night, and what a better knowledge of
// the axis is worth: a line each, the longest way first.
func (m view) notes() (notes [][]string) {
	clock := func(t time.Time) string { return words.Minute(t, m.Zone()) }
	if order := say.Order(m.Run.Order(), clock); order != "" {
		notes = append(notes, []string{"order: " + order, order})
	}
	if words, ok := say.PriceWords(m.Price); ok {
		notes = append(notes, words)
	}
	return notes
}
