package choose_test

import (
	"context"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/choose"
	"duskhand/plan/exposure"
	"duskhand/plan/kit"
	"duskhand/plan/light"
	"duskhand/plan/scan"
	"duskhand/sky"
	"duskhand/sky/catalog"
	"duskhand/sky/words"
)

var moonlitDate = plan.Date{Year: 2026, Month: time.December, Day: 15} // the Moon three days before first quarter

// endless is the example's kit with more subs wanted than a night gives.
func endless() kit.Kit {
	k := kit.Example()
	k.Subs.Loop, k.Subs.WorthARewind = 0, 0 // the scan weighs no rewind
	for i := range k.Subs.Filters {
		k.Subs.Filters[i].Count *= 100
	}
	return k
}

func named(t *testing.T, names ...string) (targets []kit.Target) {
	t.Helper()
	for _, name := range names {
		o, err := catalog.Find(name)
		require.NoError(t, err)
		targets = append(targets, kit.Target{Name: o.ID, Star: o.Star, Object: o})
	}
	return targets
}

func rank(t *testing.T, k kit.Kit, date plan.Date, targets []kit.Target, wish choose.Wish) []choose.Choice {
	t.Helper()
	night := choose.NewNight(plan.NewNight(k, date), k.Axis, nil)
	ranked, err := night.Rank(context.Background(), targets, wish, nil)
	require.NoError(t, err)
	return ranked
}

// slow is the slow obvious version: a look at target and Moon every twenty seconds of the dark.
type slow struct {
	up, keyhole, moonUp time.Duration
	highest, nearest    sky.Angle
	rate                float64 // °/h
	height, dark        float64 // mean worth
}

const tick = 20 * time.Second

func lookSlowly(n *plan.Night, target kit.Target) (s slow) {
	k := n.Kit
	axis, pole, fixed := sky.MountAxis(k.Axis.Tilt, k.Axis.Toward), n.Frame.Pole(), n.Frame.Fix(target.Star)
	air := sky.Air{PressureHPa: k.Site.PressureHPa, TemperatureC: k.Site.TemperatureC}
	s.highest, s.nearest = -90*sky.Degree, 180*sky.Degree
	ticks := 0
	for _, dark := range n.Dark {
		for t := dark.From; t.Before(dark.To); t = t.Add(tick) {
			d := n.Frame.Direction(fixed, t)
			place := d.Horizontal()
			if place.Altitude < k.Mount.Floor || place.Altitude+air.Refraction(place.Altitude) < k.Horizon.At(place.Azimuth) {
				continue
			}
			field, _ := sky.FieldRate(pole, d, axis)
			turn, _ := sky.AzimuthRate(pole, d, axis)
			if 90*sky.Degree-d.Separation(axis)+k.Axis.Uncertainty > k.Mount.Ceiling || math.Abs(float64(field)) > float64(k.Derotator.LargestRate) ||
				math.Abs(float64(turn)) > float64(k.Mount.LargestAzimuthRate) {
				s.keyhole += tick
				continue
			}
			ticks++
			s.up += tick
			s.rate += math.Abs(field.DegreesPerHour())
			s.highest = max(s.highest, place.Altitude)
			moon := n.Frame.Moon(t)
			height, dim := worthOf(k, target, place, moon, d.Separation(moon.Direction()))
			s.height, s.dark = s.height+height, s.dark+dim
			if moon.Altitude+moon.SemiDiameter()+34*sky.Arcminute > 0 {
				s.moonUp += tick
				s.nearest = min(s.nearest, d.Separation(moon.Direction()))
			}
		}
	}
	if ticks > 0 {
		s.rate, s.height, s.dark = s.rate/float64(ticks), s.height/float64(ticks), s.dark/float64(ticks)
	}
	return s
}

// worthOf is what the kit's filters make of a minute, without the Moon and with it, by package light, whose own tests
// hold it against tables: each filter counts by its exposure and by how it suits the target.
func worthOf(k kit.Kit, target kit.Target, place sky.Horizontal, moon sky.Moon, apart sky.Angle) (height, dark float64) {
	weights := 0.0
	for _, f := range k.Subs.Filters {
		v := light.Through(f, k.Site)
		p := light.NewProspect(v, light.SourceOf(target.Object), k.Site, exposure.DetectorPhotons(k, f))
		weight := float64(f.Count) * f.Exposure.Seconds() * p.Suits
		lit := v.Under(light.Moonlight{PhaseAngle: light.PhaseAngle(moon), MoonAltitude: moon.Altitude})
		weights += weight
		height += weight * p.Worth(place.Altitude, 0)
		dark += weight * p.Worth(place.Altitude, v.Moonlit(lit, place.Altitude, apart))
	}
	return height / weights, dark / weights
}

func TestRankingAgreesWithASlowLook(t *testing.T) {
	north := endless()
	north.Site.Place = sky.Site{Latitude: 51.5 * sky.Degree, Longitude: -3 * sky.Degree}
	unsure := endless()
	unsure.Axis.Uncertainty = 3 * sky.Degree
	for _, c := range []struct {
		name string
		kit  kit.Kit
		of   string
	}{
		{"a southern target", endless(), "NGC 2070"},
		{"through the keyhole", endless(), "NGC 1365"},
		{"with a reversal in the north", endless(), "M 42"},
		{"setting, the Moon near", endless(), "M 74"},
		{"never rising", endless(), "M 81"},
		{"rising late behind the gum trees", endless(), "M 46"},
		{"circumpolar in the north", north, "M 81"},
		{"past the zenith in the north", north, "M 45"},
		{"an axis that is hardly known", unsure, "NGC 2070"},
	} {
		t.Run(c.name, func(t *testing.T) {
			n, target := plan.NewNight(c.kit, moonlitDate), named(t, c.of)
			want := lookSlowly(n, target[0])
			runs := n.Course(target[0], c.kit.Axis).Schedule(plan.Start{At: n.Span.From}, plan.NewSequence(c.kit.Subs))
			got := rank(t, c.kit, moonlitDate, target, choose.Wish{})[0]
			windows := float64(max(1, len(got.Windows)))
			assert.InDelta(t, want.up.Seconds(), got.Up.Seconds(), 30*windows, "up: twenty seconds an edge, and ten of the scan's")
			assert.InDelta(t, want.keyhole.Seconds(), got.Keyhole.Seconds(), 30*windows)
			assert.InDelta(t, len(runs.Rewinds), got.Rewinds, 1, "a last run so short that half a cadence decides")
			cadence := scan.PaceOf(c.kit.Subs).Cadence
			assert.InDelta(t, workingOf(runs, c.kit).Minutes(), got.Working.Minutes(), cadence.Minutes()*float64(1+len(runs.Runs)))
			if want.up == 0 {
				assert.Zero(t, got.Worth)
				return
			}
			assert.Equal(t, len(runs.Runs) == 1 && !runs.Runs[0].Limit.Early.OK, got.OneRun)
			// The highest may lie between two samples: 2 min at 15°/h.
			assert.InDelta(t, want.highest.Degrees(), got.Highest.Degrees(), 0.5)
			assert.InDelta(t, want.rate, got.Rate.DegreesPerHour(), 0.01*want.rate+0.05, "the ends of windows are sampled by chance")
			assert.InDelta(t, want.height, got.Factors[choose.ByHeight].Share, 0.005)
			assert.InDelta(t, want.dark/want.height, got.Factors[choose.ByMoon].Share, 0.005)
			assert.InDelta(t, want.moonUp.Minutes(), got.Moon.Up.Minutes(), 3, "a sample more or less")
			if want.moonUp > 0 {
				assert.InDelta(t, want.nearest.Degrees(), got.Moon.Nearest.Degrees(), 0.05) // the Moon goes 0.02° in 2 min
			}
		})
	}
}

func workingOf(runs plan.Schedule, k kit.Kit) (total time.Duration) {
	for _, r := range runs.Runs {
		total += r.Length() - k.Subs.Settle
	}
	return total
}

// A brighter sky of the site's own loses less to the Moon, and thicker air sheds more of its light; a kit that
// says neither has the paper's dark site, 21.587 and 0.172.
func TestMoonlightIsWeighedAgainstTheSitesOwnSky(t *testing.T) {
	share := func(zenithMag, extinction float64) float64 {
		k := endless()
		k.Site.SkyMagPerArcsec2, k.Site.ExtinctionMagPerAirmass = zenithMag, extinction
		return rank(t, k, moonlitDate, named(t, "M 74"), choose.Wish{})[0].Factors[choose.ByMoon].Share
	}
	assert.Equal(t, share(21.587, 0.172), share(0, 0))
	assert.Greater(t, share(19, 0.172), share(21.587, 0.172)+0.1)
	assert.Less(t, share(21.587, 0.4), share(21.587, 0.172))
}

// No black box: the worth is the time up times the factors, and each that takes something away says why.
func TestWorthIsItsFactors(t *testing.T) {
	k := kit.Example()
	ranked := rank(t, k, moonlitDate, choose.Targets(k), choose.Wish{})
	require.Len(t, ranked, len(catalog.DeepSky()), "the kit's two are in the catalogue")
	for i, c := range ranked {
		worth := c.Up.Seconds()
		for r, f := range c.Factors {
			require.Equal(t, choose.Reason(r), f.Of, "in order")
			require.True(t, f.Share >= 0 && f.Share <= 1, "%s: %v is %v", c.Target.Name, f.Of, f.Share)
			if f.Share < 1 {
				require.True(t, f.Told, "%s: %v", c.Target.Name, f.Of)
			}
			worth *= f.Share
		}
		require.InDelta(t, worth, c.Worth.Seconds(), 1e-6)
		if i > 0 {
			require.LessOrEqual(t, c.Worth, ranked[i-1].Worth)
		}
	}
}

func TestWhyATargetIsWorthWhatItIs(t *testing.T) {
	k := kit.Example()
	of := func(name string, wish choose.Wish) choose.Choice {
		return rank(t, k, moonlitDate, named(t, name), wish)[0]
	}
	assert.GreaterOrEqual(t, of("NGC 1365", choose.Wish{}).Keyhole, time.Minute)
	tarantula := of("NGC 2070", choose.Wish{})
	assert.Equal(t, 3, tarantula.Rewinds)
	assert.InDelta(t, 0.34, tarantula.Moon.Illuminated, 0.005)
	assert.Equal(t, "00:12", words.Minute(tarantula.Moon.Sets.At, k.Site.Zone))
	assert.Equal(t, choose.NeverAbove, of("M 81", choose.Wish{}).NotUp)
	assert.Zero(t, of("NGC 3572", choose.Wish{}).Moon.Up)
	goals := choose.Wish{Goals: map[string]choose.Goal{"orion nebula": {Taken: time.Hour, Left: 20 * time.Minute}, "ngc253": {Taken: 3 * time.Hour}}}
	begun := of("M 42", goals)
	require.NotNil(t, begun.Goal)
	assert.Equal(t, 20*time.Minute, begun.Goal.Left)
	assert.True(t, begun.Spare, "less than the night gives")
	assert.Zero(t, of("NGC 253", goals).Factors[choose.ByGoal].Share)
	k.Site.Place.Latitude = 60 * sky.Degree
	none := rank(t, k, plan.Date{Year: 2026, Month: time.June, Day: 21}, named(t, "M 57"), choose.Wish{})[0]
	assert.Zero(t, none.Worth)
	assert.Equal(t, choose.NeverDark, none.NotUp)
}

func TestGoalsWeighIn(t *testing.T) {
	k := kit.Example()
	targets := named(t, "M 42", "NGC 2070", "NGC 253")
	worth := func(goals map[string]choose.Goal) map[string]time.Duration {
		by := map[string]time.Duration{}
		for _, c := range rank(t, k, moonlitDate, targets, choose.Wish{Goals: goals}) {
			by[c.Target.Name] = c.Worth
		}
		return by
	}
	plain := worth(nil)
	with := worth(map[string]choose.Goal{
		"NGC 2070": {Taken: time.Hour, Left: 100 * time.Hour}, // begun
		"M 42":     {Left: time.Hour},                         // an hour is all that is wanted
		"NGC 253":  {Taken: 5 * time.Hour},                    // complete
	})
	assert.InDelta(t, 1.25, with["NGC 2070"].Hours()/plain["NGC 2070"].Hours(), 1e-9, "the default of Weights.Begun")
	c := rank(t, k, moonlitDate, named(t, "M 42"), choose.Wish{})[0]
	gives := scan.PaceOf(k.Subs).Open(c.Working)
	assert.InDelta(t, 1/gives.Hours(), with["M 42"].Hours()/plain["M 42"].Hours(), 1e-6, "one hour of what the night gives")
	assert.Zero(t, with["NGC 253"])
}

func TestFilters(t *testing.T) {
	k := kit.Example()
	all := choose.Targets(k)
	unfiltered := rank(t, k, moonlitDate, all, choose.Wish{})
	for _, c := range []struct {
		name   string
		filter choose.Filter
		holds  func(choose.Choice) bool
	}{
		{"by type", choose.Filter{Types: []string{"galaxy", "globular cluster"}}, func(c choose.Choice) bool {
			return c.Target.Object.Type == "galaxy" || c.Target.Object.Type == "globular cluster"
		}},
		{"by constellation", choose.Filter{Constellations: []string{"ori"}}, func(c choose.Choice) bool { return c.Target.Object.Constellation == "Ori" }},
		{"by fit", choose.Filter{Fits: []choose.Fit{choose.Fits}}, func(c choose.Choice) bool { return c.Size.Fit == choose.Fits }},
		{"what the derotator lasts through", choose.Filter{OneRun: true}, func(c choose.Choice) bool { return c.OneRun && c.Rewinds == 0 }},
		{"by time up", choose.Filter{AtLeast: 3 * time.Hour}, func(c choose.Choice) bool { return c.Up >= 3*time.Hour }},
		{"by a part of a name", choose.Filter{NamePart: "tarantula"}, func(c choose.Choice) bool { return c.Target.Object.ID == "NGC 2070" }},
	} {
		t.Run(c.name, func(t *testing.T) {
			kept := map[string]bool{}
			for _, choice := range rank(t, k, moonlitDate, all, choose.Wish{Filter: c.filter}) {
				assert.True(t, c.holds(choice), choice.Target.Name)
				kept[choice.Target.Name] = true
			}
			assert.NotEmpty(t, kept)
			for _, choice := range unfiltered {
				assert.Equal(t, c.holds(choice), kept[choice.Target.Name], choice.Target.Name)
			}
		})
	}
}

func TestNothingBeforeAnInstantCounts(t *testing.T) {
	k := endless()
	n := plan.NewNight(k, moonlitDate)
	midnight := n.Span.From.Add(12 * time.Hour)
	target := named(t, "NGC 2070")
	late := rank(t, k, moonlitDate, target, choose.Wish{From: midnight})[0]
	begin, ok := late.Begin()
	require.True(t, ok)
	assert.Equal(t, midnight, begin)
	assert.InDelta(t, n.Dark[0].To.Sub(midnight).Seconds(), late.Up.Seconds(), 1)
	runs := n.Course(target[0], k.Axis).Schedule(plan.Start{At: midnight}, plan.NewSequence(k.Subs))
	assert.Len(t, runs.Rewinds, late.Rewinds)
	over := rank(t, k, moonlitDate, target, choose.Wish{From: n.Span.To})[0]
	assert.Zero(t, over.Worth)
	_, ok = over.Begin()
	assert.False(t, ok)
}

// A target that wants a camera angle is planned with it: fewer minutes, for the runs at it are shorter.
func TestAWantedCameraAngleIsPlannedFor(t *testing.T) {
	k := endless()
	target := named(t, "NGC 2070")[0]
	free := rank(t, k, moonlitDate, []kit.Target{target}, choose.Wish{})[0]
	angle := 20 * sky.Degree
	target.CameraAngle, target.Keep = &angle, kit.AlwaysKeep
	kept := rank(t, k, moonlitDate, []kit.Target{target}, choose.Wish{})[0]
	n := plan.NewNight(k, moonlitDate)
	runs := n.Course(target, k.Axis).Schedule(plan.Start{At: n.Span.From}, plan.NewSequence(k.Subs))
	assert.InDelta(t, workingOf(runs, k).Seconds(), kept.Working.Seconds(), 1)
	assert.Less(t, kept.Working, free.Working)
}

// What a ranking says of the kit's own targets is what the plan says of them.
func TestOurOwnTargetsArePlannedExactly(t *testing.T) {
	for _, date := range []plan.Date{moonlitDate, {Year: 2026, Month: time.June, Day: 12}, {Year: 2027, Month: time.March, Day: 1}} {
		k := endless()
		n := plan.NewNight(k, date)
		for _, got := range rank(t, k, date, k.Targets, choose.Wish{}) {
			runs := n.Course(got.Target, k.Axis).Schedule(plan.Start{At: n.Span.From}, plan.NewSequence(k.Subs))
			assert.Equal(t, len(runs.Rewinds), got.Rewinds)
			assert.InDelta(t, workingOf(runs, k).Seconds(), got.Working.Seconds(), 1)
		}
	}
}

func TestProgressAndCancelling(t *testing.T) {
	k := kit.Example()
	night := choose.NewNight(plan.NewNight(k, moonlitDate), k.Axis, nil)
	targets := named(t, "M 42", "NGC 2070", "NGC 253")
	var seen []int
	ctx, cancel := context.WithCancel(context.Background())
	_, err := night.Rank(ctx, targets, choose.Wish{}, func(done, total int) {
		assert.Equal(t, 3, total)
		if seen = append(seen, done); done == 2 {
			cancel()
		}
	})
	assert.ErrorIs(t, err, context.Canceled)
	assert.Equal(t, []int{1, 2}, seen, "it stops when it is told to")
}

// The bound: half a second for all of the catalogue on a machine of two cores, the night itself included.
func BenchmarkRankingTheWholeCatalogue(b *testing.B) {
	k := kit.Example()
	targets := choose.Targets(k)
	for b.Loop() {
		night := choose.NewNight(plan.NewNight(k, moonlitDate), k.Axis, nil)
		if _, err := night.Rank(context.Background(), targets, choose.Wish{}, nil); err != nil {
			b.Fatal(err)
		}
	}
}
