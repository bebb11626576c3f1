package form

import (
	"fmt"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"duskhand/sky/words"
	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

// Draw lays the form out. The field that is typed into and what is said about it stay the longest.
func (m Model) Draw(area draw.Area) {
	if area.Width() >= 60 {
		area = area.Area(1, 0, area.Width()-2, area.Height())
	}
	l := layoutFor(area.Width(), area.Height(), len(m.fields))
	m.drawTitle(area.Area(0, 0, area.Width(), l.title))
	m.drawFields(area.Area(0, l.list, l.listWidth, l.listRows))
	if l.aside > 0 {
		m.drawFacts(area.Area(area.Width()-l.aside, l.list, l.aside, area.Height()-l.list-1))
	}
	m.drawSummary(area.Area(0, l.summary, area.Width(), l.summaryRows))
	m.drawTold(area.Area(0, l.told, l.listWidth, l.toldRows))
	m.drawKeys(area.Area(0, area.Height()-1, area.Width(), l.keys))
}

func (m Model) drawTitle(area draw.Area) {
	title, ways := "A kit of your own", m.standing()
	if m.config.Old != nil {
		title = "Your kit"
	}
	end := area.Put(0, 0, theme.Key, title)
	for _, w := range ways {
		if draw.Width(w) <= area.Width()-end-2 {
			area.PutRight(area.Width(), 0, theme.Text, w)
			return
		}
	}
}

// standing says how far the kit is, the longest way first.
func (m Model) standing() (ways []string) {
	none := "no kit is written yet"
	if m.config.Old != nil {
		none = "the file is as it was"
	}
	switch n := m.open(); {
	case m.config.Old != nil && n == 0 && len(m.changed()) == 0:
		ways = []string{"as the file has it; nothing is changed yet", "nothing is changed yet", "unchanged"}
	case m.config.Old != nil && n == 0:
		changed := words.Count(len(m.changed()), "answer") + " changed"
		ways = []string{changed + ": " + m.keys.Write.Help().Key + " writes", changed}
	case n == 0:
		ways = []string{"complete: " + m.keys.Write.Help().Key + " writes it", "complete"}
	case n == 1:
		ways = []string{"1 answer is open; " + none, "1 answer is open", "1 open"}
	default:
		ways = []string{fmt.Sprintf("%d answers are open; %s", n, none), fmt.Sprintf("%d answers are open", n), fmt.Sprintf("%d open", n)}
	}
	return ways
}

// drawFields shows as many fields as fit, the one that is typed into among them.
func (m Model) drawFields(area draw.Area) {
	first := firstShown(m.at, len(m.fields), area.Height())
	for y := range min(area.Height(), len(m.fields)-first) {
		i := first + y
		heads := y == 0 || m.fields[i-1].group != m.fields[i].group
		m.drawField(area.Area(0, y, area.Width(), 1), i, heads)
	}
}

// firstShown keeps the chosen one in the middle third where there is more than fits.
func firstShown(at, all, rows int) int {
	if all <= rows {
		return 0
	}
	return max(0, min(at-rows/2, all-rows))
}

func (m Model) drawField(area draw.Area, i int, heads bool) {
	f, c := m.fields[i], columnsFor(area.Width())
	if heads && c.group > 0 {
		area.Put(0, 0, theme.Faint, f.group)
	}
	role, marker := theme.Text, " "
	if i == m.at {
		role, marker = theme.Chosen, "›"
	}
	area.Area(c.group, 0, 1, 1).Put(0, 0, role, marker)
	area.Area(c.group+2, 0, c.label-1, 1).Put(0, 0, role, draw.Shorten(m.config.Charset, f.label, c.label-2))
	note, noteRole := m.note(i)
	if note == "" {
		c.value += 1 + c.note
	}
	m.drawValue(area.Area(c.group+2+c.label, 0, c.value, 1), i)
	area.Area(c.group+2+c.label+c.value+1, 0, c.note, 1).Put(0, 0, noteRole, draw.Shorten(m.config.Charset, note, c.note))
}

// drawValue shows what is typed, the end with the cursor if it is longer than the room, or what holds
// without it.
func (m Model) drawValue(area draw.Area, i int) {
	f := m.fields[i]
	text := []rune(f.input.Value())
	if i != m.at {
		if len(text) == 0 && m.proposal(i) != "" {
			area.Put(0, 0, theme.Faint, draw.Shorten(m.config.Charset, m.proposal(i), area.Width()))
			return
		}
		area.Put(0, 0, theme.Text, draw.Shorten(m.config.Charset, string(text), area.Width()))
		return
	}
	position := f.input.Position()
	from := 0
	for from < position && draw.Width(string(text[from:position])) > area.Width()-1 {
		from++
	}
	x := area.Put(0, 0, theme.Answer, string(text[from:position]))
	under := "_"
	if position < len(text) {
		under = string(text[position])
	}
	x = area.Put(x, 0, theme.Caution, under)
	switch {
	case position < len(text):
		area.Put(x, 0, theme.Answer, string(text[position+1:]))
	case len(text) == 0:
		area.Put(x, 0, theme.Faint, draw.Shorten(m.config.Charset, m.proposal(i), area.Width()-1))
	}
}

// note says in a word or two how a field stands.
func (m Model) note(i int) (string, theme.Role) {
	switch m.fieldState(i) {
	case faulty:
		return "not right", theme.Caution
	case missing:
		if m.complain {
			return "missing", theme.Caution
		}
	case left:
		if i == m.at {
			return "if left", theme.Faint
		}
	}
	return shortUnit(m.fields[i].question.Unit), theme.Faint
}

// shortUnit is a unit as it stands beside a number.
func shortUnit(unit string) string {
	return strings.NewReplacer("degrees per hour", "°/h", "degrees per second", "°/s", "degrees", "°", "pixels", "px").Replace(unit)
}

// told is what is said about the field that is typed into: what is wrong or else what is wanted, then what
// it is. Trouble with writing comes before both.
func (m Model) told() (urgent string, quiet []string) {
	f := m.fields[m.at]
	wanted := strings.TrimSpace(f.question.Range + " " + f.question.Unit)
	if strings.HasSuffix(f.question.Range, f.question.Unit) {
		wanted = f.question.Range
	}
	wanted = "Give " + wanted + ", for example " + f.question.Example + "."
	if understood := m.understood(); understood != "" {
		wanted = understood
	}
	switch {
	case m.problem != "":
		return m.problem, []string{f.question.Prompt}
	case m.fault(m.at) != "":
		return f.label + ": " + m.fault(m.at), []string{f.question.Prompt}
	}
	if m.open() == 0 && m.config.Old != nil {
		return "", []string{m.aboutFile(), wanted}
	}
	if m.open() == 0 && m.config.Path != "" {
		return "", []string{m.keys.Write.Help().Key + " writes " + m.config.Path +
			". Skyline, axis, guiding, alarms and keys stand there too, each with its default and what it means.", wanted}
	}
	return "", []string{wanted, f.question.Prompt}
}

// aboutFile says where the kit is that is changed, and what else stands there.
func (m Model) aboutFile() string {
	said := "The kit is " + m.config.Path + ". "
	if len(m.besides) > 0 {
		return said + "It also holds " + words.List(m.besides) + "; that and your comments stay as they are."
	}
	return said + "Your comments in it stay as they are."
}

func (m Model) drawTold(area draw.Area) {
	urgent, quiet := m.told()
	y := paragraph(area, 0, theme.Caution, urgent)
	for i, text := range quiet {
		role := theme.Faint
		if i == 0 && urgent == "" {
			role = theme.Text
		}
		if y < area.Height() {
			y += paragraph(area, y, role, text)
		}
	}
}

// paragraph writes wrapped text and returns how many rows it took.
func paragraph(area draw.Area, y int, role theme.Role, text string) int {
	if text == "" {
		return 0
	}
	lines := strings.Split(ansi.Wrap(text, max(1, area.Width()), ""), "\n")
	for i, line := range lines {
		area.Put(0, y+i, role, line)
	}
	return len(lines)
}

// drawKeys names the keys, the most wanted first; what does not fit is left out.
func (m Model) drawKeys(area draw.Area) {
	x := 0
	for _, b := range []struct{ key, words string }{
		{m.keys.Write.Help().Key, m.keys.Write.Help().Desc}, {m.keys.Next.Help().Key, m.keys.Next.Help().Desc},
		{m.keys.Leave.Help().Key, m.keys.Leave.Help().Desc}, {m.keys.Before.Help().Key, m.keys.Before.Help().Desc},
	} {
		if x > 0 && x+3+draw.Width(b.key)+1+draw.Width(b.words) > area.Width() {
			continue
		}
		if x > 0 {
			x += 3
		}
		x = area.Put(x, 0, theme.Key, b.key) + 1
		x = area.Put(x, 0, theme.Faint, b.words)
	}
}
