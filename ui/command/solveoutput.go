package command

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"duskhand/sky"
	"duskhand/sky/foreign"
	"duskhand/sky/words"
	"duskhand/ui/draw"
)

type solveDocument struct {
	Frames []solveJSON `json:"frames" doc:"in the order in which they were given"`
}

type solveJSON struct {
	File       string   `json:"file" doc:"as given"`
	Solved     bool     `json:"solved" doc:"whether it is known where it looks; if not, all numbers but seconds are null"`
	Why        *string  `json:"why" doc:"why not, null when solved"`
	RA         *float64 `json:"ra_deg" doc:"J2000, of the middle of the chip"`
	Dec        *float64 `json:"dec_deg" doc:"J2000, of the middle of the chip"`
	Angle      *float64 `json:"camera_angle_deg" doc:"position angle of growing row number, first row lowest, north through east, J2000, at the middle"`
	Scale      *float64 `json:"scale_arcsec_per_px" doc:"at the middle, of the frame's own pixels"`
	Mirrored   *bool    `json:"mirrored" doc:"whether the picture, first row lowest, is the sky as a mirror shows it"`
	Matched    *int     `json:"stars_matched" doc:"stars of the catalogue that are on it where they should be"`
	AngleError *float64 `json:"angle_error_deg" doc:"one sigma"`
	Seconds    float64  `json:"seconds" doc:"that reading, measuring and placing took"`
}

func solveDocumentOf(solved []solvedFile) solveDocument {
	d := solveDocument{Frames: []solveJSON{}}
	for _, s := range solved {
		j := solveJSON{File: s.file, Solved: s.placed != nil, Why: textOrNull(s.why), Seconds: *decimals(s.took.Seconds(), 3)}
		if p := s.placed; p != nil {
			j.RA, j.Dec = decimals(p.Centre.RA.Degrees(), 6), decimals(p.Centre.Dec.Degrees(), 6)
			j.Angle, j.AngleError = decimals(p.CameraAngle.Degrees(), 5), decimals(p.AngleError.Degrees(), 5)
			j.Scale, j.Mirrored, j.Matched = decimals(p.PerPixel.Arcseconds(), 5), &p.Mirrored, &p.Matched
		}
		d.Frames = append(d.Frames, j)
	}
	return d
}

func writeSolvedText(to io.Writer, solved []solvedFile) error {
	var out strings.Builder
	for _, s := range solved {
		name := draw.Shorten(draw.Unicode, foreign.Name(filepath.Base(s.file)), longestName)
		p := s.placed
		if p == nil {
			fmt.Fprintf(&out, "%s  not solved: %s\n", name, foreign.Name(strings.TrimPrefix(s.why, filepath.Base(s.file)+": ")))
			continue
		}
		mirror := ""
		if p.Mirrored {
			mirror = ", mirrored"
		}
		fmt.Fprintf(&out, "%s  RA %s  Dec %s  camera angle %s ± %s  %s a pixel%s, by %s\n", name, words.Direction(p.Centre.RA, 4),
			words.Degrees(p.Centre.Dec, 4), words.Direction(p.CameraAngle, 3), words.Degrees(max(sky.Degree/1000, p.AngleError), 3), words.Arcseconds(p.PerPixel, 4), mirror, words.Count(p.Matched, "star"))
	}
	_, err := io.WriteString(to, out.String())
	return err
}
