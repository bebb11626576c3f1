package record

import (
	"fmt"
	"math"
	"path/filepath"

	"duskhand/checklist"
	"duskhand/sky/foreign"
	"duskhand/sky/words"
)

// gotos are the mentions of where the telescope looked after it was sent somewhere.
func (l log) gotos() (mentions []Mention) {
	for _, g := range l.night.Landings {
		mentions = append(mentions, Mention{At: g.At, Kind: "go-to", Text: gotoWords(g)})
	}
	return mentions
}

func gotoWords(g checklist.Landing) string {
	return fmt.Sprintf("%s: ended %s off, %s in azimuth and %s in altitude by the mount's axes; the first light since, %s", g.Target,
		words.Arcminutes(g.Off, 1), words.Arcminutes(g.Azimuth, 1), words.Arcminutes(g.Altitude, 1), foreign.Name(filepath.Base(g.Light)))
}

// gotoBefore writes how far off a target the go-to before a run's lights ended, in degrees; "" if no light has shown it.
func (n Night) gotoBefore(target string, run Run) (off string) {
	for _, g := range n.Gotos {
		if g.Target == target && !g.At.After(run.To) {
			off = decimal(thousandth(g.Off.Degrees()))
		}
	}
	return off
}

type gotoJSON struct {
	At       string  `json:"measured_at"`
	Target   string  `json:"target"`
	Off      float64 `json:"off_deg"`
	Azimuth  float64 `json:"azimuth_deg"`
	Altitude float64 `json:"altitude_deg"`
	Light    string  `json:"light"`
}

func gotosJSON(landings []checklist.Landing) (all []gotoJSON) {
	for _, g := range landings {
		all = append(all, gotoJSON{instant(g.At), g.Target, thousandth(g.Off.Degrees()), thousandth(g.Azimuth.Degrees()), thousandth(g.Altitude.Degrees()), g.Light})
	}
	return all
}

func thousandth(x float64) float64 { return math.Round(1000*x)/1000 + 0 }
