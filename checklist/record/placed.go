package record

import (
	"fmt"
	"math"

	"duskhand/checklist/frames/stage"
	"duskhand/checklist/scatter"
	"duskhand/sky"
	"duskhand/sky/words"
)

// seen is what the placed lights of a run show together.
type seen struct {
	lights   int
	angle    sky.Angle // of the camera at the target, in the middle of them, [0°, 360°)
	within   sky.Angle // the most that one differs
	scale    sky.Angle // a pixel
	mirrored bool
}

// seenIn returns what the placed lights of a run show; ok is false where none was placed.
func seenIn(run Run, lights []Light) (s seen, ok bool) {
	var angles, scales []float64
	for _, l := range lights {
		if l.Run == run.Number {
			angles, scales = append(angles, (l.AtTarget-lights[0].AtTarget).Signed().Degrees()), append(scales, l.ScaleArcsec)
			s.mirrored = l.Mirrored
		}
	}
	if len(angles) == 0 {
		return seen{}, false
	}
	middle := scatter.Median(angles)
	for _, a := range angles {
		s.within = max(s.within, sky.Angle(math.Abs(a-middle))*sky.Degree)
	}
	s.lights, s.angle, s.scale = len(angles), (lights[0].AtTarget + sky.Angle(middle)*sky.Degree).Wrapped(), sky.Angle(scatter.Median(scales))*sky.Arcsecond
	return s, true
}

// placedRow says how the placed lights of a run lie, and what the stage did by them.
func placedRow(run Run, lights []Light, local words.Wall) (row []string, ok bool) {
	s, ok := seenIn(run, lights)
	if !ok {
		return nil, false
	}
	way := "as the eye sees it"
	if s.mirrored {
		way = "mirrored"
	}
	return []string{fmt.Sprint(run.Number), fmt.Sprint(s.lights), words.Degrees(s.angle, 2), words.Degrees(s.within, 2), words.Arcseconds(s.scale, 4), way,
		stageWords(run.Stage, local)}, true
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
func offLines(t Target, lights []Light) (lines []string) {
	for _, run := range t.Runs {
		s, ok := seenIn(run, lights)
		if !ok {
			continue
		}
		if off := (s.angle - run.CameraAngle).Signed(); off.Abs() >= leastOff {
			lines = append(lines, fmt.Sprintf("Run %d: the stars show the camera at %s, %s from what the kit's camera.angle_at_zero_deg and the derotator's readings give; the stars are right.",
				run.Number, words.Direction(s.angle, 1), words.Degrees(off.Abs(), 1)))
		}
	}
	return lines
}
