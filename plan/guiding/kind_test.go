package guiding_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/guiding"
	"duskhand/plan/kit"
	"duskhand/sky"
)

func pose(stage, camera sky.Angle) guiding.Pose {
	return guiding.Pose{Stage: stage * sky.Degree, Camera: camera * sky.Degree, Altitude: 45 * sky.Degree}
}

func TestWhatAnAnswerRulesOut(t *testing.T) {
	const turned, axes, onSky = kit.TurnedCorrections, kit.AxesCorrections, kit.SkyCorrections
	for name, c := range map[string]struct {
		stage, camera sky.Angle
		yes           bool
		left          []kit.Corrections
	}{
		"it came back after a rewind by 120°":                   {120, 120, true, []kit.Corrections{turned}},
		"it went off after a rewind by 120°":                    {120, 120, false, []kit.Corrections{axes, onSky}},
		"it went off while only the stage has turned":           {120, 0, false, []kit.Corrections{axes}},
		"it came back while only the stage has turned":          {120, 0, true, []kit.Corrections{turned, onSky}},
		"60° tell nothing by a yes":                             {60, 60, true, []kit.Corrections{turned, axes, onSky}},
		"a stage turned by 350° stands 10° off":                 {350, 90, false, []kit.Corrections{onSky}},
		"the short way round counts for a yes too":              {350, 350, true, []kit.Corrections{turned, axes, onSky}},
		"a no that speaks against all is heard as a slip":       {0, 0, false, []kit.Corrections{turned, axes, onSky}},
		"a camera angle turned by 130° alone, and it came back": {0, 130, true, []kit.Corrections{turned, axes}},
	} {
		kinds, ok := guiding.Kinds([]guiding.Check{{Calibrated: pose(0, 0), Now: pose(c.stage, c.camera), Yes: c.yes}})
		assert.Equal(t, c.left, kinds, name)
		assert.Equal(t, c.stage != 0 || c.yes || c.camera != 0, ok, name)
	}
}

func TestAskingIsWorthItOnceTheKindsHaveParted(t *testing.T) {
	all := kit.AllCorrections()
	assert.False(t, guiding.Parted(all, pose(0, 0), pose(50, 50)))
	assert.True(t, guiding.Parted(all, pose(0, 0), pose(120, 120)))
	assert.False(t, guiding.Parted([]kit.Corrections{kit.AxesCorrections, kit.SkyCorrections}, pose(0, 0), pose(120, 120)),
		"both answers leave both: the stage turned the camera")
	assert.True(t, guiding.Parted([]kit.Corrections{kit.AxesCorrections, kit.SkyCorrections}, pose(0, 0), pose(0, 120)))
}

func TestTheWorstOfWhatItMayBe(t *testing.T) {
	verdict, of, aged := guiding.Worst(kit.AllCorrections(), pose(0, 0), pose(100, 20), 0.5)
	assert.Equal(t, guiding.Diverges, verdict)
	assert.Equal(t, kit.AxesCorrections, of)
	assert.InDelta(t, 100, aged.Angle.Degrees(), 1e-9)
	verdict, of, _ = guiding.Worst([]kit.Corrections{kit.TurnedCorrections, kit.SkyCorrections}, pose(0, 0), pose(100, 30), 0.5)
	assert.Equal(t, guiding.Again, verdict)
	assert.Equal(t, kit.SkyCorrections, of)
	verdict, _, aged = guiding.Worst([]kit.Corrections{kit.TurnedCorrections}, pose(0, 0), pose(100, 30), 0.5)
	assert.Equal(t, guiding.Holds, verdict)
	assert.Equal(t, guiding.Fresh(), aged)
}

// Nights with a mount of one kind, whose corrections the person watches after rewinds, hand-overs and late in
// runs. A star that is seen to move square to the way back may be called either way.
func TestNoNightSettlesOnTheWrongKind(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	settled, wrong := 0, 0
	for range 10_000 {
		kind := kit.AllCorrections()[rng.IntN(3)]
		checks := watchedNight(rng, kind)
		kinds, ok := guiding.Kinds(checks)
		require.True(t, ok, "honest answers never contradict each other: %v", checks)
		require.Contains(t, kinds, kind)
		if len(kinds) == 1 {
			settled++
			if kinds[0] != kind {
				wrong++
			}
		}
	}
	assert.Zero(t, wrong)
	assert.Greater(t, settled, 3000, "it would be right to say nothing, and useless")
}

func watchedNight(rng *rand.Rand, kind kit.Corrections) (checks []guiding.Check) {
	then := mount{kind, anyPose(rng)}
	for range 2 + rng.IntN(6) {
		if rng.IntN(4) == 0 {
			then = mount{kind, anyPose(rng)} // calibrated again
		}
		now := mount{kind, anyPose(rng)}
		if rng.IntN(2) == 0 {
			now.pose = near(rng, then.pose)
		}
		const noise = 2 * math.Pi / 180 // of the direction in which the star is seen to move
		off := 1 + 4*rng.Float64()
		star := turned(sky.Angle(2*math.Pi*rng.Float64())) * complex(off, 0)
		moved := now.pulse(then.calibrate(rng, 0).command(-star)) * turned(sky.Angle(noise*rng.NormFloat64()))
		back := real(moved)*real(-star) + imag(moved)*imag(-star)
		checks = append(checks, guiding.Check{Calibrated: then.pose, Now: now.pose, Yes: back > 0})
	}
	return checks
}
