package plan

// Laid returns the sequence with the order that is best in some stretches.
func Laid(s Sequence, spans []Span) Sequence {
	l := newLaying(s, spans)
	for _, p := range l.order() {
		s.laid = append(s.laid, part{l.filters[p.filter], p.count})
	}
	return s
}
