package command

import (
	"bytes"
	"fmt"
	"math"
	"slices"

	"duskhand/plan"
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

	DerotatorLeast float64 `json:"derotator_least_deg" doc:"the derotator's angles there, by which its own cables are wound: the least"`
	DerotatorMost  float64 `json:"derotator_most_deg" doc:"and the most"`
}

// cableWay is one way of the telescope to a target: what it does to the mount's cables, and between which of its
// readings the derotator turns there, which winds those that hang from it.
type cableWay struct {
	cables.Turn
	target      string
	least, most sky.Angle
}

// cableWays returns what targets that follow one another do to the cables. Each window's runs are one way:
// between windows the telescope is sent back.
func cableWays(k kit.Kit, targets []plannedTarget) (ways []cableWay) {
	var legs []cables.Leg
	for _, t := range targets {
		for _, w := range t.runs.Windows {
			leg, way := cables.Leg{Course: t.course}, cableWay{target: t.target.Name, least: k.Derotator.Max, most: k.Derotator.Min}
			for _, run := range t.runs.Runs {
				if !w.Contains(run.From) {
					continue
				}
				if leg.From.IsZero() {
					leg.From = run.From
				}
				leg.To = run.To
				way.turned(t.course, run)
			}
			if !leg.From.IsZero() {
				legs, ways = append(legs, leg), append(ways, way)
			}
		}
	}
	for i, turn := range cables.Wind(k.Mount.Cables, k.Mount.Cables.Straight, legs) {
		ways[i].Turn = turn
	}
	return ways
}

// turned takes in the readings of a run: those at its ends, and where the field turns back.
func (w *cableWay) turned(course *plan.Course, run plan.Run) {
	angles := []sky.Angle{run.StartAngle, run.EndAngle}
	for _, back := range run.Reversals {
		angles = append(angles, course.Angle(plan.Anchor{At: run.From, Angle: run.StartAngle}, back))
	}
	w.least, w.most = min(w.least, slices.Min(angles)), max(w.most, slices.Max(angles))
}

// writeCables says which way round each goto is and how far the cables are wound then.
func writeCables(out *bytes.Buffer, p planned, local words.Wall) {
	var rows [][]string
	straight := p.night.Kit.Mount.Cables.Straight
	for _, targets := range p.sequences() {
		for _, w := range cableWays(p.night.Kit, targets) {
			rows = append(rows, []string{w.target, "goes " + wayText(w.Clockwise()) + " at " + local.MinuteFrom(w.From), "wound " + turnsText(w.Arrived-straight),
				"at " + local.Minute(w.To) + " " + turnsText(w.Left-straight), "derotator's " + words.SignedTenths(w.least) + " to " + words.SignedTenths(w.most), cableRemark(w.Turn, local)})
		}
	}
	if len(rows) == 0 {
		return
	}
	fmt.Fprintf(out, "Cables of the mount, hanging straight at azimuth %s: the shortest way there, and how far it winds them;\nthose of the derotator turn by its own angles\n",
		words.Degrees(straight, 0))
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
		for _, t := range cableWays(p.night.Kit, targets) {
			all = append(all, cableJSON{Target: t.target, At: instant(t.From), Clockwise: t.Clockwise(), Before: rounded(t.Before, 1),
				Arrived: rounded(t.Arrived, 1), Left: rounded(t.Left, 1), Turns: math.Round(float64((t.Left-straight)/sky.Turn)*100)/100 + 0,
				Sure: t.Sure, Passes: stamp(t.Passes), LongWay: t.LongWay, DerotatorLeast: rounded(t.least, 1), DerotatorMost: rounded(t.most, 1)})
		}
	}
	return all
}
