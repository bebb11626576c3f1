package ui

import (
	"fmt"

	"duskhand/plan/choose"
	"duskhand/ui/draw"
	"duskhand/ui/facts"
	"duskhand/ui/keys"
	"duskhand/ui/theme"
)

// The screen "Decide": what, and is it worth it?

// decider is what the Decide screen keeps between frames.
type decider struct {
	page   decidePage
	picked facts.Picked
	chosen string // a target by name; "" for the night's own
	place  int    // of it in the ranking

	ranking asked[facts.RankingQuestion, facts.Ranking]
	year    asked[yearQuestion, choose.Year]
	disk    asked[diskQuestion, facts.Disk]

	verdict  facts.Verdict
	subs     facts.SubLengths
	supplies facts.Supplies
}

// decidePage is one page of the working below the answer.
type decidePage int

// The pages, in the order of their key. A window that is wide enough has the targets beside all others.
const (
	targetsPage decidePage = iota
	reasonsPage
	yearPage
	subLengthPage
	suppliesPage
	decidePages
)

func (p decidePage) String() string {
	return [...]string{"targets", "why", "year", "sub length", "supplies"}[p]
}

// deriveDecide finds the chosen target in the ranking, and what follows from it: that costs a millisecond or two,
// while its screen shows.
func (m Model) deriveDecide() Model {
	if m.tonight == nil || m.screen != keys.DecideScreen {
		return m
	}
	m.decide.supplies = m.run.SuppliesAt(m.decide.disk.answer)
	name := m.decide.chosen
	if name == "" {
		name = m.tonight.Target.Name
	}
	m.decide.place = max(0, m.decide.ranking.answer.Place(name))
	if choice, ok := m.choice(); ok {
		m.decide.verdict = m.run.VerdictOf(choice)
		m.decide.subs = m.run.SubLengthsOf(choice.Target)
	}
	return m
}

// choice is the chosen target; ok is false while there is no ranking of this night, and when it lists nothing.
func (m Model) choice() (choice choose.Choice, ok bool) {
	choices := m.decide.ranking.answer.Choices
	if !m.isRanked() || m.decide.place >= len(choices) {
		return choose.Choice{}, false
	}
	return choices[m.decide.place], true
}

// isRanked tells whether there is a ranking of this night.
func (m Model) isRanked() bool { return m.decide.ranking.known && m.decide.ranking.of.Date == m.date }

// The window from which the list stands beside the other pages, and the width of the list there.
const (
	wideDecide = 110
	listWidth  = 60
)

func (m Model) isWide() bool { return m.width >= wideDecide }

// shows tells whether a page is in sight, or may be.
func (m Model) shows(page decidePage) bool {
	return m.decide.page == page || m.isWide() && page > m.pageShown()
}

func (m Model) drawDecide(area draw.Area) {
	header, footer := min(2, max(0, area.Height()-4)), m.footerRows()
	m.drawHeader(slice(area, band{0, header}))
	m.drawFooter(slice(area, band{area.Height() - footer, footer}))
	body := slice(area, band{header, max(0, area.Height()-header-footer)})
	y := m.drawDecideAnswer(body, header)
	const roomy, spare = 5, 8 // rows from which the line below the answer, and that of the pages, are worth theirs
	if body.Height() >= roomy {
		body.Area(0, y, body.Width(), 1).Put(0, 0, theme.Text, longestThatFits(body.Width(), m.standing()...))
		y++
	}
	if body.Height() >= spare {
		m.drawPages(body.Area(0, y, body.Width(), 1))
		y++
	}
	if body.Height() >= 2*spare {
		y++
	}
	rest := body.Area(0, y, body.Width(), body.Height()-y)
	if !m.isWide() {
		m.drawDecidePage(rest)
		return
	}
	m.drawChoices(rest.Area(0, 0, listWidth, rest.Height()))
	m.drawSections(rest.Area(listWidth+2, 0, rest.Width()-listWidth-2, rest.Height()))
}

// roomyDecide is the height of the body from which the hours are written in big digits.
const roomyDecide = 30

// drawDecideAnswer says what, and whether it is worth it, and returns the rows taken.
func (m Model) drawDecideAnswer(area draw.Area, header int) (rows int) {
	ways := m.decision()
	_, ok := m.choice()
	if area.Height() < roomyDecide || !ok {
		area.Put(0, 0, theme.Answer, longestThatFits(area.Width(), m.marked(band{0, header}, ways)...))
		return 1
	}
	const widest = "00h00"
	scale := min(2, draw.FitBigText(widest, area.Width(), area.Height()/6))
	_, rows = draw.BigTextScaled(area, m.config.Charset, theme.Answer, scale, hoursText(m.decide.verdict.Working()))
	area.Put(0, rows, theme.Answer, longestThatFits(area.Width(), m.marked(band{0, header}, ways)...))
	return rows + 1
}

// decision is the answer in one line.
func (m Model) decision() []string {
	if _, ok := m.choice(); ok {
		return m.decide.verdict.Words()
	}
	if !m.isRanked() {
		return append(m.progress(), "ranking the targets …", "ranking …")
	}
	return []string{"Nothing to take: no target is " + m.pickedWords(), "Nothing to take"}
}

// standing says how the chosen target compares with the others.
func (m Model) standing() []string {
	choice, ok := m.choice()
	if !ok {
		if m.isRanked() {
			return []string{"Change what is listed: . and , d f i", "Change: . , d f i"}
		}
		return []string{""}
	}
	if unread := m.decide.ranking.answer.Unread; unread != "" {
		return []string{unread}
	}
	choices := m.decide.ranking.answer.Choices
	worth := "worth " + duration(choice.Worth) + " at the zenith in the dark"
	number := fmt.Sprintf("number %d of %d", m.decide.place+1, len(choices))
	ways := append([]string{}, m.progress()...)
	if m.decide.place == 0 {
		number = fmt.Sprintf("the best of %d", len(choices))
		return append(ways, number+", "+worth, number)
	}
	best := "the best is " + choices[0].Target.Name
	return append(ways, number+", "+worth+"; "+best+", "+duration(choices[0].Worth), number+", worth "+duration(choice.Worth)+"; "+best, number+"; "+best, number)
}

// progress says how far a ranking that takes long has come; nothing for one that does not.
func (m Model) progress() []string {
	r := m.decide.ranking
	if !r.open || r.total == 0 {
		return nil
	}
	return []string{fmt.Sprintf("ranking: %d of %d targets looked at", r.done, r.total)}
}

// drawPages names the pages, the one that shows marked, and what the list leaves out.
func (m Model) drawPages(area draw.Area) {
	x := 0
	const allPages = 48 // columns that the names of all pages want
	for page := range decidePages {
		if m.isWide() && page == targetsPage {
			continue
		}
		role, words := theme.Faint, page.String()
		if page == m.pageShown() {
			role, words = theme.Key, "› "+words
		} else if area.Width() < allPages {
			continue
		}
		x = area.Put(x, 0, role, words) + 3
	}
	if area.Width() < allPages {
		area.Put(x, 0, theme.Faint, fmt.Sprintf("page %d of %d; right, left", m.pageShown()+1, decidePages))
		return
	}
	if only := m.pickedWords(); only != "" && x+draw.Width("only "+only) <= area.Width() {
		area.PutRight(area.Width(), 0, theme.Text, "only "+only)
	}
}

// pageShown is the page in front: a wide window has the targets beside all others.
func (m Model) pageShown() decidePage {
	if m.isWide() && m.decide.page == targetsPage {
		return reasonsPage
	}
	return m.decide.page
}

// drawDecidePage draws one page of a window that is not wide.
func (m Model) drawDecidePage(area draw.Area) {
	if m.decide.page != targetsPage {
		m.drawSections(area)
		return
	}
	const shortest = 12 // rows from which list and reasons share the page
	reasons := 0
	if area.Height() >= shortest {
		reasons = min(area.Height()/2, 1+m.reasonRows(area))
	}
	list := area.Height() - reasons
	m.drawChoices(area.Area(0, 0, area.Width(), list))
	if reasons > 1 {
		m.drawReasons(area.Area(0, list+1, area.Width(), reasons-1))
	}
}

// drawSections draws the page in front and as many of those after it as fit whole.
func (m Model) drawSections(area draw.Area) {
	draws := map[decidePage]func(draw.Area) int{
		reasonsPage: m.drawReasons, yearPage: m.drawYear, subLengthPage: m.drawSubLengths, suppliesPage: m.drawSupplies,
	}
	needs := map[decidePage]int{yearPage: calendarRows, subLengthPage: 8, suppliesPage: 7}
	y, first := 0, m.pageShown()
	for page := first; page < decidePages; page++ {
		if page > first && (!m.isWide() || y+needs[page] > area.Height()) {
			continue
		}
		if rows := draws[page](area.Area(0, y, area.Width(), area.Height()-y)); rows > 0 {
			y += rows + 1
		}
	}
}
