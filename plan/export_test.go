package plan

import (
	"time"

	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/catalog"
)

// Laid returns the sequence with the order that is best in some stretches.
func Laid(s Sequence, spans []Span) Sequence {
	l := newLaying(s, spans)
	for _, p := range l.order() {
		s.laid = append(s.laid, part{l.filters[p.filter], p.count})
	}
	return s
}

// NewStarSky is Night.Stars for any list of stars, brightest first.
func NewStarSky(k kit.Kit, frame *sky.Frame, axis kit.Axis, at time.Time, stars []catalog.Object) *StarSky {
	return starSkyOf(k, frame, axis, at, listOf(stars))
}
