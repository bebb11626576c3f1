package plan_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Two stars 60° apart with the target at their middle are the best by construction: the others stand on
// the far side of the sky, where any pair turns the target by its whole uncertainty.
func handmadePairs() (*handmade, sky.Direction) {
	h := newHandmade()
	h.add("Near", 1.0, 50, 225.5) // 45.5° and 46.5° of azimuth at 50° are 29° and 30° on the sky
	h.add("Nearly", 1.2, 50, 133.5)
	h.add("Far", 1.4, 40, 350)
	h.add("Farther", 1.6, 30, 25)
	h.add("Farthest", 1.8, 60, 60)
	return h, altaz(57, 180)
}

func names(p plan.Pair) [2]string { return [2]string{p.First.Star.Name(), p.Second.Star.Name()} }

func TestTheBestPairOfAHandmadeSky(t *testing.T) {
	h, aim := handmadePairs()
	s := h.sky()
	require.Len(t, s.Fit, 5, "%v", s.Unfit)
	pairs := s.Pairs(aim, 0)
	require.NotEmpty(t, pairs)
	best := pairs[0]
	assert.Equal(t, [2]string{"Nearly", "Near"}, names(best), "the second is the nearer to the target")
	assert.Less(t, best.ToSecond, best.ToFirst)
	assert.True(t, best.SecondFocuses)
	// At the middle of two stars s apart the error is √(1/(1 + cos s) + ½) by the eigenvalues of P; the
	// tenth of a refraction of 0.8′ adds 0.3 %.
	apart := best.Separation
	want := math.Sqrt(1/(1+apart.Cos()) + 0.5)
	assert.InEpsilon(t, want, best.PerArcminute, 0.01)
	assert.InEpsilon(t, best.PerArcminute, best.Pointing.Arcminutes(), 1e-12, "the example's stars are centred to 1′")
	assert.True(t, best.Beside.Itself)
	last := pairs[len(pairs)-1]
	assert.Greater(t, last.PerArcminute, best.PerArcminute)
	assert.Positive(t, last.Beside.Pointing)
}

func TestOfTwoTheOneThatFocusesIsSecond(t *testing.T) {
	h, aim := handmadePairs()
	h.stars[0].Magnitude.Value = -1 // too bright for the mask
	best := h.sky().Pairs(aim, 1)[0]
	assert.Equal(t, [2]string{"Near", "Nearly"}, names(best), "although the other is nearer")
	assert.True(t, best.SecondFocuses)
}

func TestPairsStandInTheSeparationWindow(t *testing.T) {
	h, aim := handmadePairs()
	all := len(h.sky().Pairs(aim, 0))
	h.kit.Stars.Nearest, h.kit.Stars.Farthest = 65*sky.Degree, 80*sky.Degree
	pairs := h.sky().Pairs(aim, 0)
	require.NotEmpty(t, pairs)
	require.Less(t, len(pairs), all)
	for _, p := range pairs {
		assert.True(t, p.Separation >= 65*sky.Degree && p.Separation <= 80*sky.Degree, "%v", p.Separation)
	}
	assert.Len(t, h.sky().Pairs(aim, 2), 2)
}

func TestPairsThatLeaveSoonSayWhen(t *testing.T) {
	h, aim := handmadePairs()
	h.kit.Stars.Lowest = h.sky().Fit[1].AboutAxis - 10*sky.Degree
	for _, p := range h.sky().Pairs(aim, 0) {
		leaves := p.Leaves()
		if !leaves.OK {
			continue
		}
		for _, c := range []*plan.Candidate{p.First, p.Second} {
			assert.False(t, c.Leaves.OK && c.Leaves.At.Before(leaves.At), "the first of the two to leave counts")
		}
	}
}

// anySky is the catalogue over any site at any instant of any night.
func anySky(t *rapid.T) (*plan.StarSky, sky.Direction) {
	course := anyCourse(t)
	k := course.Kit
	k.Stars.FaintestMag = rapid.Float64Range(1, 3.2).Draw(t, "faintest")
	k.Stars.StayFine = time.Duration(rapid.IntRange(0, 60).Draw(t, "stay fine")) * time.Minute
	k.Stars.Centring = sky.Angle(rapid.Float64Range(0.1, 20).Draw(t, "centring")) * sky.Arcminute
	k.Axis = course.Axis
	date := plan.DateOf(k.Site.Place, course.Span.From.Add(time.Hour))
	night := plan.NewNight(k, date)
	at := night.Span.From.Add(time.Duration(rapid.Int64Range(int64(5*time.Hour), int64(19*time.Hour)).Draw(t, "at")))
	return night.Stars(course.Axis, at), anyDirection(t, "aim")
}

// The ranking against a slow one: every two fit stars, their covariance from the public function; no pair of
// stars with names after one without, and none before one that is better by more than the 5 % within which
// errors count as equal.
func TestRankingAgreesWithBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, aim := anySky(t)
		pairs := s.Pairs(aim, 0)
		count := 0
		best := math.Inf(1)
		for i, a := range s.Fit {
			for _, b := range s.Fit[i+1:] {
				apart := a.Direction.Separation(b.Direction)
				if apart < s.Kit.Stars.Nearest || apart > s.Kit.Stars.Farthest {
					continue
				}
				count++
				p, err := plan.AttitudeCovariance(plan.Centring{Direction: a.Direction, Error: a.Centring}, plan.Centring{Direction: b.Direction, Error: b.Centring})
				require.NoError(t, err)
				best = math.Min(best, float64(p.Pointing(aim)/s.Kit.Stars.Centring))
			}
		}
		require.Len(t, pairs, count)
		if count == 0 {
			return
		}
		least := math.Inf(1)
		for _, p := range pairs {
			least = math.Min(least, p.PerArcminute)
		}
		require.InEpsilon(t, best, least, 1e-9, "the errors are those of the covariance")
		for i, p := range pairs {
			for _, later := range pairs[i+1:] {
				require.LessOrEqual(t, unnamed(p), unnamed(later))
				require.True(t, unnamed(p) < unnamed(later) || p.PerArcminute <= 1.05*later.PerArcminute*(1+1e-12),
					"%v before %v", p.PerArcminute, later.PerArcminute)
			}
		}
		leading := math.Inf(1)
		for _, p := range pairs {
			if unnamed(p) == unnamed(pairs[0]) {
				leading = math.Min(leading, p.PerArcminute)
			}
		}
		for _, p := range pairs {
			if unnamed(p) == unnamed(pairs[0]) && p.PerArcminute <= 1.05*leading && len(s.Kit.Horizon.Points()) == 0 {
				require.LessOrEqual(t, fainter(pairs[0]), fainter(p), "of pairs that are alike the brighter one leads")
			}
		}
		top := s.Pairs(aim, 3)
		require.Equal(t, pairs[0].Pointing, top[0].Pointing, "a short list begins as the long one")
	})
}

func unnamed(p plan.Pair) (n int) {
	for _, c := range []*plan.Candidate{p.First, p.Second} {
		if !c.Star.HasName() {
			n++
		}
	}
	return n
}

func fainter(p plan.Pair) float64 {
	return math.Max(p.First.Star.Magnitude.Value, p.Second.Star.Magnitude.Value)
}

// Errors scale with the centring error when refraction's share is out of the way, so the order and the
// ratios stay.
func TestTheOrderDoesNotDependOnTheCentringError(t *testing.T) {
	h, aim := handmadePairs()
	h.kit.Stars.Centring = 100 * sky.Arcminute
	coarse := h.sky().Pairs(aim, 0)
	h.kit.Stars.Centring = 50 * sky.Arcminute
	fine := h.sky().Pairs(aim, 0)
	require.Len(t, fine, len(coarse))
	for i := range coarse {
		assert.Equal(t, names(coarse[i]), names(fine[i]))
		assert.InEpsilon(t, coarse[i].PerArcminute, fine[i].PerArcminute, 1e-4) // a refraction of 0.2′ against 50′
		assert.InEpsilon(t, 2*fine[i].Pointing.Arcminutes(), coarse[i].Pointing.Arcminutes(), 1e-4)
	}
}

// Dusk in each season at southern, northern and equatorial sites: a pair within twice the centring error,
// from the end of nautical twilight on, by when stars to 2.5 show.
func TestDuskOfEverySeasonHasAPair(t *testing.T) {
	for name, site := range map[string]sky.Site{
		"southern":   {Latitude: -31.95 * sky.Degree, Longitude: 141.5 * sky.Degree},
		"northern":   {Latitude: 47 * sky.Degree, Longitude: 8 * sky.Degree},
		"equatorial": {Latitude: 0, Longitude: -78 * sky.Degree},
		"far south":  {Latitude: -45 * sky.Degree, Longitude: 170 * sky.Degree},
		"far north":  {Latitude: 60 * sky.Degree, Longitude: 25 * sky.Degree},
	} {
		for month := time.January; month <= time.December; month++ {
			k := exampleKit()
			k.Site.Place = site
			night := plan.NewNight(k, plan.Date{Year: 2026, Month: month, Day: 15})
			dusks := map[string]sky.Event{"civil": night.Twilight.CivilDusk, "nautical": night.Twilight.NauticalDusk}
			for when, dusk := range dusks {
				at := dusk.At
				if !dusk.OK {
					at = night.Span.From.Add(12 * time.Hour) // midsummer in the north: the middle of the night
				}
				s := night.Stars(k.Axis, at)
				pairs := s.Pairs(altaz(50, 180), 1)
				why, none := s.WhyNoPair()
				require.Equal(t, len(pairs) == 0, none, "%s, %v, %s", name, month, when)
				if when == "nautical" && dusk.OK {
					require.NotEmpty(t, pairs, "%s, %v: %+v", name, month, why)
					assert.Less(t, pairs[0].PerArcminute, 2.0, "%s, %v", name, month)
				}
				if none {
					assert.True(t, why.Later != nil || len(why.Easier) > 0, "%s, %v, %s: %+v", name, month, when, why)
				}
			}
		}
	}
}

func TestAimIsWhereTheTargetIsFirstUsed(t *testing.T) {
	course, runs := runsOf(exampleKit(), exampleDate, 0)
	window := runs.Windows[0]
	d, at := course.Aim(window.From.Add(-time.Hour))
	assert.Equal(t, window.From, at, "before its window: at its start")
	assert.Less(t, d.Separation(course.Place(window.From).Direction()).Arcseconds(), 0.01)
	inside := window.From.Add(time.Hour)
	_, at = course.Aim(inside)
	assert.Equal(t, inside, at, "within it: now")
	after := window.To.Add(time.Hour)
	_, at = course.Aim(after)
	assert.Equal(t, after, at, "after the last: now, for want of a better")
}

func benchmarkRanking(b *testing.B, faintest float64) {
	k := exampleKit()
	k.Stars.FaintestMag = faintest
	night := plan.NewNight(k, exampleDate)
	at := night.Twilight.AstronomicalDusk.At.Add(3 * time.Hour)
	aim, _ := night.Course(k.Targets[0], k.Axis).Aim(at)
	night.Stars(k.Axis, at) // the catalogue is read, and its neighbours found, once a night
	b.ReportAllocs()
	for b.Loop() {
		night.Stars(k.Axis, at).Pairs(aim, 50)
	}
}

// 5 ms for one instant.
func BenchmarkRankingStarsToMagnitude2_5(b *testing.B) { benchmarkRanking(b, 2.5) }

// 100 ms for one instant.
func BenchmarkRankingStarsToMagnitude4(b *testing.B) { benchmarkRanking(b, 4) }

// The neighbours of the stars that are fit, found for the first time.
func BenchmarkRankingUncachedToMagnitude2_5(b *testing.B) {
	k := exampleKit()
	night := plan.NewNight(k, exampleDate)
	at := night.Twilight.AstronomicalDusk.At.Add(3 * time.Hour)
	h := handmade{kit: k, frame: night.Frame, axis: kit.Axis{}, at: at, stars: brightStars(2.5)}
	for b.Loop() {
		h.sky().Pairs(altaz(50, 180), 50)
	}
}
