package ui_test

import (
	"encoding/xml"
	"flag"
	"fmt"
	"image/color"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/ui/testdata/emulator"
)

// pictures is a folder for pictures of all screens, to be looked at: as text and as SVG, in the night's palette.
var pictures = flag.String("pictures", "", "write pictures of all screens into this folder")

// Pictures of every scene at three sizes; .ci/look makes them. Without a folder they are made and thrown away.
func TestPicturesOfAllScreens(t *testing.T) {
	for name := range scenes() {
		s := inScene(t, name, nil)
		for _, size := range [][2]int{{80, 24}, {120, 40}, {200, 60}} {
			screen := show(s, size[0], size[1])
			svg := pictureOf(screen, size[0], size[1])
			decoder := xml.NewDecoder(strings.NewReader(svg))
			for {
				if _, err := decoder.Token(); err == io.EOF {
					break
				} else {
					require.NoError(t, err)
				}
			}
			assert.Greater(t, strings.Count(svg, "<"), 50, "something is drawn")
			if *pictures == "" {
				continue
			}
			base := filepath.Join(*pictures, fmt.Sprintf("%s-%dx%d", name, size[0], size[1]))
			require.NoError(t, os.WriteFile(base+".svg", []byte(svg), 0o600))
			require.NoError(t, os.WriteFile(base+".txt", []byte(s.text()), 0o600))
		}
	}
}

// A cell of a picture, in pixels.
const cellWidth, cellHeight = 8, 16

// pictureOf draws the cells: blocks, lines and braille as shapes, so that no font is needed for them, all else as text.
func pictureOf(screen emulator.Screen, width, height int) string {
	var out strings.Builder
	fmt.Fprintf(&out, `<svg xmlns="http://www.w3.org/2000/svg" width="%d" height="%d"><rect width="100%%" height="100%%" fill="#000"/>`+
		`<g font-family="DejaVu Sans Mono" font-size="13">`, width*cellWidth, height*cellHeight)
	for y := range height {
		for x := range width {
			cell := screen.Cell(x, y)
			if inkOf(cell.Char, cell.Bold) > 0 {
				drawCell(&out, cell, x*cellWidth, y*cellHeight)
			}
		}
	}
	out.WriteString("</g></svg>\n")
	return out.String()
}

func drawCell(out *strings.Builder, cell emulator.Cell, x, y int) {
	fill := hex(cell.Text)
	rect := func(left, top, width, height int) {
		fmt.Fprintf(out, `<rect x="%d" y="%d" width="%d" height="%d" fill="%s"/>`, x+left, y+top, width, height, fill)
	}
	switch r := cell.Char; {
	case r == '█':
		rect(0, 0, cellWidth, cellHeight)
	case r == '▀':
		rect(0, 0, cellWidth, cellHeight/2)
	case r >= '▁' && r <= '▇':
		part := cellHeight * int(r-'▁'+1) / 8
		rect(0, cellHeight-part, cellWidth, part)
	case r == '─':
		rect(0, cellHeight/2, cellWidth, 1)
	case r == '│':
		rect(cellWidth/2, 0, 1, cellHeight)
	case r >= '\u2800' && r <= '\u28ff':
		for i, at := range [8][2]int{{1, 1}, {1, 5}, {1, 9}, {5, 1}, {5, 5}, {5, 9}, {1, 13}, {5, 13}} {
			if (r-'\u2800')>>i&1 == 1 {
				rect(at[0], at[1], 2, 2)
			}
		}
	default:
		fmt.Fprintf(out, `<text x="%d" y="%d" fill="%s">`, x, y+12, fill)
		_ = xml.EscapeText(out, []byte(string(r))) // to a builder, which takes everything
		out.WriteString("</text>")
	}
}

func hex(c color.Color) string {
	r, g, b, _ := c.RGBA()
	return fmt.Sprintf("#%02x%02x%02x", r>>8, g>>8, b>>8)
}
