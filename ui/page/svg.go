package page

import (
	"encoding/xml"
	"fmt"
	"math"
	"strings"

	"duskhand/ui/theme"
)

// svg collects the elements of a page. Lengths are in CSS pixels, y down.
type svg struct {
	strings.Builder
	ink theme.Ink
}

type point struct{ x, y float64 }

// text writes a line of words; anchor is "start", "middle" or "end". Words in small letters are never faint: on the
// dark page that is 2 : 1, and 3 : 1 is the least that is read.
func (s *svg) text(at point, size float64, role theme.Role, anchor, words string) {
	s.put(at, size, role, anchor, "", words)
}

// haloed writes words with the page's ground about their letters, so that a line behind does not cross them.
func (s *svg) haloed(at point, size float64, role theme.Role, words string) {
	s.put(at, size, role, "start", fmt.Sprintf(` paint-order="stroke" stroke="%s" stroke-width="3" stroke-linejoin="round"`, s.ink.Paper), words)
}

// put writes an element of text, with attributes besides.
func (s *svg) put(at point, size float64, role theme.Role, anchor, besides, words string) {
	if role == theme.Faint && size <= letters {
		role = theme.Text
	}
	fmt.Fprintf(s, `<text x="%s" y="%s" font-size="%s" fill="%s" text-anchor="%s"%s>%s</text>`+"\n",
		number(at.x), number(at.y), number(size), s.ink.Of(role), anchor, besides, escaped(words))
}

func (s *svg) line(from, to point, width float64, role theme.Role, dashed bool) {
	s.path([]point{from, to}, false, width, role, dashed)
}

// path joins points; one that is far outside or not a number breaks it.
func (s *svg) path(points []point, closed bool, width float64, role theme.Role, dashed bool) {
	var d strings.Builder
	pen := "M"
	for _, p := range points {
		if !p.onPage() {
			pen = "M"
			continue
		}
		fmt.Fprintf(&d, "%s%s %s", pen, number(p.x), number(p.y))
		pen = "L"
	}
	if d.Len() == 0 {
		return
	}
	if closed {
		d.WriteString("Z")
	}
	dashes := ""
	if dashed {
		dashes = ` stroke-dasharray="5 4"`
	}
	fmt.Fprintf(s, `<path d="%s" fill="none" stroke="%s" stroke-width="%s"%s/>`+"\n", d.String(), s.ink.Of(role), number(width), dashes)
}

func (p point) onPage() bool {
	const far = 1e5
	return math.Abs(p.x) < far && math.Abs(p.y) < far
}

func (s *svg) dot(at point, radius float64, role theme.Role) {
	fmt.Fprintf(s, `<circle cx="%s" cy="%s" r="%s" fill="%s"/>`+"\n", number(at.x), number(at.y), number(radius), s.ink.Of(role))
}

// box fills a rectangle with a role at an opacity.
func (s *svg) box(at point, width, height float64, role theme.Role, opacity float64) {
	fmt.Fprintf(s, `<rect x="%s" y="%s" width="%s" height="%s" fill="%s" fill-opacity="%s"/>`+"\n",
		number(at.x), number(at.y), number(width), number(height), s.ink.Of(role), number(opacity))
}

// within draws with everything outside a rectangle cut off.
func (s *svg) within(id string, at point, width, height float64, drawing func()) {
	fmt.Fprintf(s, `<clipPath id="%s"><rect x="%s" y="%s" width="%s" height="%s"/></clipPath><g clip-path="url(#%s)">`+"\n",
		id, number(at.x), number(at.y), number(width), number(height), id)
	drawing()
	s.WriteString("</g>\n")
}

// number prints a length to a hundredth, without what it does not need.
func number(x float64) string {
	text := strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.2f", x), "0"), ".")
	if text == "-0" {
		return "0"
	}
	return text
}

func escaped(words string) string {
	var out strings.Builder
	// A strings.Builder never fails.
	_ = xml.EscapeText(&out, []byte(words))
	return out.String()
}
