package facts_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/ui/facts"
)

// tenEast is the framing of the night's target with the middle of the chip 10′ east of it.
func tenEast(r facts.Run) facts.Frame {
	f := r.Tonight.FramingOf()
	f.Middle = kit.SkyOffset{East: 10 * sky.Arcminute}
	return r.FrameAt(f)
}

// The wanted middle is an offset on the sky: how the chip is turned has no part in the way there, whether the
// derotator is on or off, and wherever it stands.
func TestNudgeFromTheMiddleIsTheSameForEveryReading(t *testing.T) {
	at := dusk.Add(40 * time.Minute)
	stands := map[string][]checklist.Action{"off, never said": nil}
	for name, reading := range map[string]float64{"at its lower end": -16, "in the middle": 0, "at 9°": 9, "at its upper end": 16} {
		stands["on "+name] = []checklist.Action{checklist.TurnOn{Angle: degrees(reading)}}
		stands["off "+name] = []checklist.Action{checklist.TurnOn{Angle: degrees(reading)}, checklist.TurnOff{Angle: degrees(reading)}}
	}
	for name, actions := range stands {
		t.Run(name, func(t *testing.T) {
			n := &night{t: t, kit: kit.Example()}
			r := n.at(at, actions...)
			nudge, ok := tenEast(r).NudgeAt(r, framing.Pixel{})
			require.True(t, ok)
			// The mount's altitude is 90° less the distance from its axis, here of the object and of the place
			// 10′ east of it, where the chip shall look. The way on the sky is told as two legs, which are short of
			// it by what 10′ squared is worth.
			east := framing.Middle(kit.Target{Star: r.Target.Star, Middle: kit.SkyOffset{East: 10 * sky.Arcminute}})
			place := r.Night.Frame.Direction(r.Night.Frame.Fix(sky.Star{Place: east}), at)
			axis := sky.MountAxis(r.Axis.Tilt, r.Axis.Toward)
			assert.InDelta(t, (r.Place.Direction().Separation(axis) - place.Separation(axis)).Arcminutes(), nudge.Altitude.Arcminutes(), 0.003)
			assert.InDelta(t, 10, math.Hypot(nudge.Altitude.Arcminutes(), nudge.AzimuthOnSky.Arcminutes()), 0.02)
			assert.Equal(t, eastIsRight(axis, r.Place.Direction(), place), nudge.Azimuth > 0)
		})
	}
}

// eastIsRight tells whether a place lies to the right of the object for who looks along the telescope with the
// mount's up on top.
func eastIsRight(axis, object, place sky.Direction) bool { return object.Cross(axis).Dot(place) > 0 }

// A place in the picture lies on the sky as the chip is turned: where nobody knows that, nothing is said.
func TestNudgeFromAPixelNeedsTheReading(t *testing.T) {
	seen := framing.Pixel{X: 200, Y: -100}
	n := &night{t: t, kit: kit.Example()}
	r := n.at(dusk.Add(40 * time.Minute))
	_, ok := tenEast(r).NudgeAt(r, seen)
	assert.False(t, ok)
	nudges := map[float64]framing.Nudge{}
	for _, reading := range []float64{-16, 16} {
		n := &night{t: t, kit: kit.Example()}
		off := n.at(dusk.Add(40*time.Minute), checklist.TurnOn{Angle: degrees(reading)}, checklist.TurnOff{Angle: degrees(reading)})
		nudges[reading], ok = tenEast(off).NudgeAt(off, seen)
		require.True(t, ok)
		n = &night{t: t, kit: kit.Example()}
		on := n.at(dusk.Add(40*time.Minute), checklist.TurnOn{Angle: degrees(reading)})
		tracking, ok := tenEast(on).NudgeAt(on, seen)
		require.True(t, ok)
		assert.InDelta(t, tracking.Altitude.Arcminutes(), nudges[reading].Altitude.Arcminutes(), 1e-6, "on or off, it stands the same")
	}
	assert.Greater(t, (nudges[-16].Altitude - nudges[16].Altitude).Abs().Arcminutes(), 0.5, "32° of a pixel's way")
}
