package say_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/catalog"
	"duskhand/ui/say"
)

const degree = sky.Degree

func candidate(name string) *plan.Candidate {
	return &plan.Candidate{Star: catalog.Object{ID: name, Names: []string{name}}, Place: sky.Horizontal{Altitude: 45 * degree}}
}

func TestWhyAStarWillNotDo(t *testing.T) {
	window := plan.AltitudeLimits{Lowest: 20 * degree, Highest: 75 * degree}
	for want, r := range map[string]plan.Rejected{
		"is below the horizon": {Unfit: plan.Down},
		"is too low, 15° up about the mount's axis, 20° wanted":      {Unfit: plan.TooLow, Candidate: plan.Candidate{AboutAxis: 15 * degree}},
		"is too near the mount's axis, 80° up about it, 75° at most": {Unfit: plan.TooHigh, Candidate: plan.Candidate{AboutAxis: 80 * degree}},
		"is behind the gum trees":                                    {Unfit: plan.Obstructed, Obstruction: "gum trees"},
		"is behind the skyline":                                      {Unfit: plan.Obstructed},
		"sinks under 20° in 14 min":                                  {Unfit: plan.TooLow, In: 14*time.Minute + 50*time.Second},
		"climbs past 75° in 9 min":                                   {Unfit: plan.TooHigh, In: 9 * time.Minute},
		"goes behind the gum trees in less than a minute":            {Unfit: plan.Obstructed, Obstruction: "the gum trees", In: 50 * time.Second},
		"is drowned by the Moon, 8° away":                            {Unfit: plan.NearMoon, Apart: 8 * degree},
		"could be taken for Alnitak, 1.4° away":                      {Unfit: plan.Confusable, Alike: "Alnitak", Apart: 1.36 * degree},
		"could be taken for Alcor, 12′ away":                         {Unfit: plan.Confusable, Alike: "Alcor", Apart: 0.197 * degree},
		"is 12° from the Sun, which is up: never point there":        {Unfit: plan.NearSun, Apart: 12 * degree},
		"does not show while the Sun is up":                          {Unfit: plan.TooFaint, Sun: 5 * degree},
		"is too faint while the Sun is only 6° down":                 {Unfit: plan.TooFaint, Sun: -6 * degree},
		"is not among the stars that your mount knows (stars.known)": {Unfit: plan.NotKnown},
	} {
		r.Limits = window
		assert.Equal(t, want, say.Unfit(r))
	}
	focus := plan.Rejected{Unfit: plan.TooLow, In: 5 * time.Minute, Limits: plan.AltitudeLimits{LeastTrue: 35 * degree}}
	assert.Equal(t, "sinks under 35° in 5 min", say.Unfit(focus))
}

// The example's evening, an hour after dusk.
func evening(t *testing.T) (*plan.StarSky, sky.Direction) {
	k := kit.Example()
	night := plan.NewNight(k, plan.Date{Year: 2026, Month: time.December, Day: 5})
	require.True(t, night.Twilight.AstronomicalDusk.OK)
	s := night.Stars(k.Axis, night.Twilight.AstronomicalDusk.At.Add(time.Hour))
	return s, sky.Horizontal{Altitude: 45 * degree, Azimuth: 150 * degree}.Direction()
}

func TestWhyAPairStandsWhereItDoes(t *testing.T) {
	s, aim := evening(t)
	pairs := s.Pairs(aim, 0)
	require.Greater(t, len(pairs), 10)
	assert.Equal(t, "The target between them, but only 39° apart, so that the turn about the target is unsure.", say.Pair(s, pairs[0]))
	assert.NotContains(t, say.Pair(s, pairs[0]), "the best pair")
	assert.Regexp(t, `; \d+ % more error at the target than the best pair\.$`, say.Pair(s, pairs[len(pairs)-1]))
	for beside, want := range map[plan.Beside]string{
		{Pointing: 7}:              "7 % more error at the target than the best pair.",
		{Pointing: -9, Less: true}: "9 % less error at the target than the best pair, with a star that few know by name.",
		{Roll: 4}:                  "4 % more turn about the target than the best pair.",
		{}:                         "; as good as the best pair.",
	} {
		p := pairs[0]
		p.Beside = beside
		assert.Contains(t, say.Pair(s, p), want)
	}
	far := plan.Pair{First: candidate("Aye"), Second: candidate("Bee"), Separation: 40 * degree, ToFirst: 80 * degree, ToSecond: 90 * degree, PerArcminute: 2}
	far.Leaving = far.First
	far.First.Place.Altitude = 22 * degree
	assert.Equal(t, "Only 40° apart, so that the turn about the target is unsure, both far from the target, 80° and 90°, Aye is low, where the air bends most; as good as the best pair.",
		say.Pair(s, far))
}

func TestTheThirdStarSaysWhereItShouldStand(t *testing.T) {
	pair := plan.Pair{First: candidate("Far"), Second: candidate("Near")}
	check := plan.Check{Star: candidate("Third"), Expected: 1.2 * sky.Arcminute, Second: plan.Mistake{Taken: "Impostor", Off: 3.14 * degree, OK: true}}
	assert.Equal(t, "Third should stand within 2.4′ of the middle; with Impostor taken for Near it would be 3.1° off.", say.CheckStar(check, pair))
	check.Second.OK = false
	assert.Equal(t, "Third should stand within 2.4′ of the middle; no other bright star is near enough to be taken for either of the two.", say.CheckStar(check, pair))
}

func TestWhatAFocusStarIsSaidToBe(t *testing.T) {
	s, _ := evening(t)
	f := plan.Focus{Candidate: *candidate("Star"), ToTarget: 6 * degree}
	assert.Equal(t, "6° from the target, 45° up.", say.FocusStar(s, f))
	f.Leaves = plan.Leaving{Event: sky.Event{At: s.At.Add(40 * time.Minute), OK: true}, By: plan.TooHigh}
	assert.Equal(t, "6° from the target, 45° up; it climbs past 75° in 40 min.", say.FocusStar(s, f))
	f.SecondOfPair = true
	assert.Equal(t, "The second alignment star, so you are on it already; 6° from the target.", say.FocusStar(s, f))
	none := plan.NoFocus{Why: plan.NoneStands, Faintest: 3.5, Lowest: 35 * degree, Highest: 75 * degree, Shown: 1.2}
	assert.Equal(t, "No star of magnitude 0.0 to 3.5 stands 35° to 75° up, clear, and stays so for 20 min; take one that is lower, or wait.", say.NoFocus(s, none))
	for why, want := range map[plan.NoFocusWhy]string{plan.SunIsUp: "wait for dusk", plan.NoneForBoth: "choose a star for each", plan.SkyBright: "stars to magnitude 1.2 show"} {
		none.Why = why
		assert.Contains(t, say.NoFocus(s, none), want)
	}
	assert.Empty(t, say.NoFocus(s, plan.NoFocus{}))
}

func TestWhyThereIsNoPairAndWhatHelps(t *testing.T) {
	s, _ := evening(t)
	canopus, riser := candidate("Canopus of ours"), candidate("Riser")
	n := plan.NoPair{None: true, Fit: []*plan.Candidate{canopus}, Up: 1, Most: 1, By: plan.Obstructed,
		Later: &plan.LaterPair{At: s.At.Add(25 * time.Minute), First: canopus, Second: riser, Until: []plan.Rejected{{Candidate: *riser, Unfit: plan.Obstructed, Obstruction: "gum trees"}}},
		Easier: []plan.Easier{{Setting: plan.FainterStars, Magnitude: 3, First: canopus, Second: riser}, {Setting: plan.LowerStars, Angle: 15 * degree, First: canopus, Second: riser},
			{Setting: plan.NearerStars, Angle: 20 * degree, First: canopus, Second: riser}, {Setting: plan.NearerMoon, Angle: 4 * degree, First: canopus, Second: riser}}}
	assert.Equal(t, "Only Canopus of ours is fit now; the one other that is up is behind the skyline. "+
		"In 25 min Riser clears the gum trees: then Canopus of ours and Riser will do. "+
		"With stars to magnitude 3.0 (stars.faintest_mag), Canopus of ours and Riser would do now. "+
		"With stars down to 15° (stars.lowest_deg), Canopus of ours and Riser would do now. "+
		"With stars as near as 20° to each other (stars.nearest_deg), Canopus of ours and Riser would do now. "+
		"With stars as near as 4° to the Moon (stars.moon_glare_deg), Canopus of ours and Riser would do now.", say.NoPair(s, n))
	assert.Equal(t, "No star to magnitude 2.5 is fit now.", say.NoPair(s, plan.NoPair{None: true, By: plan.Down}))
	assert.Equal(t, "No star to magnitude 2.5 is fit now; of the others that are up 3 of 5 are too low.", say.NoPair(s, plan.NoPair{None: true, Up: 5, Most: 3, By: plan.TooLow}))
	assert.Contains(t, say.NoPair(s, plan.NoPair{None: true, SunUp: true}), ": the Sun is up.")
	assert.Empty(t, say.NoPair(s, plan.NoPair{}))
}

func TestSightsThatDoNotFitTogether(t *testing.T) {
	canopus, err := catalog.Find("Canopus")
	require.NoError(t, err)
	s := plan.Suspicion{Names: []string{"Sirius", "Achernar"}, Fit: plan.AxisFit{Misfit: 6.2 * degree}, Suspects: []plan.Suspect{{Taken: canopus}}}
	const wrong = "The sights do not fit together: the stars' separation is out by 6.2°."
	assert.Equal(t, wrong+" Perhaps Canopus was taken for Sirius, or a readout was mistyped: look at both numbers again, or sight a third star, which will tell.", say.Suspicion(s))
	s.Names, s.Clear = append(s.Names, "Rigel"), true
	assert.Equal(t, wrong+" Probably Canopus was taken for Sirius. Centre the right star, or name the one you took.", say.Suspicion(s))
	s.Clear, s.Suspects = false, append(s.Suspects, plan.Suspect{Sight: 0, Other: 2})
	assert.Equal(t, wrong+" Perhaps Canopus was taken for Sirius, or Sirius and Rigel were exchanged. A third star will tell.", say.Suspicion(s))
	s.Suspects, s.Sight = nil, 1
	assert.Equal(t, wrong+" Leave out Achernar and the others agree; centre that star again, it may have been a planet.", say.Suspicion(s))
	s.Sight, s.Fit = -1, plan.AxisFit{Misfit: 12 * sky.Arcminute, Axis: kit.Axis{Tilt: 21 * degree}}
	assert.Equal(t, "The sights fit only a mount that leans by 21°. No bright star explains it; check the readouts and the time, or sight a third star.", say.Suspicion(s))
	assert.Empty(t, say.Suspicion(plan.Suspicion{}))
}
