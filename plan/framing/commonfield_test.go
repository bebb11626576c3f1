package framing_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/catalog"
)

func TestCommonFieldFallsRunByRun(t *testing.T) {
	course := exampleCourse(func(*kit.Kit) {})
	runs := course.Schedule(plan.Start{At: course.Span.From}, plan.NewSequence(course.Kit.Subs)).Runs
	outline, ok := framing.OutlineOf(course.Kit.Targets[0].Object)
	require.True(t, ok)
	s := framing.MainSensor(course.Kit)
	shared := framing.SharedBy(s, anglesOf(runs), &outline, framing.PlanePoint{})
	require.Len(t, shared, len(runs))
	assert.InDelta(t, 1, shared[0].Common.Share, 1e-12)
	width, height := s.PlaneSize()
	for i := range shared {
		assert.Len(t, shared[i].CameraAngles, i+1)
		assert.Equal(t, plan.Overlap(width, height, anglesOf(runs[:i+1])), shared[i].Common)
		if i > 0 {
			assert.LessOrEqual(t, shared[i].Common.Share, shared[i-1].Common.Share+1e-12)
			assert.LessOrEqual(t, shared[i].ObjectShare, shared[i-1].ObjectShare+1e-12)
		}
	}
	assert.Equal(t, 1.0, math.Round(shared[0].ObjectShare*1e9)/1e9, "40′ lie within a field of 2.8° × 1.9°")
}

func TestOutlineOfCatalogueObjects(t *testing.T) {
	known := func(v float64) catalog.Known { return catalog.Known{Value: v, OK: true} }
	tests := []struct {
		name   string
		object catalog.Object
		want   framing.Ellipse
		ok     bool
	}{
		{"all known", catalog.Object{MajorArcmin: known(30), MinorArcmin: known(12), PositionAngleDeg: known(40)},
			framing.Ellipse{Major: 30 * sky.Arcminute, Minor: 12 * sky.Arcminute, PositionAngle: 40 * sky.Degree}, true},
		{"no position angle: as round as it may be", catalog.Object{MajorArcmin: known(30), MinorArcmin: known(12)},
			framing.Ellipse{Major: 30 * sky.Arcminute, Minor: 30 * sky.Arcminute}, true},
		{"no minor axis", catalog.Object{MajorArcmin: known(30), PositionAngleDeg: known(40)},
			framing.Ellipse{Major: 30 * sky.Arcminute, Minor: 30 * sky.Arcminute}, true},
		{"no size", catalog.Object{PositionAngleDeg: known(40)}, framing.Ellipse{}, false},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, ok := framing.OutlineOf(test.object)
			assert.Equal(t, test.ok, ok)
			assert.Equal(t, test.want, got)
		})
	}
}

// square returns the outline of a frame.
func square(width, height sky.Angle) []plan.FieldPoint {
	return plan.Overlap(width, height, []sky.Angle{0}).Outline
}

func TestShareOfAnEllipseByHand(t *testing.T) {
	circle := framing.Ellipse{Major: 2, Minor: 2}
	long := framing.Ellipse{Major: 4, Minor: 1, PositionAngle: 90 * sky.Degree} // lies east to west
	tests := []struct {
		name          string
		ellipse       framing.Ellipse
		width, height sky.Angle
		angle         sky.Angle
		from          framing.PlanePoint
		want          float64
	}{
		{"all of it", circle, 3, 3, 0, framing.PlanePoint{}, 1},
		{"touching all sides", circle, 2, 2, 0, framing.PlanePoint{}, 1},
		{"the half to the west of the edge", circle, 4, 4, 0, framing.PlanePoint{East: 2}, 0.5},
		{"a quarter in the corner", circle, 4, 4, 0, framing.PlanePoint{East: 2, North: 2}, 0.25},
		{"none", circle, 2, 2, 0, framing.PlanePoint{East: 5}, 0},
		{"a small frame inside the circle", circle, 0.5, 0.5, 0.3, framing.PlanePoint{}, 0.25 / math.Pi},
		// Both caps beyond ±½ of a unit circle are cut: 1 − 2·(π/3 − √3/4)/π.
		{"a band through the circle", circle, 1, 10, 0, framing.PlanePoint{}, 1 - 2*(math.Pi/3-math.Sqrt(3)/4)/math.Pi},
		{"a long one along a long frame", long, 4, 1, 0, framing.PlanePoint{}, 1},
		// Squeezed along itself by 4 it is a circle of diameter 1 in a band of ¼: sides at ± ¼ of the radius's unit.
		{"a long one across it", long, 1, 4, 0, framing.PlanePoint{}, (2 / math.Pi) * (math.Asin(0.25) + 0.25*math.Sqrt(1-0.0625))},
		{"a long one along a frame turned with it", long, 1, 4, 90 * sky.Degree, framing.PlanePoint{}, 1},
		{"moved with the turned frame's axes", circle, 4, 4, 90 * sky.Degree, framing.PlanePoint{North: 2}, 0.5},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got := test.ellipse.ShareWithin(square(test.width, test.height), test.angle, test.from)
			assert.InDelta(t, test.want, got, 1e-12) // rounding
		})
	}
	assert.Zero(t, circle.ShareWithin(nil, 0, framing.PlanePoint{}), "nothing is common")
	assert.Zero(t, framing.Ellipse{}.ShareWithin(square(1, 1), 0, framing.PlanePoint{}))
}

// The closed form against darts thrown at the ellipse, each looked for in the frames themselves.
func TestShareAgreesWithDarts(t *testing.T) {
	const darts = 4000
	rapid.Check(t, func(t *rapid.T) {
		e := framing.Ellipse{Major: anyAngle(t, "major", 0.5, 4), PositionAngle: anyAngle(t, "pa", 0, 180)}
		e.Minor = e.Major * sky.Angle(rapid.Float64Range(0.2, 1).Draw(t, "flat"))
		angles := []sky.Angle{anyAngle(t, "first", 0, 360), anyAngle(t, "second", 0, 360)}
		from := framing.PlanePoint{East: anyAngle(t, "east", -1, 1), North: anyAngle(t, "north", -1, 1)}
		width, height := 3*sky.Degree, 2*sky.Degree
		got := e.ShareWithin(plan.Overlap(width, height, angles).Outline, angles[0], from)
		random := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1))
		hits := 0
		for range darts {
			r, a := math.Sqrt(random.Float64())/2, random.Float64()*2*math.Pi
			along, across := sky.Angle(r*math.Cos(a))*e.Major, sky.Angle(r*math.Sin(a))*e.Minor
			sin, cos := sky.Angle(e.PositionAngle.Sin()), sky.Angle(e.PositionAngle.Cos())
			east, north := from.East+along*sin-across*cos, from.North+along*cos+across*sin
			inAll := true
			for _, angle := range angles {
				s, c := sky.Angle(angle.Sin()), sky.Angle(angle.Cos())
				inAll = inAll && 2*(east*s+north*c).Abs() <= height && 2*(north*s-east*c).Abs() <= width
			}
			if inAll {
				hits++
			}
		}
		// Six times the spread of a binomial share: 6·√(¼/4000) = 0.047.
		require.InDelta(t, float64(hits)/darts, got, 0.047)
	})
}

// An object whose middle lies on the edge of frames that are turned alike but for rounding: half of it is in all,
// less what stands out at the narrow sides.
func TestShareOfAnObjectOnTheEdgeOfFramesTurnedAlike(t *testing.T) {
	width, height := 3*sky.Degree, 2*sky.Degree
	edge := framing.PlanePoint{North: height / 2}
	for _, noise := range []sky.Angle{0, 1e-18, 3e-16, 6e-17, -2e-16, 1e-9} {
		for _, at := range []sky.Angle{0, 1e-19, -7e-17} {
			outline := plan.Overlap(width, height, []sky.Angle{0, noise}).Outline
			e := framing.Ellipse{Major: sky.Degree, Minor: sky.Degree, PositionAngle: sky.Degree}
			got := e.ShareWithin(outline, 0, framing.PlanePoint{East: at, North: edge.North})
			assert.InDelta(t, 0.5, got, 1e-8, "turned by %g", float64(noise))
		}
	}
}

// anglesOf returns the camera angles of runs.
func anglesOf(runs []plan.Run) []sky.Angle {
	angles := make([]sky.Angle, len(runs))
	for i, run := range runs {
		angles[i] = run.CameraAngle
	}
	return angles
}
