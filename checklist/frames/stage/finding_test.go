package stage_test

import (
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/frames/stage"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

var from = time.Date(2026, 12, 5, 13, 0, 0, 0, time.UTC)

func courseOf(axis kit.Axis) *plan.Course {
	k := kit.Example()
	return plan.NewNight(k, plan.Date{Year: 2026, Month: time.December, Day: 5}).Course(k.Targets[0], axis)
}

// lights are of one run, three minutes apart, placed to 0.005°; turned is what the camera did.
func lights(seed uint64, n int, turned func(i int, at time.Time) sky.Angle) []stage.Seen {
	r := rand.New(rand.NewPCG(seed, 4))
	const sigma = 0.005 * sky.Degree
	var seen []stage.Seen
	for i := range n {
		at := from.Add(time.Duration(i) * 200 * time.Second)
		angle := 123*sky.Degree + turned(i, at) + sigma*sky.Angle(r.NormFloat64())
		seen = append(seen, stage.Seen{At: at, Camera: angle.Wrapped(), Error: sigma})
	}
	return seen
}

func TestWhatTheStageDoesIsSeenInTheLights(t *testing.T) {
	course := courseOf(kit.Example().Axis)
	grown := func(share float64, since int) func(int, time.Time) sky.Angle {
		begins := from.Add(time.Duration(since) * 200 * time.Second)
		return func(i int, at time.Time) sky.Angle {
			if i < since {
				return 0
			}
			return sky.Angle(share) * (course.FieldAngle(at) - course.FieldAngle(begins))
		}
	}
	slip := func(by sky.Angle, at int) func(int, time.Time) sky.Angle {
		return func(i int, _ time.Time) sky.Angle {
			if i < at {
				return 0
			}
			return by
		}
	}
	other := courseOf(kit.Axis{Tilt: 3 * sky.Degree, Toward: 90 * sky.Degree})
	for name, c := range map[string]struct {
		n      int
		turned func(int, time.Time) sky.Angle
		kind   stage.Kind
		after  int
		by     sky.Angle // 0: not looked at
	}{
		"it follows":                      {12, slip(0, 0), stage.Holds, 0, 0},
		"it slips by 0.3°, two lights on": {8, slip(0.3*sky.Degree, 6), stage.Slipped, 2, 0.3 * sky.Degree},
		"it slips back by 2°":             {7, slip(-2*sky.Degree, 6), stage.Slipped, 1, -2 * sky.Degree},
		"it sticks, three lights on":      {9, grown(1, 5), stage.Sticks, 4, 0},
		"it turns the wrong way":          {9, grown(2, 5), stage.Backwards, 4, 0},
		"it has stood since the first":    {6, grown(1, 0), stage.Sticks, 5, 0},
		"the axis is 3° off": {20, func(_ int, at time.Time) sky.Angle {
			return other.FieldAngle(at) - course.FieldAngle(at) - (other.FieldAngle(from) - course.FieldAngle(from))
		}, stage.Creeps, 0, 0},
		"one light":                          {1, slip(0, 0), stage.TooFew, 0, 0},
		"it slips, and later sticks":         {14, both(slip(1*sky.Degree, 4), grown(1, 9)), stage.Sticks, 0, 0},
		"a slip long ago, and follows since": {20, slip(1*sky.Degree, 4), stage.Slipped, 16, 1 * sky.Degree},
	} {
		t.Run(name, func(t *testing.T) {
			f := stage.Follow(lights(1, c.n, c.turned), course)
			assert.Equal(t, c.kind, f.Kind, "%+v", f)
			if c.after > 0 {
				assert.InDelta(t, c.after, f.After, 1)
			}
			if c.by != 0 {
				assert.InDelta(t, c.by.Degrees(), f.By.Degrees(), 0.015)
			}
		})
	}
}

// A stage that stands or turns backwards from the first light on is told with the third, and at each light after that,
// however fast they follow one another: that it turns evenly, at just that rate, is not called a creeping.
func TestATurningFromTheFirstLightOnKeepsItsName(t *testing.T) {
	course := courseOf(kit.Example().Axis)
	for share, kind := range map[sky.Angle]stage.Kind{1: stage.Sticks, 2: stage.Backwards} {
		for _, cadence := range []time.Duration{25 * time.Second, 2 * time.Minute, 10 * time.Minute} {
			for seed := range uint64(10) {
				r := rand.New(rand.NewPCG(seed, 7))
				var seen []stage.Seen
				for i := range 15 {
					at := from.Add(time.Duration(i) * cadence)
					angle := 50*sky.Degree + share*(course.FieldAngle(at)-course.FieldAngle(from)) + 0.001*sky.Degree*sky.Angle(r.NormFloat64())
					seen = append(seen, stage.Seen{At: at, Camera: angle.Wrapped(), Error: 0.001 * sky.Degree})
					if f := stage.Follow(seen, course); i >= 2 {
						require.Equal(t, kind, f.Kind, "cadence %v, seed %d, light %d: %+v", cadence, seed, i+1, f)
					}
				}
			}
		}
	}
}

func both(a, b func(int, time.Time) sky.Angle) func(int, time.Time) sky.Angle {
	return func(i int, at time.Time) sky.Angle { return a(i, at) + b(i, at) }
}

// Of 400 runs in which nothing happens none is said to slip, stick or turn back, at any light.
func TestNothingIsFoundWhereNothingHappens(t *testing.T) {
	course := courseOf(kit.Example().Axis)
	for seed := range uint64(20) {
		all := lights(seed, 20, func(int, time.Time) sky.Angle { return 0 })
		for n := 1; n <= len(all); n++ {
			f := stage.Follow(all[:n], course)
			require.Contains(t, []stage.Kind{stage.Holds, stage.TooFew}, f.Kind, "seed %d, light %d: %+v", seed, n, f)
		}
	}
}

// A slip is told with the first or second light after it, a stage that sticks with the second or third.
func TestHowSoonItIsTold(t *testing.T) {
	course := courseOf(kit.Example().Axis)
	begins := from.Add(6 * 200 * time.Second)
	for name, c := range map[string]struct {
		kind   stage.Kind
		within int
		turned func(int, time.Time) sky.Angle
	}{
		"slips": {stage.Slipped, 2, func(i int, _ time.Time) sky.Angle { return sky.Angle(min(1, max(0, i-6))) * 0.3 * sky.Degree }},
		"sticks": {stage.Sticks, 3, func(i int, at time.Time) sky.Angle {
			return course.FieldAngle(later(at, begins)) - course.FieldAngle(begins)
		}},
	} {
		t.Run(name, func(t *testing.T) {
			for seed := range uint64(10) {
				all := lights(seed, 12, c.turned)
				told := 0
				for n := 7; n <= len(all) && told == 0; n++ {
					if f := stage.Follow(all[:n], course); f.Kind == c.kind {
						told = n - 7
					}
				}
				assert.Positive(t, told)
				assert.LessOrEqual(t, told, c.within, "seed %d", seed)
			}
		})
	}
}

func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}
