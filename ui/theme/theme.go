package theme

import (
	"strings"

	"github.com/charmbracelet/lipgloss"
)

// Continued is what Surface.Cell gives for the second cell of a character that is two cells wide.
const Continued rune = -1

// Surface is a rectangle of cells, as a drawing package keeps them.
type Surface interface {
	Width() int
	Height() int
	// Cell returns what stands at column x of row y: the first rune of its character (0 or a space for
	// a blank, Continued behind a wide one), the marks that combine with it, and its role.
	Cell(x, y int) (first rune, marks string, role Role)
}

// Theme turns surfaces into strings. Make it with New; its escapes are computed there, once.
type Theme struct {
	palette Palette
	open    [roleCount]string
	shut    [roleCount]string
	back    *Theme          // while a call stands; nil where nothing steps back
	shows   [roleCount]bool // a blank in this role can be seen
	painted bool            // the ground has a colour of its own, so lines are filled
}

// New returns the theme of palette p for the terminal behind r.
//
// Valid: a renderer whose profile is termenv.Ascii gives no escapes at all, bold and reverse included.
// For a terminal that can do those but is to show no colour, set the renderer's profile to
// termenv.ANSI and take Mono.
func New(r *lipgloss.Renderer, p Palette) Theme {
	t := made(r, p, style)
	if p == Night {
		calling := made(r, p, func(base lipgloss.Style, _ Palette, role Role) lipgloss.Style { return back(base, role) })
		t.back = &calling
	}
	return t
}

// Calling returns the theme while a call stands: at night all else steps back behind it.
func (t Theme) Calling() Theme {
	if t.back != nil {
		return *t.back
	}
	return t
}

func made(r *lipgloss.Renderer, p Palette, of func(lipgloss.Style, Palette, Role) lipgloss.Style) Theme {
	t := Theme{palette: p}
	base := r.NewStyle()
	for _, role := range Roles() {
		s := of(base, p, role)
		t.open[role], t.shut[role], _ = strings.Cut(s.Render("x"), "x")
		t.shows[role] = showsOnBlank(s)
	}
	t.painted = t.open[Ground] != ""
	return t
}

// Palette returns the palette that t was made with.
func (t Theme) Palette() Palette { return t.palette }

// Render returns s as text for the terminal: s.Height() lines, joined by newlines, none wider than
// s.Width() cells. Neighbours of one role share their escapes. Where the palette paints its ground
// each line is filled to the full width; elsewhere blanks at the end of a line are left out.
func (t Theme) Render(s Surface) string {
	width, height := s.Width(), s.Height()
	p := pen{theme: &t}
	p.out.Grow(height * (2*width + 64))
	for y := range height {
		if y > 0 {
			p.out.WriteByte('\n')
		}
		for x := range width {
			p.cell(s.Cell(x, y))
		}
		p.endLine()
	}
	return p.out.String()
}

// pen writes cells one after the other and knows which role's escapes are open.
type pen struct {
	theme  *Theme
	out    strings.Builder
	role   Role
	down   bool // the escapes of role are open
	blanks int  // blanks owed: written once something follows, or at the end on a painted ground
}

func (p *pen) cell(first rune, marks string, role Role) {
	if first == Continued {
		return
	}
	if (first == 0 || first == ' ') && marks == "" {
		if !p.theme.shows[role] {
			p.blanks++
			return
		}
		first = ' '
	}
	p.payBlanks()
	p.take(role)
	p.out.WriteRune(first)
	p.out.WriteString(marks)
}

// payBlanks writes the blanks owed, under whatever role is open if a blank doesn't show in it.
func (p *pen) payBlanks() {
	if p.blanks == 0 {
		return
	}
	if !p.down || p.theme.shows[p.role] {
		p.take(Ground)
	}
	for ; p.blanks > 0; p.blanks-- {
		p.out.WriteByte(' ')
	}
}

func (p *pen) take(role Role) {
	if p.down && p.role == role {
		return
	}
	p.lift()
	p.out.WriteString(p.theme.open[role])
	p.role, p.down = role, true
}

func (p *pen) lift() {
	if p.down {
		p.out.WriteString(p.theme.shut[p.role])
		p.down = false
	}
}

func (p *pen) endLine() {
	if p.theme.painted {
		p.payBlanks()
	}
	p.blanks = 0
	p.lift()
}
