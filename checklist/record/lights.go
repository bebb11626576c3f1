package record

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"path"
	"path/filepath"
	"strconv"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/frames/place"
	"duskhand/checklist/frames/quality"
	"duskhand/checklist/subs"
	"duskhand/checklist/subs/arrival"
	"duskhand/sky"
	"duskhand/sky/foreign"
)

// Light is one light that was placed on the sky by its stars.
type Light struct {
	File     string // its name, without folders
	Target   string // "" if nobody knows it
	Run      int    // in the night, from 1; 0 outside the runs
	Filter   string // as its header has it
	Start    time.Time
	Exposure time.Duration
	checklist.PlacedBody
	// AtTarget is the camera angle at the target, J2000; the body's is that at the middle of the chip.
	AtTarget sky.Angle
	Sky      *float64 // magnitudes per square second of arc, VT; nil where nobody can tell
	Measured *subs.Measured
}

// lights returns the placed lights of a ledger, in its order, copies left out.
func (l log) lights(ledger arrival.Ledger) (lights []Light) {
	for _, e := range ledger.Entries {
		if e.Placed == nil || !e.Counts() {
			continue
		}
		light := Light{File: path.Base(filepath.ToSlash(e.Path)), Target: e.Target, Run: e.Run + 1, Filter: e.Header.Filter, Start: e.Start,
			Exposure: e.Exposure, PlacedBody: *e.Placed, AtTarget: e.Placed.CameraAngle(), Measured: e.Measured}
		if magnitude, ok := quality.SkyBrightness(checklist.Arrived{SubArrivedBody: arrival.BodyOf(e.Frame)}, l.kit); ok {
			light.Sky = &magnitude
		}
		if e.Run >= 0 {
			light.AtTarget = place.AngleAt(*e.Placed, l.runs[e.Run].target.Star.Place)
		}
		lights = append(lights, light)
	}
	return lights
}

type lightJSON struct {
	File     string   `json:"file"`
	Target   *string  `json:"target"`
	Run      *int     `json:"run"`
	Filter   *string  `json:"filter"`
	Start    string   `json:"start"`
	Exposure float64  `json:"exposure_s"`
	RA       float64  `json:"ra_deg"`
	Dec      float64  `json:"dec_deg"`
	Angle    float64  `json:"camera_angle_deg"`
	AtTarget *float64 `json:"camera_angle_at_target_deg"`
	Error    float64  `json:"angle_error_deg"`
	Scale    float64  `json:"scale_arcsec_per_px"`
	Mirrored bool     `json:"mirrored"`
	Stars    int      `json:"stars_matched"`
	Sky      *float64 `json:"sky_mag_per_arcsec2"`
	HFD      *float64 `json:"half_flux_diameter_arcsec"`
	Long     *float64 `json:"elongation"`
	Full     *float64 `json:"saturated_share"`
}

func (l Light) json() lightJSON {
	j := lightJSON{File: l.File, Target: orNull(l.Target), Filter: orNull(l.Filter), Start: instant(l.Start), Exposure: l.Exposure.Seconds(),
		RA: places(l.RADeg, 6), Dec: places(l.DecDeg, 6), Angle: places(l.CameraAngleDeg, 4), Error: places(l.AngleErrorDeg, 4),
		Scale: places(l.ScaleArcsec, 5), Mirrored: l.Mirrored, Stars: l.StarsMatched}
	if l.Sky != nil {
		magnitude := hundredths(*l.Sky)
		j.Sky = &magnitude
	}
	if m := l.Measured; m != nil {
		full := places(m.Saturated, 6)
		j.HFD, j.Long, j.Full = orNothing(m.HFD*l.ScaleArcsec), orNothing(m.Elongation), &full
	}
	if l.Run > 0 {
		at := places(l.AtTarget.Degrees(), 4)
		j.Run, j.AtTarget = &l.Run, &at
	}
	return j
}

// places keeps so many decimals of a number, never −0.
func places(x float64, n int) float64 {
	unit := math.Pow10(n)
	return math.Round(x*unit)/unit + 0
}

// LightsCSV writes a row for each light that was placed, below a row of names. Times are UTC as RFC 3339, places and
// angles J2000 in degrees.
func (r Record) LightsCSV(to io.Writer) error {
	rows := [][]string{{"night", "file", "target", "run", "filter", "start_utc", "exposure_s", "ra_deg", "dec_deg", "camera_angle_deg",
		"camera_angle_at_target_deg", "angle_error_deg", "scale_arcsec_per_px", "mirrored", "stars_matched",
		"sky_mag_per_arcsec2", "half_flux_diameter_arcsec", "elongation", "saturated_share"}}
	for _, night := range r.Nights {
		for _, l := range night.Lights {
			rows = append(rows, l.row(night.Date.String()))
		}
	}
	if err := csv.NewWriter(to).WriteAll(rows); err != nil {
		return fmt.Errorf("writing the lights: %w", err)
	}
	return nil
}

func (l Light) row(night string) []string {
	j := l.json()
	run, at := "", ""
	if l.Run > 0 {
		run, at = strconv.Itoa(l.Run), decimal(*j.AtTarget)
	}
	return []string{night, foreign.Cell(l.File), foreign.Cell(l.Target), run, foreign.Cell(l.Filter), j.Start, decimal(j.Exposure), decimal(j.RA), decimal(j.Dec),
		decimal(j.Angle), at, decimal(j.Error), decimal(j.Scale), strconv.FormatBool(l.Mirrored), strconv.Itoa(l.StarsMatched),
		known(j.Sky), known(j.HFD), known(j.Long), known(j.Full)}
}

// known writes a number, nothing of one that nobody knows.
func known(x *float64) string {
	if x == nil {
		return ""
	}
	return decimal(*x)
}

func decimal(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
