package record

import (
	"slices"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Group is runs of one target whose frames coincide: alike to the eye, or upside down.
type Group struct {
	Name        string    // "A", "B", … "Z", "27", …
	CameraAngle sky.Angle // of its first run: seen, or computed where a run of the target was not seen
	Runs        []int     // their numbers
	Turned      []int     // those of them that are turned by 180°, or on a square chip by 90° or 270°, from the first
}

// coincideWithin is how far camera angles may differ in frames that are said to coincide: as well as a
// derotator's scale is read, and at 3:2 they share more than 99 % then.
const coincideWithin = 0.5 * sky.Degree

// compare finds the runs that coincide and the field that all share. Runs without subs have no frames.
func (t *Target) compare(k kit.Kit) {
	width, height := frame(k)
	turn := 180 * sky.Degree
	if width == height {
		turn = 90 * sky.Degree
	}
	bySight := !slices.ContainsFunc(t.Runs, func(r Run) bool { return r.Subs() > 0 && r.Seen == nil })
	var angles []sky.Angle
	for i := range t.Runs {
		run := &t.Runs[i]
		if run.Subs() == 0 {
			continue
		}
		angle := run.shotAt(bySight)
		angles = append(angles, angle)
		group := t.groupOf(angle, turn)
		run.Group = group.Name
		group.Runs = append(group.Runs, run.Number)
		if (angle - group.CameraAngle).Signed().Abs() > coincideWithin {
			group.Turned = append(group.Turned, run.Number)
		}
	}
	t.Common = plan.Overlap(width, height, angles)
	t.Crop = Pixels{
		Width:  int(float64(k.Camera.Width) * float64(t.Common.CropWidth/width)),
		Height: int(float64(k.Camera.Height) * float64(t.Common.CropHeight/height)),
	}
}

// groupOf returns the group that frames at an angle coincide with, a new one if there is none.
func (t *Target) groupOf(angle, turn sky.Angle) *Group {
	for i := range t.Groups {
		apart := (angle - t.Groups[i].CameraAngle).Wrapped()
		for apart > turn/2 {
			apart -= turn
		}
		if apart.Abs() <= coincideWithin {
			return &t.Groups[i]
		}
	}
	t.Groups = append(t.Groups, Group{Name: groupName(len(t.Groups)), CameraAngle: angle})
	return &t.Groups[len(t.Groups)-1]
}

// frame returns the chip's size in the tangent plane.
func frame(k kit.Kit) (width, height sky.Angle) {
	pixel := sky.Angle(k.ScaleArcsecPerPixel()) * sky.Arcsecond
	return sky.Angle(k.Camera.Width) * pixel, sky.Angle(k.Camera.Height) * pixel
}
