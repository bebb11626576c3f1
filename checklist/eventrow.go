package checklist

import "duskhand/checklist/journal"

// row is all that is known of one kind of event. A kind that has a row stands in no other list.
type row struct {
	kind   string
	change step                       // of the night
	words  func(journal.Event) string // what happened, without its time
	proof  bool                       // it proves steps, by the name of its kind
	// inLoop: it belongs to the loop that is open or comes next even before that loop's run has begun.
	inLoop bool
}

// rows returns the kinds that have one, each from the file that is named for it.
func rows() []row {
	return []row{
		guidingCalibratedRow(), guidingOnRow(), guidingOffRow(), guidingLostRow(), guideCheckRow(),
		recentredRow(), cablesStraightRow(), cloudRow(), clearRow(), zeroMeasuredRow(), gotoMeasuredRow(),
	}
}

func rowOf(kind string) (row, bool) {
	for _, r := range rows() {
		if r.kind == kind {
			return r, true
		}
	}
	return row{}, false
}

// proofsOfRows returns the kinds that steps can go by.
func proofsOfRows() (kinds []string) {
	for _, r := range rows() {
		if r.proof {
			kinds = append(kinds, r.kind)
		}
	}
	return kinds
}

// plainWords returns words that do not depend on the event's body.
func plainWords(text string) func(journal.Event) string {
	return func(journal.Event) string { return text }
}

// proveRow notes that the event happened, for the steps that go by it.
func (n *Night) proveRow(e journal.Event) {
	r, ok := rowOf(e.Kind)
	switch {
	case ok && r.proof && r.inLoop:
		n.marks = append(n.marks, mark{at: e.At, by: e.Kind, loop: n.Loop()})
	case ok && r.proof:
		n.prove(e.Kind, e.At)
	}
}
