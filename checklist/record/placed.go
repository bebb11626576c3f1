package record

import (
	"fmt"
	"math"

	"duskhand/checklist/frames/stage"
	"duskhand/checklist/scatter"
	"duskhand/sky"
	"duskhand/sky/words"
)

// Seen is what the placed lights of a run show together.
type Seen struct {
	Lights   int
	Angle    sky.Angle // of the camera at the target, J2000, in the middle of them, [0°, 360°)
	Within   sky.Angle // the most that one differs
	PerPixel sky.Angle // that a pixel covers, in the middle of them
	Mirrored bool
}

// seenIn returns what those of the lights show that belong to a run; nil where none was placed.
func seenIn(run int, lights []Light) *Seen {
	var s Seen
	var angles, scales []float64
	for _, l := range lights {
		if l.Run == run {
			angles, scales = append(angles, (l.AtTarget-lights[0].AtTarget).Signed().Degrees()), append(scales, l.ScaleArcsec)
			s.Mirrored = l.Mirrored
		}
	}
	if len(angles) == 0 {
		return nil
	}
	middle := scatter.Median(angles)
	for _, a := range angles {
		s.Within = max(s.Within, sky.Angle(math.Abs(a-middle))*sky.Degree)
	}
	s.Lights, s.Angle, s.PerPixel = len(angles), (lights[0].AtTarget + sky.Angle(middle)*sky.Degree).Wrapped(), sky.Angle(scatter.Median(scales))*sky.Arcsecond
	return &s
}

// placedRow says how the placed lights of a run lie, and what the stage did by them.
func placedRow(run Run, local words.Wall) (row []string, ok bool) {
	s := run.Seen
	if s == nil {
		return nil, false
	}
	way := "as the eye sees it"
	if s.Mirrored {
		way = "mirrored"
	}
	return []string{fmt.Sprint(run.Number), fmt.Sprint(s.Lights), words.Degrees(s.Angle, 2), words.Degrees(s.Within, 2), words.Arcseconds(s.PerPixel, 4), way,
		stageWords(run.Stage, local)}, true
}

type seenJSON struct {
	Lights   int     `json:"lights"`
	Angle    float64 `json:"camera_angle_deg"`
	Within   float64 `json:"within_deg"`
	Scale    float64 `json:"scale_arcsec_per_px"`
	Mirrored bool    `json:"mirrored"`
	Stage    string  `json:"stage"`
}

func (r Run) seenJSON() *seenJSON {
	s := r.Seen
	if s == nil {
		return nil
	}
	return &seenJSON{s.Lights, places(s.Angle.Degrees(), 3), places(s.Within.Degrees(), 3), places(s.PerPixel.Arcseconds(), 4), s.Mirrored, string(r.Stage.Kind)}
}

// csvSeen is the columns of a run's placed lights, empty where there are none.
func csvSeen(run Run) []string {
	j := run.seenJSON()
	if j == nil {
		return make([]string, 6)
	}
	return []string{fmt.Sprint(j.Lights), decimal(j.Angle), decimal(j.Within), decimal(j.Scale), fmt.Sprint(j.Mirrored), j.Stage}
}

// stageWords says in a few words what the stage did.
func stageWords(f stage.Finding, local words.Wall) string {
	by := words.Degrees(f.By.Abs(), 2)
	switch f.Kind {
	case stage.Holds:
		return "it held"
	case stage.Slipped:
		return "it slipped by " + by + " before " + local.Minute(f.To)
	case stage.Sticks:
		return "it stood since " + local.Minute(f.To) + ", " + by
	case stage.Backwards:
		return "it turned the wrong way since " + local.Minute(f.To) + ", " + by
	case stage.Turned:
		return "the camera turned by " + by + " before " + local.Minute(f.To)
	case stage.Creeps:
		return "the camera crept by " + by
	}
	return ""
}

// leastOff is from where a computed camera angle is said to be off the one seen: a derotator's scale is read to a degree.
const leastOff = 1 * sky.Degree

// offLines say where the angle computed from kit and readings is not the one that the stars show.
func offLines(t Target) (lines []string) {
	for _, run := range t.Runs {
		s := run.Seen
		if s == nil {
			continue
		}
		if off := (s.Angle - run.CameraAngle).Signed(); off.Abs() >= leastOff {
			lines = append(lines, fmt.Sprintf("Run %d: the stars show the camera at %s, %s from what the kit's camera.angle_at_zero_deg and the derotator's readings give; the stars are right.",
				run.Number, words.Direction(s.Angle, 1), words.Degrees(off.Abs(), 1)))
		}
	}
	return lines
}
