package screens

import (
	"duskhand/ui/draw"
	"duskhand/ui/layout"
)

// Shown is what every room draws by: the status of an instant, and the footer that stands below.
type Shown struct {
	Status
	Footer Footer
}

// ShownIn is what a room shows in a window.
func ShownIn(s Status, w Window) Shown { return Shown{s, w.Footer} }

// Body draws header and footer, and the night's strip above the footer in so many rows, and returns the rows between.
// header is how many rows the header took: two, and fewer in a low window.
func (s Shown) Body(area draw.Area, strip int) (body draw.Area, header int) {
	header, footer := min(2, max(0, area.Height()-4)), s.Footer.Rows()
	band := func(top, height int) draw.Area { return layout.Slice(area, layout.Band{Top: top, Height: height}) }
	s.Header(band(0, header))
	s.Footer.Draw(band(area.Height()-footer, footer))
	if strip > 0 {
		s.Strip(band(area.Height()-footer-strip, strip))
	}
	return band(header, max(0, area.Height()-header-footer-strip)), header
}
