package command

import (
	"io"
	"math"

	"duskhand/checklist/subs/survey"
	"duskhand/ui/say"
)

// subsDocument is what subs --json prints.
type subsDocument struct {
	Kit    *string     `json:"kit" doc:"its site's name, null without a kit"`
	Frames []subJSON   `json:"frames" doc:"in the order of their exposures, those that could not be read last"`
	Groups []groupJSON `json:"groups" doc:"of lights, in that order"`
}

type subJSON struct {
	Path       string   `json:"path" doc:"of the file"`
	Unread     *string  `json:"unread" doc:"why it could not be read or measured, else null"`
	Remarks    []string `json:"remarks" doc:"what its header says that could not be used"`
	Start      *string  `json:"start" doc:"of the exposure"`
	Dated      bool     `json:"dated" doc:"false if start comes from the file's time: then it is not compared"`
	Exposure   *float64 `json:"exposure_s" doc:"null if the header is silent"`
	Filter     string   `json:"filter" doc:"as written"`
	Object     string   `json:"object" doc:"as written"`
	Kind       string   `json:"kind" doc:"light, dark, flat, bias, or empty"`
	Width      int      `json:"width_px" doc:"of the picture"`
	Height     int      `json:"height_px" doc:"of the picture"`
	Binning    int      `json:"bin_x" doc:"along a row"`
	Stars      *int     `json:"stars" doc:"null if it is no light, as are the next six"`
	HFD        *float64 `json:"hfd_px" doc:"median half-flux diameter of unsaturated stars, null if there is none"`
	HFDArcsec  *float64 `json:"hfd_arcsec" doc:"the same by the kit's scale, null without a kit"`
	Elongation *float64 `json:"elongation" doc:"median, long over short axis"`
	Direction  *float64 `json:"direction_deg" doc:"of the mean elongation, from +X towards +Y"`
	Background *float64 `json:"background_adu" doc:"median of the sky"`
	Noise      *float64 `json:"noise_adu" doc:"of a pixel of the sky, one sigma"`
	Group      *int     `json:"group" doc:"index into groups, null if it is in none"`
	NewGroup   bool     `json:"begins_group" doc:"it is the first of its group"`
	Why        *string  `json:"why" doc:"why the group begins or the light can't be compared, else null"`
	Turned     *float64 `json:"turned_deg" doc:"of the camera since the group's first light, null if not compared"`
	TurnedErr  *float64 `json:"turned_error_deg" doc:"one sigma, null for the first"`
	Rate       *float64 `json:"rate_deg_per_h" doc:"of the camera since the light before, null for the first"`
	RateErr    *float64 `json:"rate_error_deg_per_h" doc:"one sigma, null for the first"`
}

type groupJSON struct {
	Object    string   `json:"object" doc:"as the headers name it"`
	Target    *string  `json:"target" doc:"what it was held against, null if nothing is known by the name"`
	Lights    int      `json:"lights" doc:"in it"`
	Compared  int      `json:"compared" doc:"that could be compared"`
	From      *string  `json:"from" doc:"middle of the first that could"`
	To        *string  `json:"to" doc:"middle of the last that could"`
	Since     *string  `json:"since" doc:"middle of the first since the angles last broke, by a slip or the derotator's stopping or starting: what the rates are since"`
	Rate      *float64 `json:"rate_deg_per_h" doc:"of the camera since then, null for fewer than two"`
	RateErr   *float64 `json:"rate_error_deg_per_h" doc:"one sigma"`
	Predicted *float64 `json:"predicted_deg_per_h" doc:"the same with the derotator off, null without target"`
	Kind      *string  `json:"kind" doc:"at its end: steady, off, reversed, residual, cannot tell, unknown; null without target"`
	AlarmAt   *string  `json:"alarm_at" doc:"start of the light with which it was sure that the field turns, else null"`
	Words     *string  `json:"words" doc:"what the field does at its end, null without target"`
}

func writeSubsJSON(to io.Writer, s surveyed) error {
	d := subsDocument{Frames: []subJSON{}, Groups: []groupJSON{}}
	if s.kit != nil {
		d.Kit = &s.kit.Site.Name
	}
	for _, f := range s.frames {
		d.Frames = append(d.Frames, s.frameJSON(f))
	}
	for _, g := range s.groups {
		d.Groups = append(d.Groups, groupDocument(g))
	}
	return writeJSON(to, d)
}

func (s surveyed) frameJSON(f *folderFrame) subJSON {
	h := f.header
	j := subJSON{Path: f.path, Unread: textOrNull(f.unread), Remarks: append([]string{}, f.remarks...), Dated: f.dated,
		Filter: h.Filter, Object: h.Object, Kind: string(h.Kind), Width: h.Width, Height: h.Height, Binning: h.BinX}
	if !f.start.IsZero() {
		j.Start = textOrNull(instant(f.start))
	}
	if h.Exposure != nil {
		j.Exposure = pointer(h.Exposure.Seconds())
	}
	if m := f.measured; m != nil {
		j.Stars = &m.Count
		if m.HFD > 0 {
			j.HFD, j.Elongation, j.Direction = decimals(m.HFD, 3), decimals(m.Elongation, 3), decimals(m.Direction.Degrees(), 1)
			if arcsec, ok := s.scale(m.HFD, h); ok {
				j.HFDArcsec = decimals(arcsec, 3)
			}
		}
		j.Background, j.Noise = decimals(m.Background, 2), decimals(m.Noise, 3)
	}
	if p := f.place; p != nil {
		j.Group, j.NewGroup, j.Why = &p.Group, p.New, textOrNull(say.Lineup(*p))
		if p.Compared {
			j.Turned = decimals(p.Turned.Degrees(), 5)
		}
		if p.Rated {
			j.TurnedErr, j.Rate, j.RateErr = decimals(p.TurnedError.Degrees(), 5), decimals(p.Rate.DegreesPerHour(), 4), decimals(p.RateError.DegreesPerHour(), 4)
		}
	}
	return j
}

func groupDocument(g survey.Group) groupJSON {
	j := groupJSON{Object: g.Object, Lights: g.Lights, Compared: g.Compared}
	if g.Course != nil {
		j.Target = &g.Course.Target.Name
	}
	if !g.AlarmAt.IsZero() {
		j.AlarmAt = textOrNull(instant(g.AlarmAt))
	}
	if g.Compared > 0 {
		j.From, j.To, j.Since = textOrNull(instant(g.From)), textOrNull(instant(g.To)), textOrNull(instant(g.Since))
	}
	if g.Compared < 2 {
		return j
	}
	j.Rate, j.RateErr = decimals(g.Rate.DegreesPerHour(), 4), decimals(g.RateError.DegreesPerHour(), 4)
	if said, ok := g.Turning(); ok {
		words := say.TurningSentence(said)
		kind := string(g.Verdict.Kind)
		j.Predicted, j.Kind, j.Words = decimals(g.Predicted.DegreesPerHour(), 4), &kind, &words
	}
	return j
}

// decimals rounds to so many decimals; no minus before zero, null for what is no number.
func decimals(x float64, n int) *float64 {
	scale := math.Pow(10, float64(n))
	x = math.Round(x*scale)/scale + 0
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	return &x
}
