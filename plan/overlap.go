package plan

import (
	"math"

	"duskhand/sky"
)

// FieldPoint is a place in the tangent plane, from the centre of a frame along its axes: Right and Up as
// the frame shows the sky unmirrored.
type FieldPoint struct{ Right, Up sky.Angle }

// CommonField is what frames of one size have in common that were turned about their centre: the part of
// the picture that subs of several runs share.
type CommonField struct {
	Share                 float64      // of the area of one frame, 0 to 1
	Outline               []FieldPoint // its corners in the axes of the first frame, anticlockwise; convex
	CropWidth, CropHeight sky.Angle    // the largest rectangle upright in the first frame
	CropShare             float64      // its area as a share of one frame
}

// Overlap returns the field common to frames of width × height at the camera angles given, in any order but
// for the first, in whose axes outline and crop are. Without frames or without a size nothing is common.
//
// Frame:  the tangent plane; width and height are measured there.
// Sign:   camera angles are position angles, from north through east. A mirrored picture has the same
// shares, and a mirrored outline.
// Error:  1e-6 of a frame against testdata/reference/overlap.csv.
// Source: clipping of convex polygons, Sutherland & Hodgman 1974, CACM 17(1), 32.
func Overlap(width, height sky.Angle, cameraAngles []sky.Angle) CommonField {
	if len(cameraAngles) == 0 || width <= 0 || height <= 0 {
		return CommonField{}
	}
	common := rectangle(width, height)
	room := polygon{{0, 0}, {float64(width) / 2, 0}, {float64(width) / 2, float64(height) / 2}, {0, float64(height) / 2}}
	for _, angle := range cameraAngles[1:] {
		for _, side := range sidesOf(width, height, angle-cameraAngles[0]) {
			common = common.clip(side)
			// A rectangle about the centre lies inside a side if its corner nearest to it does.
			room = room.clip(halfPlane{math.Abs(side.x), math.Abs(side.y), side.within})
		}
	}
	field := CommonField{Share: common.area() / float64(width*height)}
	for _, corner := range common {
		field.Outline = append(field.Outline, FieldPoint{sky.Angle(corner.x), sky.Angle(corner.y)})
	}
	u, v := room.largestProduct()
	field.CropWidth, field.CropHeight = sky.Angle(2*u), sky.Angle(2*v)
	field.CropShare = 4 * u * v / float64(width*height)
	return field
}

func rectangle(width, height sky.Angle) polygon {
	u, v := float64(width)/2, float64(height)/2
	return polygon{{-u, -v}, {u, -v}, {u, v}, {-u, v}}
}

// sidesOf returns the four sides of a frame that is turned by an angle from the axes. In an unmirrored
// picture of the sky position angles grow anticlockwise.
func sidesOf(width, height, turned sky.Angle) [4]halfPlane {
	c, s := turned.Cos(), turned.Sin()
	u, v := float64(width)/2, float64(height)/2
	return [4]halfPlane{{c, s, u}, {-c, -s, u}, {-s, c, v}, {s, -c, v}}
}
