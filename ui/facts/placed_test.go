package facts_test

import (
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
