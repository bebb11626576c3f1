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

// label writes text beside the place, at the first of its sides where it covers nothing; if there is
// none, where it covers only lines; if there is none either, not at all.
func (d dome) label(at sky.Horizontal, role theme.Role, text string) {
	x, y, ok := d.cell(at)
	if !ok || text == "" {
		return
	}
	width := Width(text)
	sides := [8][2]int{
		{x + 2, y}, {x - 1 - width, y}, {x - width/2, y - 1}, {x - width/2, y + 1},
		{x + 2, y - 1}, {x + 2, y + 1}, {x - 1 - width, y - 1}, {x - 1 - width, y + 1},
	}
	for _, overLines := range [2]bool{false, true} {
		for _, side := range sides {
			if d.hasRoom(side[0], side[1], width, overLines) {
				d.area.Put(side[0], side[1], role, text)
				return
			}
		}
	}
}

func (d dome) hasRoom(x, y, width int, overLines bool) bool {
	if x < 0 || y < 0 || x+width > d.area.Width() || y >= d.area.Height() {
		return false
	}
	for i := x; i < x+width; i++ {
		if d.area.Rune(i, y) != 0 || (!overLines && d.canvas.hasDots(i, y)) {
			return false
		}
	}
	return isLetterless(d.area, x-1, y) && isLetterless(d.area, x+width, y)
}

// isLetterless returns whether a label may end beside this cell: next to a star it may, next to
// another label the two would read as one word.
func isLetterless(area Area, x, y int) bool {
	r := area.Rune(x, y)
	return !(r >= '0' && r <= '9') && !(r >= 'A' && r <= 'Z') && !(r >= 'a' && r <= 'z')
}
