package plan

// Only returns the sequence as it goes while somebody takes subs through one filter by name: no other has
// its turn, and it goes on past its wanted count. "" lets the filters take turns again, as they do at first.
// ok is false when the kit has no such filter; the sequence is then returned as it was.
func (s Sequence) Only(filter string) (only Sequence, ok bool) {
	if filter == "" {
		s.only = 0
		return s, true
	}
	for f := range s.subs.Filters {
		if s.subs.Filters[f].Name == filter {
			s.only = f + 1
			return s, true
		}
	}
	return s, false
}
