package record

import (
	"encoding/json"
	"io"
	"math"
	"time"

	"duskhand/sky"
)

// JSON writes the record as one document: times UTC as RFC 3339, angles degrees, null for what is not known.
func (r Record) JSON(to io.Writer) error {
	out := json.NewEncoder(to)
	out.SetIndent("", "  ")
	out.SetEscapeHTML(false)
	return out.Encode(r.json())
}

type recordJSON struct {
	Site   string      `json:"site"`
	Zone   string      `json:"zone"`
	Nights []nightJSON `json:"nights"`
	Totals []totalJSON `json:"totals"`
	Of     int         `json:"totals_over_nights"`
}

type nightJSON struct {
	Date     string        `json:"date"`
	Axis     axisJSON      `json:"axis"`
	Targets  []targetJSON  `json:"targets"`
	Rewinds  []rewindJSON  `json:"rewinds"`
	Mentions []mentionJSON `json:"notes"`
	Owed     []owedJSON    `json:"calibration"`
	Strays   []strayJSON   `json:"not_counted"`
	Lights   []lightJSON   `json:"lights,omitempty"`
	Gotos    []gotoJSON    `json:"gotos,omitempty"`
}

type axisJSON struct {
	Tilt        float64 `json:"tilt_deg"`
	Toward      float64 `json:"toward_deg"`
	Uncertainty float64 `json:"uncertainty_deg"`
	How         *string `json:"measured"`
}

type targetJSON struct {
	Name   string      `json:"name"`
	Runs   []runJSON   `json:"runs"`
	Groups []groupJSON `json:"groups"`
	Common *commonJSON `json:"common_field"`
	Subs   []countJSON `json:"subs"`
}

type commonJSON struct {
	Fraction     float64 `json:"fraction"`
	CropFraction float64 `json:"crop_fraction"`
	CropWidth    int     `json:"crop_width_px"`
	CropHeight   int     `json:"crop_height_px"`
}

type runJSON struct {
	Number     int         `json:"run"`
	Start      string      `json:"start"`
	End        *string     `json:"end"`
	StartAngle float64     `json:"start_angle_deg"`
	EndAngle   float64     `json:"end_angle_deg"`
	EndRead    bool        `json:"end_angle_read"`
	Camera     float64     `json:"camera_angle_deg"`
	Group      *string     `json:"group"`
	Subs       []countJSON `json:"subs"`
	Frames     *framesJSON `json:"frames,omitempty"`
	Seen       *seenJSON   `json:"seen,omitempty"` // what its placed lights show
}

type countJSON struct {
	Filter   string    `json:"filter"`
	Exposure float64   `json:"exposure_s"`
	Count    int       `json:"count"`
	Early    int       `json:"in_twilight,omitempty"` // beside those: taken while it was not dark, and not counted
	First    string    `json:"first_start"`
	Last     string    `json:"last_end"`
	Numbers  [][2]int  `json:"numbers_in_run,omitempty"`
	Sun      []float64 `json:"sun_deg,omitempty"` // of each sub, in the middle of its exposure
}

type groupJSON struct {
	Name   string  `json:"group"`
	Camera float64 `json:"camera_angle_deg"`
	Runs   []int   `json:"runs"`
	Turned []int   `json:"turned"`
}

type rewindJSON struct {
	At      string   `json:"done"`
	From    *float64 `json:"from_angle_deg"`
	To      float64  `json:"to_angle_deg"`
	Turning *float64 `json:"turning_s"`
	Pause   *float64 `json:"without_exposures_s"`
}

type mentionJSON struct {
	At   string `json:"at"`
	Kind string `json:"kind"`
	Text string `json:"text"`
}

type owedJSON struct {
	Frames string  `json:"frames"`
	For    *string `json:"for"`
	Done   bool    `json:"done"`
	State  string  `json:"state"`
	From   *string `json:"sky_from,omitempty"` // of flats that are owed
	To     *string `json:"sky_to,omitempty"`
}

type strayJSON struct {
	From   string  `json:"from"`
	To     string  `json:"to"`
	Filter *string `json:"filter"`
	Why    string  `json:"why"`
}

type totalJSON struct {
	Target   string  `json:"target"`
	Filter   string  `json:"filter"`
	Exposure float64 `json:"exposure_s"`
	Count    int     `json:"count"`
	Exposed  float64 `json:"exposed_s"`
	Nights   int     `json:"nights"`
	Wanted   *int    `json:"wanted"`
	Left     *int    `json:"left"`
}

func (r Record) json() recordJSON {
	j := recordJSON{Site: r.Kit.Site.Name, Zone: r.Kit.Site.Zone.String(), Nights: []nightJSON{}, Totals: []totalJSON{}, Of: r.Of}
	for _, n := range r.Nights {
		j.Nights = append(j.Nights, n.json())
	}
	for _, t := range r.Totals {
		total := totalJSON{Target: t.Target, Filter: t.Filter, Exposure: t.Exposure.Seconds(), Count: t.Count, Exposed: t.Exposed().Seconds(), Nights: t.Nights}
		if left := t.Left(); t.Wanted > 0 {
			total.Wanted, total.Left = &t.Wanted, &left
		}
		j.Totals = append(j.Totals, total)
	}
	return j
}

func (n Night) json() nightJSON {
	j := nightJSON{Date: n.Date.String(), Axis: axisJSON{hundredth(n.Axis.Tilt), rounded(n.Axis.Toward.Wrapped()), hundredth(n.Axis.Uncertainty), orNull(n.AxisHow)},
		Targets: []targetJSON{}, Rewinds: []rewindJSON{}, Mentions: []mentionJSON{}, Owed: []owedJSON{}, Strays: []strayJSON{}}
	for _, t := range n.Targets {
		j.Targets = append(j.Targets, t.json())
	}
	for _, w := range n.Rewinds {
		j.Rewinds = append(j.Rewinds, w.json())
	}
	for _, m := range n.Mentions {
		j.Mentions = append(j.Mentions, mentionJSON{instant(m.At), m.Kind, m.Text})
	}
	for _, o := range n.Owed {
		j.Owed = append(j.Owed, o.json())
	}
	for _, l := range n.Lights {
		j.Lights = append(j.Lights, l.json())
	}
	j.Gotos = gotosJSON(n.Gotos)
	for _, s := range n.Strays {
		j.Strays = append(j.Strays, strayJSON{instant(s.From), instant(s.To), orNull(s.Filter), s.Why})
	}
	return j
}

func (o Owed) json() owedJSON {
	j := owedJSON{Frames: o.Frames, For: orNull(o.For), Done: o.Done, State: o.State}
	if o.Sky.Length() > 0 {
		from, to := instant(o.Sky.From), instant(o.Sky.To)
		j.From, j.To = &from, &to
	}
	return j
}

func (t Target) json() targetJSON {
	j := targetJSON{Name: t.Name, Runs: []runJSON{}, Groups: []groupJSON{}, Subs: countsJSON(t.Counts)}
	for _, run := range t.Runs {
		r := runJSON{Number: run.Number, Start: instant(run.From), StartAngle: rounded(run.StartAngle), EndAngle: rounded(run.EndAngle), EndRead: run.EndRead,
			Camera: rounded(roundedPosition(run.CameraAngle)), Group: orNull(run.Group), Subs: countsJSON(run.Filters), Frames: run.Frames.json(), Seen: run.seenJSON()}
		if end := instant(run.To); !run.Open {
			r.End = &end
		}
		j.Runs = append(j.Runs, r)
	}
	for _, g := range t.Groups {
		j.Groups = append(j.Groups, groupJSON{g.Name, rounded(roundedPosition(g.CameraAngle)), g.Runs, append([]int{}, g.Turned...)})
	}
	if len(t.Groups) > 0 {
		const places = 1e6
		j.Common = &commonJSON{math.Round(t.Common.Share*places) / places, math.Round(t.Common.CropShare*places) / places, t.Crop.Width, t.Crop.Height}
	}
	return j
}

func countsJSON(filters []FilterSubs) []countJSON {
	all := []countJSON{}
	for _, f := range filters {
		c := countJSON{Filter: f.Filter, Exposure: f.Exposure.Seconds(), Count: f.Count, Early: f.Early, First: instant(f.First), Last: instant(f.Last)}
		for _, s := range f.Numbers {
			c.Numbers = append(c.Numbers, [2]int{s.From, s.To})
		}
		for _, sun := range f.Sun {
			c.Sun = append(c.Sun, rounded(sun))
		}
		all = append(all, c)
	}
	return all
}

func (w Rewind) json() rewindJSON {
	j := rewindJSON{At: instant(w.At), To: rounded(w.To)}
	if w.From != nil {
		from := rounded(*w.From)
		j.From, j.Turning = &from, inSeconds(w.Turning)
	}
	if w.Pauses {
		j.Pause = inSeconds(w.Pause)
	}
	return j
}

func inSeconds(d time.Duration) *float64 {
	s := d.Round(time.Second).Seconds()
	return &s
}

func orNull(text string) *string {
	if text == "" {
		return nil
	}
	return &text
}

// rounded returns degrees to a tenth, never −0.
func rounded(a sky.Angle) float64 { return math.Round(a.Degrees()*10)/10 + 0 }

func hundredth(a sky.Angle) float64 { return math.Round(a.Degrees()*100)/100 + 0 }
