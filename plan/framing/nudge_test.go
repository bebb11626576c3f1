package framing_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// simulated is a mount made of vectors: an axis, where its telescope looks, and the chip behind it. It knows
// no formula of the nudge; its axes turn by Rodrigues' rotation.
type simulated struct {
	axis, forward, right, up sky.Direction // right and up of the chip, as the eye sees them
	perPixel                 float64
	mirrored                 bool
}

// turned rotates v about a unit vector by the right hand.
func turned(v, about sky.Direction, angle sky.Angle) sky.Direction {
	sin, cos := math.Sincos(float64(angle))
	return sky.Direction{}.Plus(cos, v).Plus(sin, about.Cross(v)).Plus(about.Dot(v)*(1-cos), about)
}

func newSimulated(axis, forward sky.Direction, chipTurn sky.Angle, s sensor) simulated {
	mountUp := axis.Plus(-axis.Dot(forward), forward).Unit()
	mountRight := forward.Cross(mountUp)
	// Anticlockwise for who looks along forward is against the right hand about it.
	return simulated{axis, forward, turned(mountRight, forward, -chipTurn), turned(mountUp, forward, -chipTurn), float64(s.PerPixel), s.Mirrored}
}

// move turns the two axes: azimuth from north through east, which is clockwise from above.
func (m simulated) move(n framing.Nudge) simulated {
	altitudeAxis := m.forward.Cross(m.axis).Unit()
	for _, step := range []struct {
		about sky.Direction
		angle sky.Angle
	}{{altitudeAxis, n.Altitude}, {m.axis, -n.Azimuth}} {
		m.forward, m.right, m.up = turned(m.forward, step.about, step.angle), turned(m.right, step.about, step.angle), turned(m.up, step.about, step.angle)
	}
	return m
}

func (m simulated) shows(d sky.Direction) framing.Pixel {
	x := d.Dot(m.right) / d.Dot(m.forward) / m.perPixel
	if m.mirrored {
		x = -x
	}
	return framing.Pixel{X: x, Y: d.Dot(m.up) / d.Dot(m.forward) / m.perPixel}
}

// pointing is a night with its object somewhere, at an instant, before a rewind or after it.
type pointing struct {
	name    string
	lat     float64
	ra, dec float64
	hours   float64 // after local noon
	reading float64 // of the derotator, degrees
}

func pointings() []pointing {
	return []pointing{
		{"south of the zenith, seen from the north", 52, 40, 5, 12, 10},
		{"north of the zenith, seen from the north", 52, 200, 75, 10, -14},
		{"the southern example in the south-east", -31.95, 84.7, -69.1, 9.5, -16},
		{"the southern example before a rewind", -31.95, 84.7, -69.1, 11, 16},
		{"the southern example after the rewind", -31.95, 84.7, -69.1, 11, -16},
		{"an object in the north, seen from the south", -31.95, 60, 10, 11.5, 3},
		{"at the edge of the keyhole", -31.95, 53.4, -36.1, 10.2, 5},
		{"inside the keyhole", -31.95, 70, -31, 12, 5},
	}
}

// mountAt returns the axis, the object's place and the mounting of the chip.
func mountAt(p pointing) (framing.Mount, sky.Direction, *plan.Course, time.Time) {
	k := kit.Example()
	k.Site.Place.Latitude = sky.Angle(p.lat) * sky.Degree
	night := plan.NewNight(k, exampleDate)
	target := kit.Target{Star: sky.Star{Place: sky.J2000{RA: sky.Angle(p.ra) * sky.Degree, Dec: sky.Angle(p.dec) * sky.Degree}}}
	course := night.Course(target, k.Axis)
	at := night.Span.From.Add(time.Duration(p.hours * float64(time.Hour)))
	reading := sky.Angle(p.reading) * sky.Degree
	mount := framing.Mount{Axis: sky.MountAxis(k.Axis.Tilt, k.Axis.Toward), ChipTurn: framing.ChipTurn(k, reading)}
	return mount, course.Place(at).Direction(), course, at
}

// The mount is made to show the object at one place of the chip, moved by the nudge, and looked through.
func TestNudgePutsTheObjectWhereItIsWanted(t *testing.T) {
	s := framing.MainSensor(kit.Example())
	for _, mirrored := range []bool{false, true} {
		s.Mirrored = mirrored
		for _, p := range pointings() {
			t.Run(p.name, func(t *testing.T) {
				mount, object, course, at := mountAt(p)
				require.Greater(t, course.Place(at).Altitude, 15*sky.Degree, "the case is above the horizon")
				for _, forward := range near(object) {
					before := newSimulated(mount.Axis, forward, mount.ChipTurn, s)
					from, to := before.shows(object), framing.Pixel{X: -900, Y: 400}
					n, ok := mount.Nudge(s, object, from, to)
					require.True(t, ok)
					after := before.move(n).shows(object)
					// A thousandth of a pixel: both sides are exact, the axis itself 2° away magnifies rounding by 30.
					assert.InDelta(t, to.X, after.X, 0.001)
					assert.InDelta(t, to.Y, after.Y, 0.001)
				}
			})
		}
	}
}

// near returns lines of sight about half a degree off an object, on all sides.
func near(object sky.Direction) []sky.Direction {
	side := object.Cross(sky.Direction{X: 0.3, Y: 0.2, Z: 0.9}).Unit()
	other := object.Cross(side)
	var all []sky.Direction
	for i := range 8 {
		a := sky.Turn * sky.Angle(i) / 8
		all = append(all, object.Plus(0.008*a.Cos(), side).Plus(0.008*a.Sin(), other).Unit())
	}
	return all
}

// What the hand knows: with the chip's up along the mount's up, an object that must come down in the picture
// wants the telescope higher, and one that must go left wants it further right, in growing azimuth.
func TestNudgeGoesTheWayTheHandExpects(t *testing.T) {
	object := sky.Horizontal{Altitude: 60 * sky.Degree, Azimuth: 150 * sky.Degree}.Direction()
	levelled := framing.Mount{Axis: sky.Direction{Z: 1}}
	s := sensor{Width: 1000, Height: 1000, PerPixel: sky.Arcsecond}
	tests := []struct {
		name                   string
		turn                   float64
		to                     framing.Pixel
		azimuthOnSky, altitude float64 // arcminutes, to a hundredth: 5′ is a tangent to 1e-6 of itself
	}{
		{"down in the picture", 0, framing.Pixel{Y: -300}, 0, 5},
		{"left in the picture", 0, framing.Pixel{X: -300}, 5, 0},
		{"up, with the chip's up to the mount's left", 90, framing.Pixel{Y: 300}, 5, 0},
		{"right, with the chip upside down", 180, framing.Pixel{X: 300}, 5, 0},
		{"up, with the chip upside down", 180, framing.Pixel{Y: 300}, 0, 5},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			levelled.ChipTurn = sky.Angle(test.turn) * sky.Degree
			n, ok := levelled.Nudge(s, object, framing.Pixel{}, test.to)
			require.True(t, ok)
			assert.InDelta(t, test.azimuthOnSky, n.AzimuthOnSky.Arcminutes(), 0.01)
			assert.InDelta(t, test.altitude, n.Altitude.Arcminutes(), 0.01)
			assert.InDelta(t, 2*test.azimuthOnSky, n.Azimuth.Arcminutes(), 0.02) // 1/cos 60°; 5′ higher it is 0.25 % more
		})
	}
}

// A rewind by half a turn changes every direction into its opposite; the field's turning changes it slowly.
func TestDirectionsChangeWithTheChip(t *testing.T) {
	k := kit.Example()
	object := sky.Horizontal{Altitude: 45 * sky.Degree, Azimuth: 20 * sky.Degree}.Direction()
	nudge := func(reading sky.Angle) framing.Nudge {
		m := framing.Mount{Axis: sky.Direction{Z: 1}, ChipTurn: framing.ChipTurn(k, reading)}
		n, ok := m.Nudge(framing.MainSensor(k), object, framing.Pixel{}, framing.Pixel{X: 30, Y: 10})
		require.True(t, ok)
		return n
	}
	before, after := nudge(-90*sky.Degree), nudge(90*sky.Degree)
	assert.InDelta(t, -before.Altitude.Arcminutes(), after.Altitude.Arcminutes(), 0.001) // second order in 50″
	assert.InDelta(t, -before.AzimuthOnSky.Arcminutes(), after.AzimuthOnSky.Arcminutes(), 0.001)
}

// The chip's turn that a nudge takes is the camera angle less χ, whatever the time.
func TestChipTurnIsCameraAngleLessFieldAngle(t *testing.T) {
	for _, sense := range []int{1, -1} {
		course := exampleCourse(func(k *kit.Kit) { k.Derotator.Sense, k.Camera.AngleAtZero = sense, 35*sky.Degree })
		for _, hours := range []float64{8, 11, 15} {
			at := course.Span.From.Add(time.Duration(hours * float64(time.Hour)))
			reading := 7 * sky.Degree
			want := course.CameraAngle(reading, at) - course.FieldAngle(at)
			assert.InDelta(t, 0, Signed(framing.ChipTurn(course.Kit, reading)-want), 1e-9)
		}
	}
}

// What a nudge says of the camera angle is what χ does between the two lines of sight, the chip fixed to the
// mount.
func TestNudgeTellsTheTurnOfThePicture(t *testing.T) {
	pole := sky.Horizontal{Altitude: -30 * sky.Degree}.Direction()
	axis := sky.MountAxis(2*sky.Degree, 100*sky.Degree)
	object := sky.Horizontal{Altitude: 50 * sky.Degree, Azimuth: 300 * sky.Degree}.Direction()
	s := sensor{Width: 4000, Height: 4000, PerPixel: sky.Arcsecond}
	m := framing.Mount{Axis: axis, ChipTurn: 20 * sky.Degree}
	n, ok := m.Nudge(s, object, framing.Pixel{}, framing.Pixel{X: 1200, Y: -300})
	require.True(t, ok)
	before := newSimulated(axis, object, m.ChipTurn, s)
	after := before.move(n)
	// Seen at one star, the object itself: north's direction in the two pictures.
	north := object.Plus(1e-6, pole).Unit()
	lean := func(v simulated) float64 {
		a, b := v.shows(object), v.shows(north)
		return math.Atan2(-(b.X-a.X), b.Y-a.Y) * 180 / math.Pi
	}
	assert.InDelta(t, n.CameraAngle.Degrees(), lean(before)-lean(after), 0.01) // 20′ squared
	assert.Greater(t, n.CameraAngle.Abs().Degrees(), 0.2, "the case shows it")
}

func TestNothingCanBePutBeyondTheAxis(t *testing.T) {
	object := sky.Horizontal{Altitude: 89.9 * sky.Degree, Azimuth: 10 * sky.Degree}.Direction()
	m := framing.Mount{Axis: sky.Direction{Z: 1}}
	s := sensor{Width: 4000, Height: 4000, PerPixel: sky.Arcsecond}
	_, ok := m.Nudge(s, object, framing.Pixel{}, framing.Pixel{X: 1000})
	assert.False(t, ok, "1000″ to the side of an object 360″ from the axis: no altitude does it")
	_, ok = m.Nudge(s, object, framing.Pixel{}, framing.Pixel{Y: -1000})
	assert.False(t, ok, "the telescope would have to go over the top")
	_, ok = m.Nudge(s, object, framing.Pixel{}, framing.Pixel{Y: 1000})
	assert.True(t, ok, "away from the axis there is room")
}

func TestNudgeForAnyMount(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySensor(t)
		axis := sky.MountAxis(anyAngle(t, "tilt", 0, 10), anyAngle(t, "toward", 0, 360))
		m := framing.Mount{Axis: axis, ChipTurn: anyAngle(t, "turn", -360, 360)}
		forward := sky.Horizontal{Altitude: anyAngle(t, "altitude", 5, 60), Azimuth: anyAngle(t, "azimuth", 0, 360)}.Direction()
		anyPixel := func(name string) framing.Pixel {
			small := math.Min(1, 0.02/float64(s.PerPixel)/4500) // within 2° of the middle
			return framing.Pixel{X: rapid.Float64Range(-0.5, 0.5).Draw(t, name+" x") * float64(s.Width) * small,
				Y: rapid.Float64Range(-0.5, 0.5).Draw(t, name+" y") * float64(s.Height) * small}
		}
		before := newSimulated(axis, forward, m.ChipTurn, s)
		from, to := anyPixel("from"), anyPixel("to")
		x := from.X * before.perPixel
		if s.Mirrored {
			x = -x
		}
		object := forward.Plus(x, before.right).Plus(from.Y*before.perPixel, before.up).Unit()
		n, ok := m.Nudge(s, object, from, to)
		require.True(t, ok)
		after := before.move(n).shows(object)
		require.InDelta(t, to.X, after.X, 1e-4) // 1e-15 rad at 0.1″ a pixel, 20 times over
		require.InDelta(t, to.Y, after.Y, 1e-4)
		back, ok := m.Nudge(s, object, to, from)
		require.True(t, ok)
		require.InDelta(t, -n.Azimuth.Arcseconds(), back.Azimuth.Arcseconds(), 1e-6)
		require.InDelta(t, -n.Altitude.Arcseconds(), back.Altitude.Arcseconds(), 1e-6)
	})
}
