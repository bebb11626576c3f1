package advice_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// rig is a mount with a derotator as it really turns, in east, north, up: whatever reading the derotator has, its own axis
// looks where the mount's two axes point, and the chip hangs beside that axis. Own derivation, by vectors alone.
type rig struct {
	k    kit.Kit
	axis sky.Direction // of the mount in azimuth
	off  framing.Pixel // of the derotator's axis on the chip
	az   sky.Angle     // about the mount's axis, where the derotator's axis looks
	alt  sky.Angle
}

// frame is where the derotator's axis looks, and what is right and up of it for who looks along with the mount's up on top.
func (r rig) frame() (forward, right, up sky.Direction) {
	north := sky.Direction{Y: 1}
	zero := north.Plus(-north.Dot(r.axis), r.axis).Unit()
	square := zero.Cross(r.axis) // azimuths grow from zero through it
	sinAz, cosAz := math.Sincos(float64(r.az))
	sin, cos := math.Sincos(float64(r.alt))
	level := sky.Direction{}.Plus(cosAz, zero).Plus(sinAz, square)
	forward = sky.Direction{}.Plus(cos, level).Plus(sin, r.axis)
	up = sky.Direction{}.Plus(-sin, level).Plus(cos, r.axis)
	right = sky.Direction{}.Plus(-sinAz, zero).Plus(cosAz, square)
	return forward, right, up
}

// shows is where the picture shows a direction while the derotator reads so: the chip's up lies reading 0's angle, less
// sense times the reading, anticlockwise from the mount's up.
func (r rig) shows(d sky.Direction, reading sky.Angle) framing.Pixel {
	forward, right, up := r.frame()
	sin, cos := math.Sincos(float64(r.k.Camera.AngleAtZero - sky.Angle(r.k.Derotator.Sense)*reading))
	chipRight := right.Plus(cos-1, right).Plus(sin, up)
	chipUp := up.Plus(cos-1, up).Plus(-sin, right)
	perPixel := r.k.Camera.PixelUM / 1000 / r.k.Optics.FocalLengthMM
	x, y := d.Dot(chipRight)/d.Dot(forward)/perPixel, d.Dot(chipUp)/d.Dot(forward)/perPixel
	if r.k.Camera.Mirrored {
		x = -x
	}
	return framing.Pixel{X: x + r.off.X, Y: y + r.off.Y}
}

// aimed moves the axes until the picture shows a direction at a pixel.
func (r rig) aimed(d sky.Direction, reading sky.Angle, want framing.Pixel) rig {
	along := d.Dot(r.axis)
	r.alt = sky.Angle(math.Asin(along))
	north := sky.Direction{Y: 1}
	zero := north.Plus(-north.Dot(r.axis), r.axis).Unit()
	r.az = sky.Angle(math.Atan2(d.Dot(zero.Cross(r.axis)), d.Dot(zero)))
	const step = 1e-6
	for range 50 { // Newton's method with differences
		at := r.shows(d, reading)
		a, b := r, r
		a.az, b.alt = a.az+step, b.alt+step
		pa, pb := a.shows(d, reading), b.shows(d, reading)
		ax, ay, bx, by := (pa.X-at.X)/step, (pa.Y-at.Y)/step, (pb.X-at.X)/step, (pb.Y-at.Y)/step
		dx, dy, det := want.X-at.X, want.Y-at.Y, ax*by-bx*ay
		r.az += sky.Angle((dx*by - bx*dy) / det)
		r.alt += sky.Angle((ax*dy - dx*ay) / det)
	}
	return r
}

// carried is where a direction stands once the sky has turned for so long.
func carried(d, pole sky.Direction, by time.Duration) sky.Direction {
	const sidereal = 15.041067 // seconds of arc in a second
	turn := -sky.Angle(by.Seconds()*sidereal) * sky.Arcsecond
	sin, cos := math.Sincos(float64(turn))
	along := d.Dot(pole)
	out := sky.Direction{}.Plus(cos, d).Plus(along*(1-cos), pole)
	return out.Plus(sin, pole.Cross(d))
}

// tracked is the mount after it has followed the sky for so long.
func (r rig) tracked(pole sky.Direction, by time.Duration) rig {
	forward, _, _ := r.frame()
	there := carried(forward, pole, by)
	return r.aimed(there, 0, r.off)
}

// A mount with its derotator's axis 300 pixels beside the chip's middle turns its stage, and tracks until somebody looks,
// minutes later. The picture shows the target where it was said to, and moving the axes as was said brings it back. 2
// pixels is what the flat chip leaves out of that.
func TestTheNudgeBringsTheTargetOfASimulatedMountBack(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(k *kit.Kit)
		begins time.Time
		stage  float64
	}{
		{"a southern sky", nil, utc(11, 10), -16},
		{"mirrored, and the stage the other way round", func(k *kit.Kit) { k.Camera.Mirrored, k.Derotator.Sense = true, -1 }, utc(11, 10), 10},
		{"a target that is wanted beside the middle", func(k *kit.Kit) {
			k.Targets[0].Middle = kit.SkyOffset{East: 8 * sky.Arcminute, North: -5 * sky.Arcminute}
		}, utc(11, 10), -16},
		{"a chip that hangs askew", func(k *kit.Kit) { k.Camera.AngleAtZero = 73 * sky.Degree }, utc(11, 10), -16},
		{"a northern sky", func(k *kit.Kit) { northern(k, 23*sky.Hour, 41*sky.Degree) }, utc(17, 30), 0},
		{"near the keyhole", func(k *kit.Kit) { northern(k, 23*sky.Hour, 41*sky.Degree); k.Mount.Ceiling = 85 * sky.Degree }, utc(17, 45), 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			n := example(t, func(k *kit.Kit) {
				k.Camera.Axis = &kit.PixelOffset{Right: 180, Up: -240}
				k.Derotator.Min, k.Derotator.Max = -120*sky.Degree, 120*sky.Degree
				k.Axis = kit.Axis{Tilt: 2 * sky.Degree, Toward: 210 * sky.Degree}
				if c.change != nil {
					c.change(k)
				}
			})
			n.say(c.begins, checklist.ChooseTarget{Target: checklist.Target{Name: n.kit.Targets[0].Name, Star: n.kit.Targets[0].Star}})
			n.say(c.begins.Add(time.Second), checklist.TurnOn{Angle: degrees(c.stage)})
			turned := c.begins.Add(20 * time.Minute)
			was := n.at(turned)
			n.say(turned, checklist.Rewound{To: *degrees(c.stage + 40)})
			now := n.at(turned.Add(5 * time.Minute))
			got, ok := now.Recentring()
			require.True(t, ok)
			assert.True(t, got.Done)

			real := rig{k: n.kit, axis: sky.MountAxis(n.kit.Axis.Tilt, n.kit.Axis.Toward), off: framing.Pixel{X: 180, Y: -240}}
			real = real.aimed(was.Place.Direction(), was.Angle, wantedOn(was))
			real = real.tracked(now.Night.Frame.Pole(), now.Now.Sub(was.Now))
			seen := real.shows(now.Place.Direction(), now.Angle)
			assert.Greater(t, math.Hypot(seen.X-got.Wanted.X, seen.Y-got.Wanted.Y), 50.0, "there is something to bring back")
			assert.InDelta(t, seen.X, got.Seen.X, 2)
			assert.InDelta(t, seen.Y, got.Seen.Y, 2)
			real.az, real.alt = real.az+got.Nudge.Azimuth, real.alt+got.Nudge.Altitude
			back := real.shows(now.Place.Direction(), now.Angle)
			assert.InDelta(t, wantedOn(now).X, back.X, 2)
			assert.InDelta(t, wantedOn(now).Y, back.Y, 2)
		})
	}
}

// wantedOn is where the picture shows the target when it is framed as wanted.
func wantedOn(m advice.Moment) framing.Pixel {
	up := m.Course.OfJ2000(m.Course.CameraAngle(m.Angle, m.Now))
	p, _ := framing.NewChip(framing.MainSensor(m.Kit), framing.Middle(m.Target), up).Pixel(m.Target.Star.Place)
	return p
}

// northern puts the mount at 50° north with a target of such a place.
func northern(k *kit.Kit, ra, dec sky.Angle) {
	k.Site.Place.Latitude, k.Site.Place.Longitude = 50*sky.Degree, 10*sky.Degree
	k.Targets = k.Targets[:1]
	k.Targets[0].Name, k.Targets[0].Star = "high", sky.Star{Place: sky.J2000{RA: ra, Dec: dec}}
}

// What is said of the next turn is what is said right after it, but for the seconds that pass.
func TestTheNextTurnIsSaidAsItComes(t *testing.T) {
	n := example(t, func(k *kit.Kit) {
		k.Camera.Axis = &kit.PixelOffset{Right: 180, Up: -240}
		k.Targets[0].Middle = kit.SkyOffset{East: 8 * sky.Arcminute, North: -5 * sky.Arcminute}
	})
	n.say(utc(11, 10), checklist.TurnOn{Angle: degrees(-16)})
	n.say(utc(11, 14), checklist.StartSubs{})
	long := n.at(utc(11, 20))
	before, ok := long.Recentring()
	require.True(t, ok)
	assert.False(t, before.Done)
	n.say(long.Call.At, checklist.StopSubs{})
	turned := long.Call.At.Add(time.Second)
	n.say(turned, checklist.Rewound{To: long.Next().To})
	after, ok := n.at(turned.Add(time.Minute)).Recentring()
	require.True(t, ok)
	assert.True(t, after.Done)
	// A minute of the stage's tracking lies between: 0.15° of 500 pixels are 1.3, and the axes' way follows the sky.
	assert.InDelta(t, before.Seen.X, after.Seen.X, 3)
	assert.InDelta(t, before.Seen.Y, after.Seen.Y, 3)
	assert.InDelta(t, before.Nudge.Azimuth.Arcminutes(), after.Nudge.Azimuth.Arcminutes(), 0.3)
	assert.InDelta(t, before.Nudge.Altitude.Arcminutes(), after.Nudge.Altitude.Arcminutes(), 0.3)
}
