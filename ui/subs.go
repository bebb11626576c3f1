package ui

import (
	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

// The screen "Subs": are they good?

func (m Model) deriveSubs() Model { return m }

func (m Model) drawSubs(area draw.Area) {
	header, footer := min(2, max(0, area.Height()-4)), m.footerRows()
	m.drawHeader(slice(area, band{0, header}))
	m.drawFooter(slice(area, band{area.Height() - footer, footer}))
	body := slice(area, band{header, max(0, area.Height()-header-footer)})
	put(body, theme.Answer, m.marked(band{0, header}, []string{"no folder is watched"})...)
}
