package plan_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/catalog"
)

func TestStarsWithANameComeBeforeThoseWithout(t *testing.T) {
	h, aim := handmadePairs() // Near and Nearly are the best by far
	for i := range h.stars {
		if h.stars[i].ID != "Nearly" {
			h.stars[i].Names = []string{"the " + h.stars[i].ID, h.stars[i].ID}
		}
	}
	pairs := h.sky().Pairs(aim, 0)
	assert.NotContains(t, names(pairs[0]), "Nearly", "few know it by that")
	for i, p := range pairs[1:] {
		assert.LessOrEqual(t, unnamed(pairs[i]), unnamed(p))
	}
	worst := pairs[len(pairs)-1]
	assert.Contains(t, names(worst), "Nearly")
	for _, p := range pairs {
		if names(p) == [2]string{"Nearly", "the Near"} {
			assert.True(t, p.Beside.Less, "less error at the target, and not the best")
		}
	}
}

func TestOfPairsThatAreAlikeTheBrighterOneLeads(t *testing.T) {
	h := newHandmade()
	h.add("Bright", 0.5, 50, 225)
	h.add("Other", 1.0, 50, 135)
	h.add("Faint", 2.3, 50, 229) // 2.6° from Bright: as good for the target, a shade better or worse
	aim := altaz(57, 180.5)
	pairs := h.sky().Pairs(aim, 0)
	require.NotEmpty(t, pairs)
	assert.ElementsMatch(t, []string{"Bright", "Other"}, []string{pairs[0].First.Star.Name(), pairs[0].Second.Star.Name()})
	require.Greater(t, len(pairs), 1)
	assert.InEpsilon(t, pairs[0].PerArcminute, pairs[1].PerArcminute, 0.05)

	h.kit.Horizon = kit.NewHorizon([]kit.HorizonPoint{{Azimuth: 0, Altitude: 5 * sky.Degree}, {Azimuth: 218 * sky.Degree, Altitude: 5 * sky.Degree},
		{Azimuth: 223 * sky.Degree, Altitude: 48.5 * sky.Degree, Name: "mast"}, {Azimuth: 224 * sky.Degree, Altitude: 10 * sky.Degree}})
	s := h.sky()
	require.Len(t, s.Fit, 3, "%v", s.Unfit)
	beside := s.Pairs(aim, 0)[0]
	assert.NotContains(t, names(beside), "Bright", "it stands beside the mast")
}

func TestPairsOfTheStarsThatTheMountKnows(t *testing.T) {
	k := exampleKit()
	for _, star := range []string{"alpha car", "Rigel", "ACHERNAR", "α PsA"} {
		found, err := catalog.Find(star)
		require.NoError(t, err)
		k.Stars.Known = append(k.Stars.Known, kit.KnownStar{Name: star, ID: found.ID})
	}
	night := plan.NewNight(k, exampleDate)
	s := night.Stars(k.Axis, night.Twilight.NauticalDusk.At)
	require.NotEmpty(t, s.Fit)
	for _, c := range s.Fit {
		assert.Contains(t, []string{"alpha car", "Rigel", "ACHERNAR", "α PsA"}, c.Star.Name(), "named as the person's list has it")
	}
	pairs := s.Pairs(altaz(39, 156), 0)
	require.NotEmpty(t, pairs)
	var strangers int
	for _, r := range s.Unfit {
		if r.Unfit == plan.NotKnown {
			strangers++
		}
	}
	assert.Greater(t, strangers, 5, "what else would do is named with the reason")
	_, ok := s.CheckStar(pairs[0])
	assert.Equal(t, len(s.Fit) > 2, ok)
}

// With two sights a mistyped readout and a wrong star look alike, so that none is ever clear.
func TestTwoSightsNeverNameAStarAsCertain(t *testing.T) {
	random := rand.New(rand.NewPCG(21, 0))
	candidates := catalog.Stars(candidatesTo)
	told := 0
	for _, d := range dusks() {
		for range 40 {
			stars := d.drawn(random, 2)
			sights := d.sighted(random, stars, stars)
			if slip := random.IntN(2); slip == 0 {
				sights[0].Readout.Azimuth += 10 * sky.Degree
			} else {
				sights[0].Readout.Altitude += 1 * sky.Degree
			}
			suspicion, wrong := plan.Misidentified(d.frame, sights, plan.Sighting{}, candidates)
			if !wrong {
				continue
			}
			require.False(t, suspicion.Clear)
			if len(suspicion.Suspects) > 0 {
				told++
				require.Len(t, suspicion.Names, 2)
			}
		}
	}
	assert.Greater(t, told, 50)
}

// A third sight decides: a readout that was mistyped is hardly ever told as a star that was taken for another (2 and 5 of
// 1,440 draws), and mostly the sight that is wrong is named.
func TestAThirdSightTellsAMistypedReadout(t *testing.T) {
	random := rand.New(rand.NewPCG(21, 0))
	candidates := catalog.Stars(candidatesTo)
	for name, slip := range map[string]sky.Horizontal{"azimuth": {Azimuth: 10 * sky.Degree}, "altitude": {Altitude: 1 * sky.Degree}} {
		drawn, probably, named := 0, 0, 0
		for _, d := range dusks() {
			for range 20 {
				stars := d.drawn(random, 3)
				sights := d.sighted(random, stars, stars)
				sights[0].Readout.Azimuth += slip.Azimuth
				sights[0].Readout.Altitude += slip.Altitude
				suspicion, wrong := plan.Misidentified(d.frame, sights, plan.Sighting{}, candidates)
				drawn++
				switch {
				case wrong && suspicion.Clear && len(suspicion.Suspects) > 0:
					probably++
				case wrong && suspicion.Sight == 0:
					named++
				}
			}
		}
		assert.Less(t, probably, drawn/50, name)
		assert.Greater(t, named, drawn/2, name)
	}
}
