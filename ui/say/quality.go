package say

import (
	"fmt"

	"duskhand/checklist/frames/quality"
	"duskhand/sky/words"
)

// Quality says what the lights show of optics, mount and exposure, in one sentence.
func Quality(f quality.Finding) string {
	lights := "the last " + words.Count(f.Lights, "light")
	switch f.Kind {
	case quality.Tilted:
		return fmt.Sprintf("stars are %s larger towards the %s in %s: chip or focuser is tilted", words.Percent(f.Share, 0), edges[f.Edge], lights)
	case quality.Curved:
		return fmt.Sprintf("stars are %s larger in the corners than in the middle in %s: distance to the flattener?", words.Percent(f.Share, 0), lights)
	case quality.Elongated:
		return fmt.Sprintf("stars are %.1f times as long as wide along %s in %s: %s", f.Share, f.Along, lights, longBecause[f.Along])
	case quality.SmallDithers:
		return fmt.Sprintf("dithers move the picture by %.1f pixels in the middle: too little against the chip's own pattern", f.Pixels)
	case quality.Saturates:
		colour := ""
		if f.Colour != "" {
			colour = ", " + colours[f.Colour] + " first"
		}
		return fmt.Sprintf("%s of the pixels are full in %s%s: shorter subs keep the colours of the stars", words.Percent(f.Share, 2), lights, colour)
	}
	return ""
}

var edges = map[quality.Edge]string{
	quality.Left: "left edge", quality.Right: "right edge", quality.FirstRow: "edge of the first row", quality.LastRow: "edge of the last row",
}

var colours = map[string]string{"R": "red", "G": "green", "B": "blue"}

var longBecause = map[quality.Along]string{
	quality.Altitude:                "that axis, its guiding, or wind",
	quality.Azimuth:                 "that axis, its guiding, or wind",
	quality.RightAscension:          "the mount falls behind or runs ahead of the sky",
	quality.Declination:             "guiding, or air that spreads the colours",
	quality.AltitudeOrDeclination:   "that axis, its guiding, or air that spreads the colours",
	quality.AzimuthOrRightAscension: "that axis, or tracking that is too slow or too fast",
}
