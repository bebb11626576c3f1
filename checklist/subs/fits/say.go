package fits

import (
	"fmt"
	"math"
	"strings"
	"time"

	"duskhand/checklist/subs"
)

// longestExposure is where a number of seconds stops being an exposure.
const longestExposure = 24 * time.Hour

// say fills the frame's header from its cards. What is wrong there is remarked on, never guessed: a frame
// with a bad date can still be measured.
func (f *Frame) say(c cards) {
	f.Header.Filter, f.Header.Object = c.words("FILTER"), c.words("OBJECT")
	f.Header.Kind = kind(c)
	f.Header.Width, f.Header.Height = f.layout.width, f.layout.height
	f.Header.BinX, f.Header.BinY = f.binning(c, "XBINNING"), f.binning(c, "YBINNING")
	f.Header.Exposure = f.exposure(c)
	f.Header.Start = f.start(c)
	f.Header.Mosaic = f.mosaic(c)
	f.Header.PerPixel = scale(c)
	if _, said := c["CCD-TEMP"]; said {
		if celsius, ok := c.number("CCD-TEMP"); ok {
			f.Header.SensorC = &celsius
		} else {
			f.remark("CCD-TEMP is %q, not a number of °C", c.words("CCD-TEMP"))
		}
	}
}

// mosaic reads the order of a colour chip's filters: BAYERPAT, by whose offsets the first pixel stands further in
// (common practice). A frame of three planes has its colours apart already.
func (f *Frame) mosaic(c cards) subs.Mosaic {
	text := c.words("BAYERPAT")
	if text == "" || f.layout.planes == 3 {
		return ""
	}
	m, ok := subs.MosaicOf(text)
	if !ok {
		f.remark("BAYERPAT is %q, not one of %s; the frame is measured as the kit has it", text, strings.Join(subs.Mosaics(), ", "))
		return ""
	}
	columns, _ := c.number("XBAYROFF")
	rows, _ := c.number("YBAYROFF")
	return m.Shifted(int(math.Mod(columns, 2)), int(math.Mod(rows, 2)))
}

func (f *Frame) remark(format string, args ...any) {
	f.Remarks = append(f.Remarks, f.name+": "+fmt.Sprintf(format, args...))
}

func (f *Frame) binning(c cards, keyword string) int {
	if _, said := c[keyword]; !said {
		return 1
	}
	n, ok := c.number(keyword)
	if !ok || n < 1 || n > 64 || n != math.Trunc(n) {
		f.remark("%s is %q, not a whole number from 1 up; taken for 1", keyword, c.words(keyword))
		return 1
	}
	return int(n)
}

// exposure reads EXPTIME, or EXPOSURE where that is absent; both in seconds.
func (f *Frame) exposure(c cards) *time.Duration {
	for _, keyword := range []string{"EXPTIME", "EXPOSURE"} {
		if _, said := c[keyword]; !said {
			continue
		}
		seconds, ok := c.number(keyword)
		if !ok || seconds < 0 || seconds > longestExposure.Seconds() {
			f.remark("%s is %q, not a number of seconds up to a day", keyword, c.words(keyword))
			continue
		}
		exposure := time.Duration(math.Round(seconds * float64(time.Second)))
		return &exposure
	}
	return nil
}
