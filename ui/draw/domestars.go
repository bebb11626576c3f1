package draw

import (
	"duskhand/sky"
	"duskhand/ui/theme"
)

func (d dome) drawMarks(marks []DomeMark) {
	for i := len(marks) - 1; i >= 0; i-- { // the first last, so that it stays on top
		x, y, ok := d.cell(marks[i].Place)
		if !ok {
			continue
		}
		if marks[i].Kind == MoonMark {
			d.area.PutRune(x, y, theme.Text, d.charset.pick('○', 'O'))
			continue
		}
		d.area.PutRune(x, y, theme.Mark, d.charset.pick('◇', 'X'))
	}
}

func (d dome) drawStars(stars []DomeStar, horizon func(sky.Angle) sky.Angle) {
	zenithX, zenithY, _ := d.cell(sky.Horizontal{Altitude: 90 * sky.Degree})
	for _, s := range stars {
		x, y, ok := d.cell(s.Place)
		free := d.area.Rune(x, y) == 0 || (x == zenithX && y == zenithY && d.area.Rune(x, y) == '+')
		if !ok || hidden(s.Place, horizon) || !free {
			continue
		}
		r, role := d.starRune(s.Magnitude)
		if s.Role != theme.Ground {
			role = s.Role
		}
		if r == 0 {
			d.canvas.SetPoint(d.point(s.Place), role)
			continue
		}
		d.area.PutRune(x, y, role, r)
	}
}

// starRune returns the mark and the usual role of a star; 0 for a single dot.
func (d dome) starRune(magnitude float64) (rune, theme.Role) {
	switch {
	case magnitude < 0.5:
		return d.charset.pick('●', '@'), theme.Text
	case magnitude < 1.5:
		return d.charset.pick('•', '*'), theme.Text
	case magnitude < 2.5:
		return d.charset.pick('·', '+'), theme.Text
	}
	return d.charset.pick(0, '.'), theme.Faint
}

// hidden returns whether p lies behind the profile.
func hidden(p sky.Horizontal, horizon func(sky.Angle) sky.Angle) bool {
	return p.Altitude < 0 || (horizon != nil && p.Altitude < horizon(p.Azimuth.Wrapped()))
}

// label writes text beside a place above the horizon.
func (d dome) label(at sky.Horizontal, role theme.Role, text string) {
	if x, y, ok := d.cell(at); ok {
		d.beside(x, y, role, text)
	}
}
