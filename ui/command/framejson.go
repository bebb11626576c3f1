package command

import (
	"math"

	"duskhand/sky"
	"duskhand/ui/frame"
)

// frameDocument is what frame --json prints.
type frameDocument struct {
	Example  bool         `json:"example" doc:"true for the built-in kit, whose equipment is invented"`
	Target   string       `json:"target" doc:"the name that the kit has for it"`
	At       string       `json:"at" doc:"the instant, UTC"`
	Width    float64      `json:"width_deg" doc:"of the field in the tangent plane"`
	Height   float64      `json:"height_deg" doc:"of the field in the tangent plane"`
	Scale    float64      `json:"scale_arcsec" doc:"of a pixel at the middle"`
	Camera   *float64     `json:"camera_angle_deg" doc:"position angle (J2000) of the chip's up in the run that begins then"`
	Reading  *float64     `json:"derotator_deg" doc:"the derotator's reading that gives it"`
	Wanted   *wantedJSON  `json:"wanted" doc:"the wanted angle, null without one"`
	Guide    *guideJSON   `json:"guide" doc:"null without a guide camera"`
	Shared   []sharedJSON `json:"shared" doc:"what the frames share after one run, two and so on"`
	Panels   []panelJSON  `json:"panels" doc:"of a mosaic, in the order in which they are taken"`
	Sentence []string     `json:"sentences" doc:"all of it in words"`
}

type wantedJSON struct {
	Angle   float64  `json:"angle_deg" doc:"position angle (J2000)"`
	Can     bool     `json:"possible" doc:"a reading within the travel gives it"`
	Reading *float64 `json:"derotator_deg" doc:"that reading, or the end of the travel that comes nearest"`
	Lasts   *float64 `json:"run_s" doc:"the run from there"`
	Longest *float64 `json:"longest_run_s" doc:"the longest that any reading gives"`
}

type guideJSON struct {
	Stars    int      `json:"stars" doc:"bright enough and clear of the edges"`
	Best     *float64 `json:"best_mag" doc:"the brightest"`
	Faintest float64  `json:"faintest_mag" doc:"that one exposure holds"`
	Known    float64  `json:"known_to_mag" doc:"to which the star list is complete there"`
}

type sharedJSON struct {
	Angle  float64 `json:"angle_deg" doc:"the last run's camera angle (J2000)"`
	Share  float64 `json:"share" doc:"of one frame, 0 to 1"`
	Crop   float64 `json:"crop_share" doc:"of the largest upright rectangle"`
	Object float64 `json:"object_share" doc:"of the object's outline, 0 if its size is not known"`
}

type panelJSON struct {
	Name   string  `json:"name" doc:"row A, B, … from the top and column from the left, chip's up on top"`
	RA     float64 `json:"ra_deg" doc:"right ascension of its middle, J2000"`
	Dec    float64 `json:"dec_deg" doc:"declination of its middle, J2000"`
	Camera float64 `json:"panel_angle_deg" doc:"position angle (J2000) at its own middle"`
}

func frameDocumentOf(t frame.Told) frameDocument {
	width, height := t.Sensor.PlaneSize()
	d := frameDocument{Example: t.Run.Kit.Example, Target: t.Target.Name, At: instant(t.Run.Now), Width: rounded(width, 4), Height: rounded(height, 4),
		Scale: rounded(sky.Angle(t.Sensor.PerPixel.Arcseconds())*sky.Degree, 4), Shared: []sharedJSON{}, Panels: []panelJSON{}, Sentence: []string{}}
	if t.Known {
		d.Camera, d.Reading = pointer(rounded(t.Chip.CameraAngle(), 2)), pointer(rounded(t.Reading, 2))
	}
	if w := t.Wanted; w != nil {
		d.Wanted = &wantedJSON{Angle: rounded(w.CameraAngle, 2), Can: w.Usable && w.Choice.Possible()}
		if w.Usable {
			d.Wanted.Reading = pointer(rounded(w.Choice.Nearest.Reading, 2))
			d.Wanted.Lasts = pointer(w.Choice.Nearest.Run.Until.Sub(w.Span.From).Round(1e9).Seconds())
			d.Wanted.Longest = pointer(w.Choice.Longest.Run.Until.Sub(w.Span.From).Round(1e9).Seconds())
		}
	}
	if g := t.Guide; g != nil {
		d.Guide = &guideJSON{Stars: len(g.Stars), Faintest: hundredths(g.Faintest), Known: hundredths(g.Complete)}
		if len(g.Stars) > 0 {
			d.Guide.Best = pointer(hundredths(g.Stars[0].Mag))
		}
	}
	for _, s := range t.Shared.Runs {
		last := s.CameraAngles[len(s.CameraAngles)-1]
		d.Shared = append(d.Shared, sharedJSON{rounded(last, 2), thousandths(s.Common.Share), thousandths(s.Common.CropShare), thousandths(s.ObjectShare)})
	}
	if t.Mosaic != nil {
		for _, p := range t.Mosaic.Panels {
			d.Panels = append(d.Panels, panelJSON{frame.PanelName(p), rounded(p.Centre.RA.Wrapped(), 4), rounded(p.Centre.Dec, 4), rounded(p.CameraAngle.Wrapped(), 2)})
		}
	}
	for _, s := range t.Sentences() {
		d.Sentence = append(d.Sentence, s.Text)
	}
	return d
}

func pointer[T any](x T) *T { return &x }

func thousandths(x float64) float64 { return math.Round(x*1000)/1000 + 0 }
