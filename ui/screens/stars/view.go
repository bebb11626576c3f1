// Package stars is the screen "Two stars": which two, in which order?
package stars

import (
	"fmt"
	"strings"

	"duskhand/plan"
	"duskhand/sky"
	"duskhand/sky/words"
	"duskhand/ui/draw"
	"duskhand/ui/layout"
	"duskhand/ui/say"
	"duskhand/ui/screens"
	"duskhand/ui/theme"
)

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
	dome := screens.DomeWidth(body.Width(), body.Height())
	list := body.Area(0, 0, body.Width()-dome-min(dome, 2), body.Height())
	if len(m.Stars.Pairs) == 0 {
		m.drawNoPair(list, header)
	} else {
		m.drawPairs(list, header)
	}
	v := m.Dome()
	if m.Stars.Chosen < len(m.Stars.Pairs) {
		pair := m.Stars.Pairs[m.Stars.Chosen]
		if check, ok := m.Stars.Check(m.Stars.Chosen); ok {
			v = screens.Named(v, theme.Ground, check.Star)
		}
		v = screens.Named(screens.Named(v, theme.Answer, pair.Second), theme.Answer, pair.First)
		v.Pair = []sky.Horizontal{pair.First.Place, pair.Second.Place}
	}
	draw.Dome(body.Area(body.Width()-dome, 0, dome, body.Height()), m.Charset, v)
}

func (m view) drawNoPair(area draw.Area, header int) {
	area.Put(0, 0, theme.Answer, m.Marked(layout.Band{Top: 0, Height: header},
		[]string{"No two stars will do now"})[0])
	layout.Paragraph(area, 2, theme.Text, say.NoPair(m.Stars.Sky, m.Stars.None))
}

// drawPairs shows the chosen pair in full and the list below it.
func (m view) drawPairs(area draw.Area, header int) {
	pair := m.Stars.Pairs[m.Stars.Chosen]
	title := pair.First.Star.Name() + ", then " + pair.Second.Star.Name()
	area.Put(0, 0, theme.Answer, layout.Longest(area.Width(),
		m.Marked(layout.Band{Top: 0, Height: header}, []string{title})...))
	y := 1
	if change := m.Stars.Change; change != nil && m.Stars.Chosen == 0 {
		y += layout.Paragraph(area, y, theme.Caution, screens.ChangeWords(*change))
	}
	y += layout.Paragraph(area, y, theme.Text, say.Pair(m.Stars.Sky, pair))
	y += layout.Paragraph(area, y, theme.Text, fmt.Sprintf("target within %s per 1′ of centring, field turned by %s", arcminutes(pair.PerArcminute), arcminutes(pair.RollPerArcmin)))
	for i, c := range []*plan.Candidate{pair.First, pair.Second} {
		y += screens.DrawCandidate(area, y, [...]string{"first", "then"}[i], c)
	}
	if check, ok := m.Stars.Check(m.Stars.Chosen); ok {
		y += screens.DrawCandidate(area, y, "to be sure", check.Star)
		y += roomFor(area, y, theme.Faint, say.CheckStar(check, pair))
	}
	y += roomFor(area, y, theme.Faint, m.sightWords())
	y = min(y+1, max(y, area.Height()-leastList))
	m.drawPairTable(area.Area(0, y, area.Width(), area.Height()-y))
}

// leastList is how many rows the list keeps, its heading included, before anything explanatory is written
// above it.
const leastList = 5

// roomFor writes a paragraph if the list keeps its rows below it.
func roomFor(area draw.Area, y int, role theme.Role, text string) int {
	lines := layout.RowsOf(area, text)
	if y+lines+leastList > area.Height() {
		return 0
	}
	return layout.Paragraph(area, y, role, text)
}

// sightWords says which sights are noted and what the axis is taken to be.
func (m view) sightWords() string {
	var names []string
	for _, s := range m.Log.Sights {
		names = append(names, s.Name)
	}
	if len(names) == 0 {
		return m.Tilt()
	}
	return "sights: " + strings.Join(names, ", ") + " · " + m.Tilt()
}

func (m view) drawPairTable(area draw.Area) {
	const roomy = 50 // below, the names need what the separation would take; the chosen pair's is told above
	v := draw.TableValues{Columns: []draw.TableColumn{{Title: "pair", Width: 0},
		{Title: "error", Width: 5, Align: draw.AlignRight},
		{Title: "turned", Width: 6, Align: draw.AlignRight}}, Chosen: m.Stars.Chosen}
	if area.Width() >= roomy {
		v.Columns = append(v.Columns, draw.TableColumn{Title: "apart", Width: 6, Align: draw.AlignRight})
	}
	for _, p := range m.Stars.Pairs {
		row := []string{p.First.Star.Name() + ", " + p.Second.Star.Name(),
			arcminutes(p.PerArcminute), arcminutes(p.RollPerArcmin), words.Direction(p.Separation, 0)}
		v.Rows = append(v.Rows, row[:len(v.Columns)])
	}
	v.First = draw.TableFirst(max(0, m.Stars.Chosen-area.Height()/2), m.Stars.Chosen, len(v.Rows),
		area.Height())
	draw.Table(area, m.Charset, v)
}

// arcminutes prints an error at the target for each minute of arc at the stars.
func arcminutes(minutes float64) string { return words.Arcminutes(sky.Angle(minutes)*sky.Arcminute, 1) }
