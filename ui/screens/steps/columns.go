package steps

import "duskhand/ui/draw"

// laidOut is how the width of the list is divided: the sentence of a step gets what stage and state do not need.
type laidOut struct {
	stage, state int  // cells; no stage where it is 0
	long         bool // the state with its hour and its reason
}

const (
	narrow      = 70 // below it the stage is left out, and of the state all but a word
	shortState  = 9  // "skipped"
	leastState  = 10 // "done 20:16"
	columnGap   = 2
	chosensMark = 2
)

// laidOut divides the width: a reason is written out as far as the longest sentence leaves room for it.
func (m view) laidOut(width int) laidOut {
	if width < narrow {
		return laidOut{state: shortState}
	}
	sentence, l := 0, laidOut{long: true}
	for _, s := range m.List.States {
		sentence = max(sentence, draw.Width(s.Sentence(m.List.Facts)))
		l.stage = max(l.stage, draw.Width(string(s.Stage)))
		l.state = max(l.state, draw.Width(m.stateWords(s, true)))
	}
	l.state = max(leastState, min(l.state, width-chosensMark-2*columnGap-l.stage-sentence))
	return l
}

// columns are those of the table, the step's as wide as the others leave room for.
func (l laidOut) columns() []draw.TableColumn {
	columns := []draw.TableColumn{{Title: "step"}}
	if l.stage > 0 {
		columns = append(columns, draw.TableColumn{Title: "stage", Width: l.stage})
	}
	return append(columns, draw.TableColumn{Width: l.state})
}
