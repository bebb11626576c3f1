package place

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"

	"duskhand/checklist"
)

// SideEnding ends the name of a file that says where the light beside it looks.
const SideEnding = ".placed.txt"

// Cards returns where a light of so many pixels looks as cards of a FITS header, one a line, which a header can take
// as they are: the tangential projection about the middle of the chip.
//
// Frame:  ICRS, which is J2000 to 0.02″. Pixels count from 1 at the centre of the first.
// Source: FITS Standard 4.0, section 8, tables 22 and 24; Calabretta & Greisen 2002, A&A 395, 1077, section 5.1.3.
func Cards(p checklist.PlacedBody, width, height int) string {
	scale := p.PerPixel().Degrees()
	sin, cos := math.Sincos(float64(p.CameraAngle()))
	side := 1.0 // with north up east is on the left
	if p.Mirrored {
		side = -1
	}
	var b strings.Builder
	text := func(key, value, comment string) {
		fmt.Fprintf(&b, "%.80s\n", fmt.Sprintf("%-80s", fmt.Sprintf("%-8s= %-20s / %s", key, fmt.Sprintf("'%-8s'", value), comment)))
	}
	number := func(key string, value float64, comment string) {
		fmt.Fprintf(&b, "%-80s\n", fmt.Sprintf("%-8s= %20s / %s", key, fmt.Sprintf("%.12G", value+0), comment))
	}
	fmt.Fprintf(&b, "%-80s\n", fmt.Sprintf("%-8s= %20d / %s", "WCSAXES", 2, "axes of the sky"))
	text("RADESYS", "ICRS", "")
	text("CTYPE1", "RA---TAN", "right ascension, tangential")
	text("CTYPE2", "DEC--TAN", "declination, tangential")
	text("CUNIT1", "deg", "")
	text("CUNIT2", "deg", "")
	number("CRPIX1", float64(width+1)/2, "middle of the chip, the first pixel is 1")
	number("CRPIX2", float64(height+1)/2, "")
	number("CRVAL1", p.RADeg, "degrees, there")
	number("CRVAL2", p.DecDeg, "")
	number("CD1_1", -side*scale*cos, "degrees a pixel")
	number("CD1_2", scale*sin, "")
	number("CD2_1", side*scale*sin, "")
	number("CD2_2", scale*cos, "")
	return b.String()
}

// WriteSideFile writes where a light looks into a file beside it, through one of another name so that nobody reads
// half of it. The light itself is never touched. Its error names the file.
func WriteSideFile(light string, p checklist.PlacedBody, width, height int) error {
	path := light + SideEnding
	half, err := os.CreateTemp(filepath.Dir(path), ".*"+SideEnding)
	if err != nil {
		return fmt.Errorf("writing %s: %w", path, err)
	}
	defer os.Remove(half.Name()) // not there any more when all went well
	_, err = half.WriteString(Cards(p, width, height))
	if closing := half.Close(); err == nil {
		err = closing
	}
	if err == nil {
		err = os.Chmod(half.Name(), 0o644)
	}
	if err == nil {
		err = os.Rename(half.Name(), path)
	}
	if err != nil {
		return fmt.Errorf("writing %s: %w", path, err)
	}
	return nil
}
