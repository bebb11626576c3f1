package quality

import (
	"math"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/sky"
)

// unevenness tells that the stars of all the lights are larger at one edge, or else in the corners.
func unevenness(last []checklist.Arrived) (f Finding, ok bool) {
	var across, down, corners []float64
	for _, a := range last {
		n := a.Measured.NinthsPx
		if len(n) != 9 {
			return Finding{}, false
		}
		for _, v := range n {
			if v <= 0 {
				return Finding{}, false
			}
		}
		middle := n[4]
		across = append(across, (n[2]+n[5]+n[8]-n[0]-n[3]-n[6])/3/middle)
		down = append(down, (n[6]+n[7]+n[8]-n[0]-n[1]-n[2])/3/middle)
		corners = append(corners, (n[0]+n[2]+n[6]+n[8])/4/middle-1)
	}
	f = Finding{Kind: Tilted, Lights: len(last)}
	x, y := least(across), least(down)
	switch {
	case math.Max(math.Abs(x), math.Abs(y)) >= tilted && math.Abs(x) >= math.Abs(y):
		f.Share, f.Edge = math.Abs(x), edge(x, Left, Right)
	case math.Abs(y) >= tilted:
		f.Share, f.Edge = math.Abs(y), edge(y, FirstRow, LastRow)
	case least(corners) >= curved:
		f.Kind, f.Share = Curved, least(corners)
	default:
		return Finding{}, false
	}
	return f, true
}

func edge(towards float64, before, after Edge) Edge {
	if towards < 0 {
		return before
	}
	return after
}

// least returns the value nearest to nought of those that have one sign, 0 where they have not.
func least(values []float64) float64 {
	out := values[0]
	for _, v := range values {
		if v*out <= 0 {
			return 0
		}
		if math.Abs(v) < math.Abs(out) {
			out = v
		}
	}
	return out
}

// elongation tells that the stars of all the lights are long, along the same axis of the mount or of the sky.
func elongation(last []checklist.Arrived, course *plan.Course) (f Finding, ok bool) {
	if course == nil {
		return Finding{}, false
	}
	f = Finding{Kind: Elongated, Lights: len(last), Share: math.Inf(1)}
	offs := map[Along]sky.Angle{}
	for _, a := range last {
		at, dated := a.Middle()
		if !dated || a.Placed == nil {
			return Finding{}, false
		}
		f.Share = math.Min(f.Share, a.Measured.Elongation)
		long := PositionAngle(*a.Placed, sky.Angle(a.Measured.DirectionDeg)*sky.Degree)
		up := course.OfJ2000(course.FieldAngle(at))
		for along, direction := range map[Along]sky.Angle{Altitude: up, Azimuth: up + 90*sky.Degree, Declination: 0, RightAscension: 90 * sky.Degree} {
			offs[along] = max(offs[along], axial(long-direction).Abs())
		}
	}
	for _, pair := range []struct{ mount, heaven, both Along }{{Altitude, Declination, AltitudeOrDeclination}, {Azimuth, RightAscension, AzimuthOrRightAscension}} {
		switch byMount, bySky := offs[pair.mount] <= alongWithin, offs[pair.heaven] <= alongWithin; {
		case byMount && bySky:
			f.Along = pair.both
		case byMount:
			f.Along = pair.mount
		case bySky:
			f.Along = pair.heaven
		}
	}
	return f, f.Along != "" && f.Share >= elongated
}

// PositionAngle returns the position angle, J2000, of a direction on a light, from +X towards +Y in the order of the
// file: that of an axis, [0°, 180°).
func PositionAngle(p checklist.PlacedBody, direction sky.Angle) sky.Angle {
	angle := p.CameraAngle() - 90*sky.Degree + direction
	if p.Mirrored {
		angle = p.CameraAngle() + 90*sky.Degree - direction
	}
	return (2 * angle).Wrapped() / 2
}

// axial returns an angle between two axes, (−90°, 90°].
func axial(angle sky.Angle) sky.Angle { return (2 * angle).Signed() / 2 }
