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
	"duskhand/ui/say"
)

// A light says how far the telescope looks off, and which way to press, with nothing typed.
func TestALightSaysHowFarOffAndWhichWay(t *testing.T) {
	n := exposing(t)
	r := n.at(dusk.Add(10 * time.Minute))
	assert.Empty(t, say.Placed(r))
	light := placed(r, 0, dusk.Add(6*time.Minute), 50*sky.Degree)
	middle := framing.Middle(r.Target)
	light.Placed.DecDeg = middle.Dec.Degrees() - 0.2
	n.log.Arrived = append(n.log.Arrived, light)
	r = n.at(dusk.Add(10 * time.Minute))
	assert.Regexp(t, `^By the stars of \d\d:\d\d it looks 12\.0′ off, camera angle 50\.00°; nudge .+\.$`, say.Placed(r))
}

// Before the first run a light at a star says which it is, and that another was meant.
func TestALightAtAStarSaysWhichItIs(t *testing.T) {
	n := &night{t: t, kit: kit.Example()}
	now := dusk.Add(-20 * time.Minute)
	r := n.at(now)
	stars := r.Tonight.StarsAt(now)
	require.NotEmpty(t, stars.Pairs)
	first, second := stars.Pairs[0].First.Star, stars.Pairs[0].Second.Star
	look := func(place sky.J2000) string {
		light := placed(r, 0, now, 0)
		light.Placed.Near, light.Placed.RADeg, light.Placed.DecDeg = "a star", place.RA.Degrees(), place.Dec.Degrees()+0.1
		n.log.Arrived = []checklist.Arrived{light}
		shown, ok := n.at(now).StarShown(stars)
		if !ok {
			return ""
		}
		return say.StarShown(shown)
	}
	assert.Equal(t, "The light shows "+first.Name()+", 6.0′ off the middle: it is the star that is meant", look(first.Star.Place))
	assert.Equal(t, "The light shows "+second.Name()+", 6.0′ off the middle, and not "+first.Name()+": go to that one, or choose another pair", look(second.Star.Place))
	assert.Empty(t, look(sky.J2000{RA: 200 * sky.Degree, Dec: 70 * sky.Degree}))
}

// The first light after a go-to says where that ended, in the mount's own axes, once; later lights do not.
func TestTheFirstLightAfterAGotoSaysWhereItEnded(t *testing.T) {
	n := &night{t: t, kit: kit.Example()}
	target := n.kit.Targets[0]
	chosen := dusk.Add(-30 * time.Minute)
	r := n.at(chosen, checklist.ChooseTarget{Target: checklist.Target{Name: target.Name, Star: target.Star}})
	_, ok := r.Landing()
	assert.False(t, ok, "no light yet")

	shot := func(i int, start time.Time, north sky.Angle) {
		light := placed(r, i, start, 50*sky.Degree)
		light.Placed.DecDeg += north.Degrees()
		n.log.Arrived = append(n.log.Arrived, light)
	}
	shot(0, chosen.Add(-time.Minute), 30*sky.Arcminute) // of the go-to before
	shot(1, chosen.Add(4*time.Minute), 12*sky.Arcminute)
	shot(2, chosen.Add(9*time.Minute), 0)
	now := chosen.Add(10 * time.Minute)
	landed, ok := n.at(now).Landing()
	require.True(t, ok)
	assert.Equal(t, target.Name, landed.Target)
	assert.Equal(t, "/subs/P_1.fits", landed.Light)
	assert.InDelta(t, 12, landed.Off.Arcminutes(), 1e-6)

	// The two turns, laid off from where it was sent, end where it looked: the axes' own trigonometry.
	at := chosen.Add(4*time.Minute + time.Duration(*n.log.Arrived[1].ExposureS/2*float64(time.Second)))
	up := sky.MountAxis(r.Axis.Tilt, r.Axis.Toward)
	stands := func(p sky.J2000) sky.Direction {
		return r.Night.Frame.Direction(r.Night.Frame.Fix(sky.Star{Place: p}), at)
	}
	middle := framing.Middle(r.Target)
	sent, looked := stands(middle), stands(sky.J2000{RA: middle.RA, Dec: middle.Dec + 12*sky.Arcminute})
	assert.InDelta(t, (up.Separation(sent) - up.Separation(looked)).Arcminutes(), landed.Altitude.Arcminutes(), 1e-6)
	across := landed.Azimuth.Abs().Arcminutes() * math.Sin(up.Separation(sent).Radians())
	assert.InDelta(t, 12, math.Hypot(across, landed.Altitude.Arcminutes()), 0.1)

	nudged := chosen.Add(2 * time.Minute)
	n.log.Recentred = &nudged
	_, ok = n.at(now).Landing()
	assert.False(t, ok, "brought back before the first light, which shows the nudge")
	nudged = chosen.Add(7 * time.Minute)
	_, ok = n.at(now).Landing()
	assert.True(t, ok, "brought back after it")

	r = n.at(now, landed)
	_, ok = r.Landing()
	assert.False(t, ok, "it is noted")
	assert.Regexp(t, `^The go-to ended 12\.0′ off, azimuth \d+\.\d′ (left|right), altitude \d+\.\d′ (up|down): by the first light since, P_1\.fits\.$`, say.Landed(r))
}
