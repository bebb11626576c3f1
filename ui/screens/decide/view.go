// Package decide is the screen "Decide": what, and is it worth it?
package decide

import (
	"fmt"

	"duskhand/sky/words"
	"duskhand/ui/draw"
	"duskhand/ui/layout"
	"duskhand/ui/say"
	"duskhand/ui/screens"
	"duskhand/ui/theme"
)

// wideDecide is the window from which the list stands beside the other pages.
const wideDecide = 110

// listWidth is the width of the list there, in a room of a width: what whole names take, and where that leaves the other
// pages whole as much as all columns.
func listWidth(room int) int { return min(max(64, room*53/100), 106) }

func (m view) isWide() bool { return m.Width >= wideDecide }

// shows tells whether a page is in sight, or may be.
func (m view) shows(page page) bool {
	return m.page == page || m.isWide() && page > m.pageShown()
}

// View draws the screen.
func (r Model) View(s screens.Status, w screens.Window) {
	view{r, screens.ShownIn(s, w)}.draw(w.Area)
}

// view is the room with the status of an instant, for drawing.
type view struct {
	Model
	screens.Shown
}

func (m view) draw(area draw.Area) {
	body, header := m.Body(area, 0)
	y := m.drawDecideAnswer(body, header)
	const roomy, spare = 5, 8 // rows from which the line below the answer, and that of the pages, are worth theirs
	if body.Height() >= roomy {
		body.Area(0, y, body.Width(), 1).Put(0, 0, theme.Text, layout.Longest(body.Width(), m.standing()...))
		y++
	}
	if body.Height() >= spare {
		m.drawPages(body.Area(0, y, body.Width(), 1))
		y++
	}
	if body.Height() >= 2*spare && (m.page != yearPage || body.Height() >= 3*spare) { // a year needs each row
		y++
	}
	rest := body.Area(0, y, body.Width(), body.Height()-y)
	if !m.isWide() {
		m.drawDecidePage(rest)
		return
	}
	list := listWidth(rest.Width())
	m.drawChoices(rest.Area(0, 0, list, rest.Height()))
	m.drawSections(rest.Area(list+2, 0, rest.Width()-list-2, rest.Height()))
}

// roomyDecide is the height of the body from which the hours are written in big digits.
const roomyDecide = 30

// drawDecideAnswer says what, and whether it is worth it, and returns the rows taken.
func (m view) drawDecideAnswer(area draw.Area, header int) (rows int) {
	ways := m.decision()
	_, ok := m.choice()
	if area.Height() < roomyDecide || !ok {
		area.Put(0, 0, theme.Answer, layout.Longest(area.Width(),
			m.Marked(layout.Band{Top: 0, Height: header}, ways)...))
		return 1
	}
	const widest = "00h00"
	scale := min(2, draw.FitBigText(widest, area.Width(), area.Height()/6))
	_, rows = draw.BigTextScaled(area, m.Charset, theme.Answer, scale, hoursText(m.verdict.Working()))
	area.Put(0, rows, theme.Answer, layout.Longest(area.Width(),
		m.Marked(layout.Band{Top: 0, Height: header}, ways)...))
	return rows + 1
}

// decision is the answer in one line.
func (m view) decision() []string {
	if _, ok := m.choice(); ok {
		return say.Verdict(m.verdict, m.Kit)
	}
	if !m.isRanked() {
		return append(m.progress(), "ranking the targets …", "ranking …")
	}
	return []string{"Nothing to take: no target is " + m.pickedWords(), "Nothing to take"}
}

// standing says how the chosen target compares with the others.
func (m view) standing() []string {
	choice, ok := m.choice()
	if !ok {
		if m.isRanked() {
			return []string{"Change what is listed: . and , d f i", "Change: . , d f i"}
		}
		return []string{""}
	}
	if unread := m.listed().answer.Unread; unread != "" {
		return []string{unread}
	}
	choices := m.listed().answer.Choices
	worth := "worth " + words.Lasting(choice.Worth) + " at the zenith in the dark"
	number := fmt.Sprintf("number %d of %d", m.place+1, len(choices))
	ways := append([]string{}, m.progress()...)
	if !m.ranking.known {
		return append(ways, "of the kit's own targets; the others are being ranked …", "ranking the others …")
	}
	if m.place == 0 {
		number = fmt.Sprintf("the best of %d", len(choices))
		return append(ways, number+", "+worth, number)
	}
	best := "the best is " + choices[0].Target.Called()
	return append(ways, number+", "+worth+"; "+best+", "+words.Lasting(choices[0].Worth),
		number+", worth "+words.Lasting(choice.Worth)+"; "+best, number+"; "+best, number)
}

// progress says how far a ranking that takes long has come; nothing for one that does not.
func (m view) progress() []string {
	r := m.ranking
	if !r.open || r.total == 0 {
		return nil
	}
	return []string{fmt.Sprintf("ranking: %d of %d targets looked at", r.done, r.total)}
}

// drawPages names the pages, the one that shows marked, and what the list leaves out.
func (m view) drawPages(area draw.Area) {
	x := 0
	const allPages = 48 // columns that the names of all pages want
	for page := range pageCount {
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
		area.Put(x, 0, theme.Faint, fmt.Sprintf("page %d of %d; right, left", m.pageShown()+1, pageCount))
		return
	}
	if only := m.pickedWords(); only != "" && x+draw.Width("only "+only) <= area.Width() {
		area.PutRight(area.Width(), 0, theme.Text, "only "+only)
	}
}

// pageShown is the page in front: a wide window has the targets beside all others.
func (m view) pageShown() page {
	if m.isWide() && m.page == targetsPage {
		return reasonsPage
	}
	return m.page
}

// drawDecidePage draws one page of a window that is not wide.
func (m view) drawDecidePage(area draw.Area) {
	if m.page != targetsPage {
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
func (m view) drawSections(area draw.Area) {
	draws := map[page]func(draw.Area) int{
		reasonsPage: m.drawReasons, yearPage: m.drawYear, subLengthPage: m.drawSubLengths, suppliesPage: m.drawSupplies,
	}
	needs := map[page]int{yearPage: calendarRows, subLengthPage: 8, suppliesPage: 7}
	y, first := 0, m.pageShown()
	for page := first; page < pageCount; page++ {
		if page > first && (!m.isWide() || y+needs[page] > area.Height()) {
			continue
		}
		if rows := draws[page](area.Area(0, y, area.Width(), area.Height()-y)); rows > 0 {
			y += rows + 1
		}
	}
}
