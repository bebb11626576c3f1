package decide

import (
	"duskhand/plan/choose"
	"duskhand/ui/facts"
)

// page is one page of the working below the answer.
type page int

// The pages, in the order of their key. A window that is wide enough has the targets beside all others.
const (
	targetsPage page = iota
	reasonsPage
	yearPage
	subLengthPage
	suppliesPage
	pageCount
)

func (p page) String() string {
	return [...]string{"targets", "why", "year", "sub length", "supplies"}[p]
}

// choice is the chosen target; ok is false while there is no ranking of this night, and when it lists nothing.
func (m view) choice() (choice choose.Choice, ok bool) {
	choices := m.listed().answer.Choices
	if !m.isRanked() || m.place >= len(choices) {
		return choose.Choice{}, false
	}
	return choices[m.place], true
}

// isRanked tells whether there is a ranking of this night.
func (m view) isRanked() bool { return m.listed().known && m.listed().of.Date == m.Date }

// listed is the ranking that shows: of all targets, or until these are ranked for the first time, of the kit's own.
func (r Model) listed() asked[facts.RankingQuestion, facts.Ranking] {
	if r.ranking.known {
		return r.ranking
	}
	return r.own
}

// turnedPage goes to the next page or the one before; a wide window has the targets beside all others.
func (m view) turnedPage(by page) page {
	at := (m.pageShown() + by + pageCount) % pageCount
	if m.isWide() && at == targetsPage {
		at = (at + by + pageCount) % pageCount
	}
	return at
}
