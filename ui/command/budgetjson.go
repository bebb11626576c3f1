package command

import (
	"math"
	"time"

	"duskhand/plan/exposure"
	"duskhand/ui/facts"
	"duskhand/ui/say"
)

// budgetDocument is what budget --json prints. A figure is null when the kit lacks what it needs, or there is no
// such thing.
type budgetDocument struct {
	Example bool            `json:"example" doc:"true for the built-in example kit"`
	Site    string          `json:"site" doc:"its name in the kit"`
	Date    string          `json:"date" doc:"date of the evening"`
	Target  string          `json:"target" doc:"its name"`
	At      *string         `json:"at" doc:"when the shutter opens; null if the target can't be used from then on"`
	Longest *float64        `json:"longest_s" doc:"that a sub may last then, until the run or the window ends"`
	ByLimit bool            `json:"ends_by_limit" doc:"that is the derotator's limit"`
	Still   *float64        `json:"still_s" doc:"until a star in the corner trails by a pixel if the derotator stood still"`
	Sky     *skyJSON        `json:"sky" doc:"at the target; null if the kit does not give it"`
	Filters []filterJSON    `json:"filters" doc:"in the kit's order"`
	Lacks   []string        `json:"lacks" doc:"keys of the kit that would complete the advice"`
	Data    dataJSON        `json:"data" doc:"of the subs that the night still gives by the plan"`
	Power   *powerJSON      `json:"power" doc:"from sunset to sunrise; null if the Sun does not set"`
	Dew     *dewJSON        `json:"dew" doc:"null without temperature and humidity"`
	Told    []sentencesJSON `json:"supplies" doc:"in words, what is wrong first"`
}

type skyJSON struct {
	Mag  float64 `json:"mag_per_arcsec2" doc:"V, with the Moon"`
	Dark float64 `json:"moonless_mag_per_arcsec2" doc:"V, without"`
	Lit  float64 `json:"moon_illuminated" doc:"share of its disc, 0 to 1"`
	Up   bool    `json:"moon_up" doc:"over the horizon"`
}

type filterJSON struct {
	Filter    string      `json:"filter" doc:"its name"`
	Exposure  float64     `json:"exposure_s" doc:"the kit's"`
	Shortest  *float64    `json:"shortest_s" doc:"in which reading adds no more noise than the kit allows"`
	Moonless  *float64    `json:"shortest_moonless_s" doc:"the same under a moonless sky overhead"`
	Reading   *float64    `json:"read_noise_share" doc:"that reading adds to the noise of the kit's exposure"`
	Well      *float64    `json:"well_share" doc:"of the full well that the sky fills in it"`
	Saturates *float64    `json:"saturates_mag" doc:"V magnitude of the star that just fills a pixel in it"`
	StarFills *float64    `json:"star_fills_s" doc:"sub in which the star of --star just fills a pixel; null without it"`
	Subs      *int        `json:"subs_wanted" doc:"for the ratio of --signal; null without it, or if it takes over a million"`
	MoonTakes *float64    `json:"moon_takes" doc:"share of what a minute of the target is worth without the Moon, 0 to 1"`
	Signal    *float64    `json:"signal_to_noise_per_arcsec2" doc:"of the target's mean brightness in all subs that the kit wants"`
	Shines    *shinesJSON `json:"target_light" doc:"what that counts on; null if there is no signal"`
}

// shinesJSON is how the target is taken to shine.
type shinesJSON struct {
	Mag    *float64 `json:"mag_per_arcsec2" doc:"V, the mean over the object; null for a glowing gas"`
	Hα     *float64 `json:"h_alpha_rayleigh" doc:"of a glowing gas in its red line; null for others"`
	Origin string   `json:"origin" doc:"by what: the catalogue, memory, or its type as a rule"`
}

func shinesOf(f exposure.Figure[exposure.Signal]) *shinesJSON {
	if !f.OK {
		return nil
	}
	s := f.Value.Source
	j := &shinesJSON{Origin: s.Origin.Text()}
	if s.ByLines() {
		j.Hα = pointer(hundredths(s.Hα()))
	} else {
		j.Mag = pointer(hundredths(s.SurfaceMag))
	}
	return j
}

type dataJSON struct {
	Subs  int    `json:"subs" doc:"planned"`
	Each  int64  `json:"bytes_each" doc:"16 bits a pixel, with header"`
	Bytes int64  `json:"bytes" doc:"all"`
	Free  *int64 `json:"free_bytes" doc:"on the disk, null if not known"`
	Fits  *bool  `json:"fits" doc:"they fit on it"`
}

type powerJSON struct {
	spanJSON
	Needed float64  `json:"needed_wh" doc:"by the loads of the kit"`
	Usable *float64 `json:"usable_wh" doc:"of the battery, null if not known"`
	Empty  *string  `json:"empty_at" doc:"null if it lasts, or that is not known"`
	Left   *float64 `json:"left_share" doc:"of the usable part at the end, 0 to 1"`
}

type dewJSON struct {
	Point  float64 `json:"dew_point_c" doc:"degrees Celsius"`
	Margin float64 `json:"margin_k" doc:"of the air above it"`
	Warn   float64 `json:"warn_below_c" doc:"air temperature below which dew is near"`
}

type sentencesJSON struct {
	Text   string `json:"text" doc:"times local"`
	Urgent bool   `json:"urgent" doc:"it wants something done"`
}

func budgetDocumentOf(b budget) budgetDocument {
	d := budgetDocument{Example: b.run.Kit.Example, Site: b.run.Kit.Site.Name, Date: b.run.Night.Date.String(), Target: b.subs.Target.Name,
		Filters: []filterJSON{}, Lacks: append([]string{}, b.subs.Lacks()...), Told: []sentencesJSON{}}
	if b.subs.OK {
		d.At = textOrNull(instant(b.subs.At))
	}
	for i, a := range b.subs.Filters {
		if i == 0 {
			d.Longest, d.ByLimit, d.Still = pointer(math.Floor(a.Longest.Run.Seconds())), a.Longest.ByLimit, figureIn(a.Longest.Still, time.Duration.Seconds)
			if a.Sky.OK {
				d.Sky = &skyJSON{hundredths(a.Sky.Value.Mag), hundredths(a.Sky.Value.Dark), thousandths(a.Sky.Value.MoonLit), a.Sky.Value.MoonUp}
			}
		}
		same := func(x float64) float64 { return x }
		d.Filters = append(d.Filters, filterJSON{a.Filter.Name, a.Filter.Exposure.Seconds(), figureIn(a.Shortest, time.Duration.Seconds),
			figureIn(a.ShortestDark, time.Duration.Seconds), figureIn(a.ReadNoise, same), figureIn(a.WellShare, same), figureIn(a.Saturates, same),
			figureIn(a.StarFills, time.Duration.Seconds), wholeIn(a.SubsWanted), figureIn(a.MoonTakes, same), figureIn(a.Signal, func(s exposure.Signal) float64 { return s.PerArcsec2 }), shinesOf(a.Signal)})
	}
	d.supplies(b)
	return d
}

// wholeIn returns a whole figure, nil if there is none.
func wholeIn(f exposure.Figure[int]) *int {
	if !f.OK {
		return nil
	}
	return &f.Value
}

// figureIn returns a figure to a thousandth, nil if there is none.
func figureIn[T any](f exposure.Figure[T], in func(T) float64) *float64 {
	if !f.OK {
		return nil
	}
	return pointer(thousandths(in(f.Value)))
}

func (d *budgetDocument) supplies(b budget) {
	s := b.supplies
	d.Data, d.Power = dataOf(s), powerOf(s)
	if s.DewOK {
		d.Dew = &dewJSON{hundredths(s.Dew.PointC), hundredths(s.Dew.MarginK), hundredths(s.Dew.WarnBelowC())}
	}
	for _, told := range say.Supplies(s) {
		d.Told = append(d.Told, sentencesJSON{told.Text, told.Urgent})
	}
}

func dataOf(s facts.Supplies) dataJSON {
	d := dataJSON{Subs: s.Data.Subs, Each: s.Data.BytesEach, Bytes: s.Data.Bytes}
	if s.Room != nil {
		free, fits := s.Room.FreeBytes, s.Room.Fits()
		d.Free, d.Fits = &free, &fits
	}
	return d
}

func powerOf(s facts.Supplies) *powerJSON {
	if !s.Lasts {
		return nil
	}
	j := &powerJSON{spanJSON: spanOf(s.Power.Span), Needed: hundredths(s.Power.NeededWh), Empty: stamp(s.Power.Empty)}
	if len(s.Power.Lacks) == 0 {
		j.Usable, j.Left = pointer(hundredths(s.Power.UsableWh)), pointer(thousandths(s.Power.LeftShare))
	}
	return j
}
