package ui

import (
	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

// The screen "Decide": what, and is it worth it?

func (m Model) deriveDecide() Model { return m }

func (m Model) drawDecide(area draw.Area) {
	header, footer := min(2, max(0, area.Height()-4)), m.footerRows()
	m.drawHeader(slice(area, band{0, header}))
	m.drawFooter(slice(area, band{area.Height() - footer, footer}))
	body := slice(area, band{header, max(0, area.Height()-header-footer)})
	put(body, theme.Answer, m.marked(band{0, header}, []string{"nothing to decide"})...)
}
