package command

import (
	"bytes"
	"fmt"
	"strings"

	"duskhand/plan/guiding"
	"duskhand/plan/kit"
	"duskhand/sky/words"
)

// calibrationJSON is one calibration of the guiding that a plan wants.
type calibrationJSON struct {
	Corrections string  `json:"corrections" doc:"the kind of mount it is for: turned, axes or sky; the kit's guide.corrections, or each in turn when that is not known"`
	Target      string  `json:"target" doc:"the target's name"`
	Run         int     `json:"run" doc:"the target's run, from 1"`
	At          string  `json:"at" doc:"when it is wanted"`
	Stage       float64 `json:"derotator_deg" doc:"mechanical angle at which it is best made"`
	Instead     string  `json:"instead" doc:"what guiding by the one before would come to: holds for the first, which has none before, calibrate-again or diverges"`
}

// wantedCalibration is a calibration with the target and the run that it is for.
type wantedCalibration struct {
	guiding.Calibration
	target string
	number int // of the target's run, from 1
}

// guidingKinds returns the kinds that the mount may be by the kit.
func guidingKinds(k kit.Kit) []kit.Corrections {
	if k.Guide.Corrections != "" {
		return []kit.Corrections{k.Guide.Corrections}
	}
	return kit.AllCorrections()
}

// calibrations returns what these targets, in this order, want on a mount of that kind.
func calibrations(kind kit.Corrections, gain float64, targets []plannedTarget) []wantedCalibration {
	var runs []guiding.Stretch
	var of []wantedCalibration
	for _, t := range targets {
		for i, run := range t.runs.Runs {
			runs = append(runs, guiding.Stretch{Course: t.course, Run: run})
			of = append(of, wantedCalibration{target: t.target.Name, number: i + 1})
		}
	}
	var wanted []wantedCalibration
	for _, c := range guiding.Calibrations(kind, gain, runs) {
		w := of[c.Run]
		w.Calibration = c
		wanted = append(wanted, w)
	}
	return wanted
}

// sequences returns the targets that follow one another in one night: all of a divided one, else each alone.
func (p planned) sequences() (all [][]plannedTarget) {
	if p.divided != nil {
		return [][]plannedTarget{p.targets}
	}
	for _, t := range p.targets {
		all = append(all, []plannedTarget{t})
	}
	return all
}

// writeGuiding says when the guiding will want a calibration and with the derotator at which angle, if the
// night has runs.
func writeGuiding(out *bytes.Buffer, p planned, local words.Wall) {
	var rows [][]string
	for _, targets := range p.sequences() {
		name := targets[0].target.Name
		if p.divided != nil {
			name = "all"
		}
		for _, kind := range guidingKinds(p.night.Kit) {
			wanted := calibrations(kind, p.night.Kit.Guide.Gain, targets)
			if len(wanted) > 0 {
				rows = append(rows, []string{name, string(kind), calibrationsText(wanted, local)})
				name = ""
			}
		}
	}
	if len(rows) == 0 {
		return
	}
	out.WriteString("Guiding: when to calibrate, and with the derotator where")
	if p.night.Kit.Guide.Corrections == "" {
		out.WriteString(", by what the mount does with\ncorrections, which the kit does not say (guide.corrections)")
	}
	out.WriteString("\n")
	writeColumns(out, rows)
}

// mostShown is how many calibrations are listed before the rest are counted.
const mostShown = 5

func calibrationsText(wanted []wantedCalibration, local words.Wall) string {
	var parts []string
	for i, w := range wanted {
		if i == mostShown && len(wanted) > mostShown+1 {
			parts = append(parts, fmt.Sprintf("and %d more times", len(wanted)-i))
			break
		}
		parts = append(parts, fmt.Sprintf("%s at %s", local.MinuteFrom(w.At), words.Degrees(w.Stage, 1)))
	}
	return strings.Join(parts, ", ")
}

func calibrationsJSON(p planned) []calibrationJSON {
	all := []calibrationJSON{}
	for _, targets := range p.sequences() {
		for _, kind := range guidingKinds(p.night.Kit) {
			for _, w := range calibrations(kind, p.night.Kit.Guide.Gain, targets) {
				all = append(all, calibrationJSON{string(kind), w.target, w.number, instant(w.At), rounded(w.Stage, 1), w.Instead.String()})
			}
		}
	}
	return all
}
