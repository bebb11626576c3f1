package draw_test

import (
	"io"
	"testing"

	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"

	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

func nightTheme() theme.Theme {
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(termenv.TrueColor)
	return theme.New(r, theme.Night)
}

// fullScreen fills a grid as a busy screen does.
func fullScreen(g *draw.Grid) {
	a := g.Whole()
	draw.BigText(a.Area(3, 2, 60, 9), draw.Unicode, theme.Answer, "16:59")
	draw.Gauge(a.Area(2, 13, 116, 2), draw.Unicode, gaugeExample())
	draw.Table(a.Area(0, 16, 60, 20), draw.Unicode, tableExample())
	draw.Dome(a.Area(60, 16, 60, 20), draw.Unicode, domeExample())
	draw.NightStrip(a.Area(0, 37, 120, 3), draw.Unicode, stripExample())
}

// BenchmarkRender120x40 bounds turning a full screen into its string: 0.3 ms.
func BenchmarkRender120x40(b *testing.B) {
	g, t := draw.NewGrid(120, 40), nightTheme()
	fullScreen(g)
	b.ReportAllocs()
	for b.Loop() {
		t.Render(g)
	}
}

// BenchmarkView120x40 bounds a whole frame, drawn and rendered: 1 ms.
func BenchmarkView120x40(b *testing.B) {
	t := nightTheme()
	b.ReportAllocs()
	for b.Loop() {
		g := draw.NewGrid(120, 40)
		fullScreen(g)
		t.Render(g)
	}
}

func BenchmarkDrawings120x40(b *testing.B) {
	for _, s := range scenes() {
		b.Run(s.name, func(b *testing.B) {
			g := draw.NewGrid(120, 40)
			b.ReportAllocs()
			for b.Loop() {
				g.Clear()
				s.draw(g.Whole(), draw.Unicode)
			}
		})
	}
}
