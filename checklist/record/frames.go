package record

import (
	"math"

	"duskhand/checklist/scatter"
	"duskhand/checklist/subs/arrival"
	"duskhand/checklist/subs/survey"
	"duskhand/checklist/subs/turning"
	"duskhand/checklist/tally"
	"duskhand/sky"
	"duskhand/sky/words"
)

// Frames is what the lights of a run looked like that were watched as they came.
type Frames struct {
	Measured   int     // lights
	HFDArcsec  float64 // median half-flux diameter; 0 when no star was sharp enough
	Elongation float64 // median; 0 likewise
	Field      string  // what the last light said of it: steady, off, reversed, residual; "" if none could tell
	RateDegPerH,
	ErrorDegPerH float64 // of the field then; 0 without Field
}

// frames looks through the night's frames, by the index of their run, and for the lights that were placed.
func (l log) frames() (map[int]*Frames, []Light) {
	if len(l.night.Arrived) == 0 {
		return nil, nil
	}
	ledger := arrival.Keep(arrival.Kept(l.night), arrival.Situation{Kit: l.kit, Night: l.night, Current: tally.Chosen(l.kit, l.night, nil).Name, Now: l.openTill})
	diameters, elongations := map[int][]float64{}, map[int][]float64{}
	byRun := map[int]*Frames{}
	for _, p := range survey.Trend(ledger, l.kit) {
		if p.Run < 0 {
			continue
		}
		if byRun[p.Run] == nil {
			byRun[p.Run] = &Frames{}
		}
		byRun[p.Run].Measured++
		if p.HFD > 0 {
			diameters[p.Run] = append(diameters[p.Run], p.HFD.Arcseconds())
		}
		if p.Elongation > 0 {
			elongations[p.Run] = append(elongations[p.Run], p.Elongation)
		}
	}
	for run, f := range byRun {
		f.HFDArcsec, f.Elongation = scatter.Median(diameters[run]), scatter.Median(elongations[run])
	}
	l.fields(ledger, byRun)
	return byRun, l.lights(ledger)
}

// fields notes what the last light of each run that could tell said of the field. A turn at one go is no rate.
func (l log) fields(ledger arrival.Ledger, byRun map[int]*Frames) {
	runOf := map[string]int{}
	for _, e := range ledger.Entries {
		runOf[e.Path] = e.Run
	}
	for _, a := range l.night.Arrived {
		f := byRun[runOf[a.Path]]
		if f == nil || a.Turning == nil || survey.AtOnce(*a.Turning) {
			continue
		}
		switch kind := turning.Kind(a.Turning.Kind); kind {
		case turning.Steady, turning.Off, turning.Reversed, turning.Residual:
			f.Field, f.RateDegPerH, f.ErrorDegPerH = string(kind), a.Turning.RateDegPerH, a.Turning.ErrorDegPerH
		}
	}
}

// fieldWords says what the field did.
func (f Frames) fieldWords() string {
	if f.Field == "" {
		return "not told"
	}
	return f.Field + ", " + words.AnHourWithin(sky.Rate(f.RateDegPerH)*sky.DegreePerHour, sky.Rate(f.ErrorDegPerH)*sky.DegreePerHour, 2)
}

type framesJSON struct {
	Measured   int      `json:"measured"`
	HFD        *float64 `json:"half_flux_diameter_arcsec"`
	Elongation *float64 `json:"elongation"`
	Field      *string  `json:"field"`
	Rate       *float64 `json:"field_deg_per_h"`
	Error      *float64 `json:"field_error_deg_per_h"`
}

func (f *Frames) json() *framesJSON {
	if f == nil {
		return nil
	}
	j := &framesJSON{Measured: f.Measured, HFD: orNothing(f.HFDArcsec), Elongation: orNothing(f.Elongation), Field: orNull(f.Field)}
	if f.Field != "" {
		rate, within := hundredths(f.RateDegPerH), hundredths(f.ErrorDegPerH)
		j.Rate, j.Error = &rate, &within
	}
	return j
}

// orNothing keeps two decimals, and nothing of 0.
func orNothing(x float64) *float64 {
	if x == 0 {
		return nil
	}
	x = hundredths(x)
	return &x
}

func hundredths(x float64) float64 { return math.Round(100*x)/100 + 0 }
