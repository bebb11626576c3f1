package share_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/plan/share"
	"duskhand/sky"
)

var exampleDate = plan.Date{Year: 2026, Month: time.December, Day: 5}

// endless is the example's kit with more subs wanted than a night gives.
func endless() kit.Kit {
	k := kit.Example()
	k.Subs.Loop, k.Subs.WorthARewind = 0, 0 // the scan weighs no rewind
	for i := range k.Subs.Filters {
		k.Subs.Filters[i].Count *= 100
	}
	return k
}

func targets(t *testing.T, k kit.Kit, names ...string) (found []kit.Target) {
	t.Helper()
	for _, name := range names {
		target, err := k.FindTarget(name)
		require.NoError(t, err)
		found = append(found, target)
	}
	return found
}

func divide(t *testing.T, k kit.Kit, date plan.Date, wishes []share.Wish, rules share.Rules) share.Share {
	t.Helper()
	s, err := share.Divide(plan.NewNight(k, date), k.Axis, nil, wishes, rules)
	require.NoError(t, err)
	return s
}

func got(s share.Share) map[string]float64 {
	by := map[string]float64{}
	for _, st := range s.Stretches {
		by[st.Target.Name] = st.Got
	}
	return by
}

func TestEachGetsItsShare(t *testing.T) {
	k := endless()
	for _, c := range []struct {
		name    string
		of      []string
		weights []float64
	}{
		{"two alike", []string{"NGC 2070", "NGC 1365"}, []float64{1, 1}},
		{"four alike", []string{"NGC 1365", "M 42", "NGC 2070", "NGC 253"}, []float64{1, 1, 1, 1}},
		{"three to one", []string{"M 42", "NGC 2070"}, []float64{3, 1}},
		{"six", []string{"NGC 2070", "NGC 1365", "M 42", "NGC 253", "M 41", "NGC 2997"}, []float64{1, 1, 1, 1, 1, 1}},
		{"one alone", []string{"NGC 2070"}, []float64{7}},
	} {
		t.Run(c.name, func(t *testing.T) {
			wishes, total := share.Equally(k, targets(t, k, c.of...)), 0.0
			for i := range wishes {
				wishes[i].Weight = c.weights[i]
				total += c.weights[i]
			}
			s := divide(t, k, exampleDate, wishes, share.UsualRules())
			require.Len(t, s.Stretches, len(wishes))
			assert.Empty(t, s.LeftOut)
			for _, st := range s.Stretches {
				// Steps of five minutes in an hour or three, and what height shifts: some hundredths of the share.
				assert.InDelta(t, st.Wanted, st.Got, 0.03, "%v", st)
			}
			for i, w := range wishes {
				assert.InDelta(t, c.weights[i]/total, got(s)[w.Target.Name], 0.03)
			}
		})
	}
}

// The order that is planned is the best of those shown, and the figures shown for it are those that the exact
// plan comes to, but for half a cadence a run and a hand-over moved up.
func TestOrdersAreShownWithTheirFigures(t *testing.T) {
	k := endless()
	wishes := share.Equally(k, targets(t, k, "NGC 1365", "M 42", "NGC 2070", "NGC 253"))
	s := divide(t, k, exampleDate, wishes, share.UsualRules())
	require.Len(t, s.Orders, 6)
	for i, o := range s.Orders {
		require.Len(t, o.Targets, 4)
		if i > 0 {
			assert.LessOrEqual(t, o.Worth, s.Orders[i-1].Worth)
			assert.NotEqual(t, s.Orders[i-1].Targets, o.Targets)
		}
	}
	for i, st := range s.Stretches {
		assert.Equal(t, s.Orders[0].Targets[i], st.Target.Name)
		var subs time.Duration
		for _, run := range st.Runs.Runs {
			subs += run.Length() - k.Subs.Settle
		}
		assert.InDelta(t, s.Orders[0].Subs[i].Minutes(), subs.Minutes(), 3, st.Target.Name)
	}
}

func TestOneThatSetsLeavesTheRestToTheOthers(t *testing.T) {
	k := endless()
	// M 74 sinks to the floor at midnight.
	wishes := share.Equally(k, targets(t, k, "M 41", "NGC 2070", "M 74"))
	s := divide(t, k, exampleDate, wishes, share.UsualRules())
	require.NotEmpty(t, s.Stretches)
	assert.Equal(t, "M 74", s.Stretches[0].Target.Name, "it is the first, while it is up")
	assert.InDelta(t, got(s)["M 41"], got(s)["NGC 2070"], 0.04, "the others share alike")
}

func TestATargetGetsNoMoreThanIsWanted(t *testing.T) {
	k := kit.Example() // 120 of 60 s and 40 each of 120 s through three filters: 6 h
	wanted := share.Left(k.Subs, plan.NewSequence(k.Subs))
	assert.Equal(t, 6*time.Hour, wanted)
	wishes := share.Equally(k, targets(t, k, "NGC 2070", "M 42", "NGC 253"))
	wishes[0].Subs = wishes[0].Subs.Skip("L", 120).Skip("R", 40).Skip("G", 40) // 80 min left
	for _, filter := range []string{"L", "R", "G", "B"} {
		wishes[2].Subs = wishes[2].Subs.Skip(filter, 500) // more than wanted
	}
	assert.Equal(t, 80*time.Minute, share.Left(k.Subs, wishes[0].Subs))
	assert.Zero(t, share.Left(k.Subs, wishes[2].Subs))
	s := divide(t, k, exampleDate, wishes, share.UsualRules())
	require.Len(t, s.Stretches, 2)
	for _, st := range s.Stretches {
		if st.Target.Name == "NGC 2070" {
			assert.Equal(t, 80*time.Minute, st.Exposed, "not more than is wanted")
			assert.Equal(t, share.Complete, st.Ends.Why)
		}
	}
	require.Len(t, s.LeftOut, 1)
	assert.Equal(t, share.Wanted, s.LeftOut[0].Why)
	assert.Greater(t, s.Exposed, 5*time.Hour, "the other has the rest of the night")
}

func TestWhoGetsNothingAndWhy(t *testing.T) {
	k := endless()
	rules := share.UsualRules()
	s := divide(t, k, exampleDate, share.Equally(k, targets(t, k, "M 81", "NGC 2070")), rules)
	require.Len(t, s.Stretches, 1)
	require.Len(t, s.LeftOut, 1)
	assert.Equal(t, share.NotUp, s.LeftOut[0].Why)

	k.Site.Place.Latitude = 60 * sky.Degree
	s = divide(t, k, plan.Date{Year: 2026, Month: time.June, Day: 21}, share.Equally(k, targets(t, k, "M 81", "M 57")), rules)
	assert.Empty(t, s.Stretches)
	require.Len(t, s.LeftOut, 2)
	assert.Equal(t, share.NeverDark, s.LeftOut[0].Why)
	_, ok := s.At(time.Date(2026, 6, 21, 22, 0, 0, 0, time.UTC))
	assert.False(t, ok)
}

func TestWhatCannotBeDivided(t *testing.T) {
	k := kit.Example()
	n := plan.NewNight(k, exampleDate)
	one := share.Equally(k, k.Targets[:1])
	zero := share.Equally(k, k.Targets)
	zero[1].Weight = 0
	for _, c := range []struct {
		name   string
		wishes []share.Wish
		says   string
	}{
		{"none", nil, "a night is divided among 1 to 6 targets, not 0; name fewer"},
		{"seven", share.Equally(k, targets(t, k, "M 1", "M 2", "M 3", "M 4", "M 5", "M 6", "M 7")), "not 7; name fewer"},
		{"one twice", append(one, one...), "NGC 2070 is named twice"},
		{"no weight", zero, "NGC 1365 has the weight 0; give one above 0, or leave the target out"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := share.Divide(n, k.Axis, nil, c.wishes, share.UsualRules())
			assert.ErrorContains(t, err, c.says)
		})
	}
}

func TestWhichStretchAnInstantBelongsTo(t *testing.T) {
	k := endless()
	s := divide(t, k, exampleDate, share.Equally(k, targets(t, k, "NGC 2070", "NGC 1365")), share.UsualRules())
	require.Len(t, s.Stretches, 2)
	first, second := s.Stretches[0], s.Stretches[1]
	for _, c := range []struct {
		name string
		at   time.Time
		want string
	}{
		{"before dusk", first.From.Add(-time.Hour), first.Target.Name},
		{"in the first", first.From.Add(time.Hour), first.Target.Name},
		{"at the hand-over", first.To, second.Target.Name},
		{"in the break", second.From.Add(time.Minute), second.Target.Name},
		{"after the last", second.To, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			st, ok := s.At(c.at)
			assert.Equal(t, c.want != "", ok)
			assert.Equal(t, c.want, st.Target.Name)
		})
	}
	next, ok := s.Next(first.From)
	require.True(t, ok)
	assert.Equal(t, second.Target.Name, next.Target.Name)
	_, ok = s.Next(second.From)
	assert.False(t, ok)
	assert.Equal(t, share.NightOver, second.Ends.Why)
	assert.Equal(t, share.HandedOver, first.Ends.Why)
	assert.Equal(t, 1, first.Rewinds)
}

// The derotator stands where the last sub left it, turns to the next target's start in the break, and costs
// nothing there if it is in time; nothing overlaps, all subs lie in windows, and the sums are sums: for any
// site, night, stage and targets.
func TestTheDerotatorIsCarriedOverEachHandOver(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		angle := func(name string, low, high float64) sky.Angle {
			return sky.Angle(rapid.Float64Range(low, high).Draw(t, name)) * sky.Degree
		}
		k := endless()
		k.Site.Place = sky.Site{Latitude: angle("latitude", -60, 60), Longitude: angle("longitude", -180, 180)}
		k.Derotator.Min = angle("min", -170, 100)
		k.Derotator.Max = k.Derotator.Min + angle("travel", 8, 180)
		k.Derotator.RewindSpeed = rapid.SampledFrom([]sky.Rate{0.5, 0.2}).Draw(t, "speed") * sky.DegreePerSecond
		k.Derotator.StopsAnywhere = rapid.Bool().Draw(t, "anywhere")
		n := plan.NewNight(k, plan.Date{Year: 2026, Month: time.Month(rapid.IntRange(1, 12).Draw(t, "month")), Day: 5})
		wishes := []share.Wish{}
		for i := range rapid.IntRange(1, 4).Draw(t, "targets") {
			place := sky.J2000{RA: angle("ra", 0, 360), Dec: angle("dec", -80, 80)}
			target := kit.Target{Name: string(rune('A' + i)), Star: sky.Star{Place: place}}
			wishes = append(wishes, share.Wish{Target: target, Weight: rapid.Float64Range(0.5, 2).Draw(t, "weight"), Subs: plan.NewSequence(k.Subs)})
		}
		rules := share.UsualRules()
		rules.MaySplit = rapid.Bool().Draw(t, "split")
		begins := angle("at", k.Derotator.Min.Degrees(), k.Derotator.Max.Degrees())
		rules.At = &begins
		s, err := share.Divide(n, k.Axis, nil, wishes, rules)
		require.NoError(t, err)
		carried(t, s, k, n, begins)
	})
}

func carried(t *rapid.T, s share.Share, k kit.Kit, n *plan.Night, at sky.Angle) {
	free, exposed, subs, rewinds, shares := n.Span.From, time.Duration(0), time.Duration(0), 0, map[string]float64{}
	for i, st := range s.Stretches {
		require.False(t, i > 0 && st.From.Before(s.Stretches[i-1].To), "a stretch begins when the one before is over")
		if i > 0 {
			require.Equal(t, 12*time.Minute, st.Ready.Sub(st.From), "5 + 3 + 4 of the usual break")
		}
		turned := 0
		for r, run := range st.Runs.Runs {
			require.False(t, run.From.Before(st.Ready), "nothing runs in the break")
			require.True(t, insideOne(st.Course.Windows(), run.Span), "a run lies within a window")
			if needs := st.Course.RewindTime(at, run.StartAngle); needs > 0 {
				rewind := st.Runs.Rewinds[turned]
				turned++
				require.InDelta(t, at.Degrees(), rewind.FromAngle.Degrees(), 1e-9, "it stands where it was left")
				require.InDelta(t, run.StartAngle.Degrees(), rewind.ToAngle.Degrees(), 1e-9)
				require.WithinDuration(t, run.From, rewind.To, time.Microsecond, "both are rounded to nanoseconds")
				require.InDelta(t, needs.Seconds(), rewind.Turns.Seconds(), 0.001)
				require.False(t, rewind.From.Before(free.Add(-5*time.Second)), "it turns when the last sub is over") // plan settles starts in two rounds
				if r > 0 || rewind.To.After(st.Ready) {
					rewinds++
				}
			}
			require.InDelta(t, run.EndAngle.Degrees(), st.Course.Angle(plan.Anchor{At: run.From, Angle: run.StartAngle}, run.To).Degrees(), 1e-9)
			at, free = run.EndAngle, run.To
			exposed += run.Exposed
			subs += run.Length() - k.Subs.Settle
		}
		require.Equal(t, turned, len(st.Runs.Rewinds))
		require.Equal(t, free, st.To)
		shares[st.Target.Name] = st.Got
	}
	require.Equal(t, exposed, s.Exposed)
	require.Equal(t, subs, s.Subs)
	require.Equal(t, rewinds, s.Rewinds)
	if n := len(s.Stretches); n > 0 {
		require.Equal(t, s.Stretches[n-1].To.Sub(s.Stretches[0].From), s.Subs+s.Lost)
		require.LessOrEqual(t, s.Breaks, s.Lost)
		total := 0.0
		for _, share := range shares {
			total += share
		}
		require.InDelta(t, 1, total, 1e-9)
	}
}

func insideOne(windows []plan.Window, s plan.Span) bool {
	for _, w := range windows {
		if !s.From.Before(w.From) && !s.To.After(w.To) {
			return true
		}
	}
	return false
}

// A target in the keyhole for an hour and a half around midnight, and another to fill the gap.
func TestASecondStretchWhereItPays(t *testing.T) {
	k := endless()
	date := plan.Date{Year: 2026, Month: time.November, Day: 15} // NGC 1365 passes the zenith at 1 in the morning
	wishes := share.Equally(k, targets(t, k, "NGC 1365", "M 42"))
	wishes[0].Weight = 5
	rules := share.UsualRules()
	one := divide(t, k, date, wishes, rules)
	assert.False(t, one.Split)
	assert.Len(t, one.Stretches, 2)
	rules.MaySplit = true
	two := divide(t, k, date, wishes, rules)
	require.True(t, two.Split)
	require.Len(t, two.Stretches, 3)
	assert.Equal(t, two.Stretches[0].Target.Name, two.Stretches[2].Target.Name)
	assert.NotEqual(t, two.Stretches[0].Target.Name, two.Stretches[1].Target.Name)
	assert.Greater(t, two.Exposed, one.Exposed+time.Hour, "the keyhole is filled")
	assert.Equal(t, two.Stretches[0].Got, two.Stretches[2].Got, "the share is that of both")
}

// Nothing before now, from where the stage stands now.
func TestTheRestOfANight(t *testing.T) {
	k := endless()
	rules := share.UsualRules()
	n := plan.NewNight(k, exampleDate)
	at := 10 * sky.Degree
	rules.From, rules.At = n.Span.From.Add(12*time.Hour+7*time.Minute), &at
	s := divide(t, k, exampleDate, share.Equally(k, targets(t, k, "NGC 2070", "M 42")), rules)
	require.Len(t, s.Stretches, 2)
	assert.Equal(t, rules.From, s.Stretches[0].From)
	require.NotEmpty(t, s.Stretches[0].Runs.Rewinds)
	first := s.Stretches[0].Runs.Rewinds[0]
	assert.Equal(t, at, first.FromAngle)
	assert.False(t, first.From.Before(rules.From.Add(-time.Second)))
	assert.InDelta(t, 0.5, s.Stretches[0].Got, 0.03)
	assert.Equal(t, rules.From, s.Stretches[0].Ready, "nothing was going on, so it can begin")

	for _, going := range []string{"NGC 2070", "Orion Nebula"} {
		rules.Going = going
		s = divide(t, k, exampleDate, share.Equally(k, targets(t, k, "NGC 2070", "M 42")), rules)
		require.Len(t, s.Stretches, 2)
		pause := 12 * time.Minute
		if s.Stretches[0].Target.Name == going {
			pause = 0
		}
		assert.Equal(t, pause, s.Stretches[0].Ready.Sub(s.Stretches[0].From), "first %s, going %s", s.Stretches[0].Target.Name, going)
	}
}

// Six targets in a long winter night: every order, and the exact plan of the best.
func BenchmarkDividingANightAmongSix(b *testing.B) {
	k := endless()
	k.Site.Place.Latitude = 50 * sky.Degree
	n := plan.NewNight(k, exampleDate)
	var six []kit.Target
	for _, name := range []string{"M 31", "M 33", "M 42", "M 45", "M 81", "M 1"} {
		target, err := k.FindTarget(name)
		require.NoError(b, err)
		six = append(six, target)
	}
	for b.Loop() {
		if _, err := share.Divide(n, k.Axis, nil, share.Equally(k, six), share.UsualRules()); err != nil {
			b.Fatal(err)
		}
	}
}
