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

// lacking returns how many subs the filter that Only named still wants; some is false if it named none, or one that had
// all its subs already: who takes more of it has a reason.
func (s Sequence) lacking() (wanted int, some bool) {
	if s.only == 0 {
		return 0, false
	}
	wanted = s.subs.Filters[s.only-1].Count - s.taken[s.only-1]
	return wanted, wanted > 0
}

// FilterTaken returns the filter whose wanted subs alone are taken at the end of the run, and the filter that comes
// next; ok is false where none is wanted then, or the run ends for another reason.
func (c Call) FilterTaken() (taken, next string, ok bool) {
	rest, _ := c.After.Only("")
	sub, _, wanted := rest.Next(c.At)
	if c.For != ForGoal || !wanted || c.After.only == 0 {
		return "", "", false
	}
	return c.After.subs.Filters[c.After.only-1].Name, sub.Filter.Name, true
}

// upTo returns the sequence after subs that it gave.
func (s Sequence) upTo(subs []Sub) Sequence {
	for _, sub := range subs {
		_, s, _ = s.Next(sub.Exposure.From)
	}
	return s
}
