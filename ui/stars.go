package ui

import (
	"fmt"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"duskhand/plan"
	"duskhand/sky"
	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

// The screen "Two stars": which two, in which order?

// domeWidth is how wide the sky is drawn beside a list: as the window's height lets it be round, but never
// more than half; none in a window too narrow for both.
func domeWidth(width, height int) int {
	const narrowest = 70
	if width < narrowest || height < 10 {
		return 0
	}
	return min(width/2, 2*height+2)
}

func (m Model) drawStars(area draw.Area) {
	header, footer := min(2, max(0, area.Height()-4)), m.footerRows()
	m.drawHeader(slice(area, band{0, header}))
	m.drawFooter(slice(area, band{area.Height() - footer, footer}))
	body := slice(area, band{header, max(0, area.Height()-header-footer)})
	dome := domeWidth(body.Width(), body.Height())
	list := body.Area(0, 0, body.Width()-dome-min(dome, 2), body.Height())
	if len(m.stars.Pairs) == 0 {
		m.drawNoPair(list, header)
	} else {
		m.drawPairs(list, header)
	}
	v := m.domeOf()
	if m.pair < len(m.stars.Pairs) {
		pair := m.stars.Pairs[m.pair]
		if check, ok := m.stars.Check(m.pair); ok {
			v = named(v, theme.Ground, check.Star)
		}
		v = named(named(v, theme.Answer, pair.Second), theme.Answer, pair.First)
		v.Pair = []sky.Horizontal{pair.First.Place, pair.Second.Place}
	}
	draw.Dome(body.Area(body.Width()-dome, 0, dome, body.Height()), m.config.Charset, v)
}

func (m Model) drawNoPair(area draw.Area, header int) {
	area.Put(0, 0, theme.Answer, m.marked(band{0, header}, []string{"No two stars will do now"})[0])
	paragraph(area, 2, theme.Text, m.stars.None.Text())
}

// drawPairs shows the chosen pair in full and the list below it.
func (m Model) drawPairs(area draw.Area, header int) {
	pair := m.stars.Pairs[m.pair]
	title := pair.First.Star.Name() + ", then " + pair.Second.Star.Name()
	area.Put(0, 0, theme.Answer, longestThatFits(area.Width(), m.marked(band{0, header}, []string{title})...))
	y := 1
	if change := m.stars.Change; change != nil && m.pair == 0 {
		y += paragraph(area, y, theme.Caution, changeWords(*change))
	}
	y += paragraph(area, y, theme.Text, pair.Reason)
	y += paragraph(area, y, theme.Text, fmt.Sprintf("target within %.1f′ per 1′ of centring, turned by %.1f′", pair.PerArcminute, pair.RollPerArcmin))
	for i, c := range []*plan.Candidate{pair.First, pair.Second} {
		y += m.drawCandidate(area, y, [...]string{"first", "then"}[i], c)
	}
	if check, ok := m.stars.Check(m.pair); ok {
		y += m.drawCandidate(area, y, "to be sure", check.Star)
		y += roomFor(area, y, theme.Faint, check.Reason)
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
	lines := strings.Count(ansi.Wordwrap(text, max(1, area.Width()), ""), "\n") + 1
	if y+lines+leastList > area.Height() {
		return 0
	}
	return paragraph(area, y, role, text)
}

// drawCandidate writes two lines about a star and returns how many rows they took.
func (m Model) drawCandidate(area draw.Area, y int, what string, c *plan.Candidate) int {
	name := c.Star.Name()
	if bayer := c.Star.Bayer(); bayer != "" && bayer != name {
		name += ", " + bayer
	}
	x := 0
	if what != "" {
		x = area.Put(0, y, theme.Faint, what+" ")
	}
	mag := magnitude(c.Star.Magnitude.Value)
	area.Put(x, y, theme.Text, longestThatFits(area.Width()-x, name+", magnitude "+mag, name+", "+mag, c.Star.Name()))
	area.Put(3, y+1, theme.Text, longestThatFits(area.Width()-3, whereStands(c)...))
	return 2
}

func whereStands(c *plan.Candidate) []string {
	way := "setting"
	if c.Rising {
		way = "rising"
	}
	up, azimuth := fmt.Sprintf("%.0f° up", c.Place.Altitude.Degrees()), wholeDegrees(c.Place.Azimuth)
	return []string{
		fmt.Sprintf("%s, azimuth %s, %s, %s", up, azimuth, CompassWords(c.Place.Azimuth), way),
		fmt.Sprintf("%s, %s %s, %s", up, azimuth, CompassWords(c.Place.Azimuth), way),
		fmt.Sprintf("%s, %s %s, %s", up, azimuth, compassLetters(c.Place.Azimuth), way),
	}
}

func magnitude(v float64) string {
	return strings.Replace(fmt.Sprintf("%.1f", v), "-", "−", 1)
}

// sightWords says which sights are noted and what the axis is taken to be.
func (m Model) sightWords() string {
	var names []string
	for _, s := range m.log.Sights {
		names = append(names, s.Name)
	}
	if len(names) == 0 {
		return m.tilt()
	}
	return "sights: " + strings.Join(names, ", ") + " · " + m.tilt()
}

func (m Model) drawPairTable(area draw.Area) {
	const roomy = 50 // below, the names need what the separation would take; the chosen pair's is told above
	v := draw.TableValues{Columns: []draw.TableColumn{{Title: "pair", Width: 0}, {Title: "error", Width: 5, Align: draw.AlignRight},
		{Title: "turn", Width: 5, Align: draw.AlignRight}}, Chosen: m.pair}
	if area.Width() >= roomy {
		v.Columns = append(v.Columns, draw.TableColumn{Title: "apart", Width: 6, Align: draw.AlignRight})
	}
	for _, p := range m.stars.Pairs {
		row := []string{p.First.Star.Name() + ", " + p.Second.Star.Name(), fmt.Sprintf("%.1f′", p.PerArcminute), fmt.Sprintf("%.1f′", p.RollPerArcmin), wholeDegrees(p.Separation)}
		v.Rows = append(v.Rows, row[:len(v.Columns)])
	}
	v.First = draw.TableFirst(max(0, m.pair-area.Height()/2), m.pair, len(v.Rows), area.Height())
	draw.Table(area, m.config.Charset, v)
}

// paragraph writes text in as many rows as it needs and returns how many those were.
func paragraph(area draw.Area, y int, role theme.Role, text string) int {
	if text == "" || area.Width() <= 0 {
		return 0
	}
	lines := strings.Split(ansi.Wordwrap(text, area.Width(), ""), "\n")
	for i, line := range lines {
		area.Put(0, y+i, role, line)
	}
	return len(lines)
}
