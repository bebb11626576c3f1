package plan

import (
	"sync"

	"duskhand/sky/catalog"
)

// listed is a star to choose from, with its neighbours kept once somebody asked: finding them takes a
// third of a millisecond, and they stay the same all night.
type listed struct {
	star  *catalog.Object
	once  sync.Once
	alike []catalog.Object
}

// confusable returns the stars that it could be mistaken for.
func (l *listed) confusable() []catalog.Object {
	l.once.Do(func() { l.alike = catalog.Confusable(*l.star) })
	return l.alike
}

// catalogueStars is the whole catalogue, brightest first. It is made once; nothing of it changes but what
// listed keeps.
var catalogueStars = sync.OnceValue(func() []listed { return listOf(catalog.Stars(catalog.FaintestStar)) })

func listOf(stars []catalog.Object) []listed {
	list := make([]listed, len(stars))
	for i := range stars {
		list[i].star = &stars[i]
	}
	return list
}
