package command

import (
	"bytes"
	"fmt"
	"math"

	"duskhand/plan/cables"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/words"
)

// cableJSON is one way of the telescope to a target, as the mount's cables see it.
type cableJSON struct {
	Target    string  `json:"target" doc:"the target's name"`
	At        string  `json:"at" doc:"when the telescope goes there"`
	Clockwise bool    `json:"clockwise" doc:"which way round the shortest way is, seen from above"`
	Before    float64 `json:"before_deg" doc:"azimuth about the mount's axis before, unwrapped, clockwise +"`
	Arrived   float64 `json:"arrived_deg" doc:"and on arrival"`
	Left      float64 `json:"left_deg" doc:"and at the end of the tracking there"`
	Turns     float64 `json:"turns" doc:"by how many turns the cables are then wound, from straight, clockwise +"`
	Sure      bool    `json:"sure" doc:"false when the axis is known too badly to say which way round it goes"`
	Passes    *string `json:"passes" doc:"when the cables are further than they reach; null if they never are"`
	LongWay   bool    `json:"long_way_round" doc:"true when the other way round keeps them within reach"`
}

// cableTurns returns what targets that follow one another do to the cables. Each window's runs are one way:
// between windows the telescope is sent back.
func cableTurns(k kit.Kit, targets []plannedTarget) (names []string, turns []cables.Turn) {
	var legs []cables.Leg
	for _, t := range targets {
		for _, w := range t.runs.Windows {
			leg := cables.Leg{Course: t.course}
			for _, run := range t.runs.Runs {
				if !w.Contains(run.From) {
					continue
				}
				if leg.From.IsZero() {
					leg.From = run.From
				}
				leg.To = run.To
			}
			if !leg.From.IsZero() {
				legs, names = append(legs, leg), append(names, t.target.Name)
			}
		}
	}
	return names, cables.Wind(k.Mount.Cables, k.Mount.Cables.Straight, legs)
}

// writeCables says which way round each goto is and how far the cables are wound then.
func writeCables(out *bytes.Buffer, p planned, local words.Wall) {
	var rows [][]string
	for _, targets := range p.sequences() {
		names, turns := cableTurns(p.night.Kit, targets)
		for i, t := range turns {
			rows = append(rows, []string{names[i], "goes " + wayText(t.Clockwise()) + " at " + local.MinuteFrom(t.From), "wound " + turnsText(t.Arrived-p.night.Kit.Mount.Cables.Straight),
				"at " + local.Minute(t.To) + " " + turnsText(t.Left-p.night.Kit.Mount.Cables.Straight), cableRemark(t, local)})
		}
	}
	if len(rows) == 0 {
		return
	}
	fmt.Fprintf(out, "Cables of the mount, hanging straight at azimuth %s: the shortest way there, and how far it winds them\n",
		words.Degrees(p.night.Kit.Mount.Cables.Straight, 0))
	writeColumns(out, rows)
}

func cableRemark(t cables.Turn, local words.Wall) string {
	switch {
	case !t.Sure:
		return "which way round is not sure: look at them"
	case t.Passes.OK && t.LongWay:
		return fmt.Sprintf("their end at %s: go the long way round, %s", local.Minute(t.Passes.At), wayText(!t.Clockwise()))
	case t.Passes.OK:
		return fmt.Sprintf("their end at %s, whichever way it goes: unwind by then", local.Minute(t.Passes.At))
	}
	return ""
}

func wayText(clockwise bool) string {
	if clockwise {
		return "clockwise"
	}
	return "anticlockwise"
}

// turnsText prints an angle as quarters of a turn with its way: "¾ turn clockwise".
func turnsText(a sky.Angle) string {
	quarters := int(math.Round(a.Degrees() / 90))
	if quarters == 0 {
		return "hardly"
	}
	size := max(quarters, -quarters)
	text := [...]string{"", "¼", "½", "¾"}[size%4]
	if size >= 4 {
		text = fmt.Sprint(size/4) + text
	}
	word := " turn "
	if size > 4 {
		word = " turns "
	}
	return text + word + wayText(quarters > 0)
}

func cablesJSON(p planned) []cableJSON {
	all := []cableJSON{}
	straight := p.night.Kit.Mount.Cables.Straight
	for _, targets := range p.sequences() {
		names, turns := cableTurns(p.night.Kit, targets)
		for i, t := range turns {
			all = append(all, cableJSON{Target: names[i], At: instant(t.From), Clockwise: t.Clockwise(), Before: rounded(t.Before, 1),
				Arrived: rounded(t.Arrived, 1), Left: rounded(t.Left, 1), Turns: math.Round(float64((t.Left-straight)/sky.Turn)*100)/100 + 0,
				Sure: t.Sure, Passes: stamp(t.Passes), LongWay: t.LongWay})
		}
	}
	return all
}
