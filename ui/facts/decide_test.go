package facts_test

import (
	"context"
	"encoding/json"
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/plan"
	"duskhand/plan/choose"
	"duskhand/plan/kit"
	"duskhand/plan/supplies"
	"duskhand/sky/words"
	"duskhand/ui/facts"
	"duskhand/ui/say"
)

// What a divided night leaves a target is what it gets, not what the night alone would give it.
func TestTheVerdictOfADividedNight(t *testing.T) {
	n := &night{t: t, kit: sharedKit()}
	r := n.at(dusk.Add(-time.Hour))
	target := r.Shared()[0].Target
	v := r.VerdictOf(choose.Choice{Target: target, Up: 7 * time.Hour, Working: 6*time.Hour + 15*time.Minute, Worth: 5 * time.Hour, Factors: []choose.Factor{{Share: 1}}})
	turn, ok := r.TurnOf(target.Name)
	require.True(t, ok)
	assert.Equal(t, turn.Working, v.Working())
	said := say.Verdict(v, kit.Example())
	assert.Equal(t, fmt.Sprintf("Worth it: %s gets %d subs in its turn, %s (6 h 15 min alone)", target.Name, turn.Subs, words.Lasting(turn.Working)), said[0])
	for i := 1; i < len(said); i++ {
		assert.Less(t, len(said[i]), len(said[i-1]), "longest first: %q", said)
	}
	assert.Nil(t, r.VerdictOf(choose.Choice{Target: kit.Target{Name: "M 42"}, Up: time.Hour, Factors: []choose.Factor{{Share: 1}}}).Turn, "it has no part in the division")
}

func TestTheVerdictInWords(t *testing.T) {
	factors := func(shares ...float64) (all []choose.Factor) {
		for i, share := range shares {
			all = append(all, choose.Factor{Of: choose.Reason(i), Share: share, Told: true})
		}
		return all
	}
	target := kit.Target{Name: "NGC 2070"}
	for _, c := range []struct {
		name   string
		choice choose.Choice
		want   facts.Worth
		says   string
	}{
		{"a good night", choose.Choice{Up: 7 * time.Hour, Working: 6 * time.Hour, Worth: 5 * time.Hour, Factors: factors(0.9, 0.8, 1, 1, 1)},
			facts.WorthIt, "Worth it: NGC 2070 gives 6 h 00 min of subs"},
		{"moonlight", choose.Choice{Up: time.Hour, Working: 40 * time.Minute, Worth: 5 * time.Minute, Moon: choose.Moon{Illuminated: 0.98}, Factors: factors(0.9, 0.8, 0.1, 1, 1)},
			facts.NotWorth, "Not worth it: NGC 2070: Moon 98 %, 40 min of subs"},
		{"an hour of a small object", choose.Choice{Up: 2 * time.Hour, Working: time.Hour, Worth: 40 * time.Minute, Size: choose.Size{Fit: choose.Tiny}, Factors: factors(0.9, 0.9, 1, 0.4, 1)},
			facts.HardlyWorth, "Hardly worth it: NGC 2070 gives 1 h 00 min of subs, tiny on the chip"},
		{"low", choose.Choice{Up: 2 * time.Hour, Working: time.Hour, Worth: 20 * time.Minute, Factors: factors(0.9, 0.3, 1, 1, 1)},
			facts.NotWorth, "Not worth it: NGC 2070: highest 0°, 1 h 00 min of subs"},
		{"complete", choose.Choice{Up: 2 * time.Hour, Working: time.Hour, Factors: factors(0.9, 0.9, 1, 1, 0)},
			facts.NotWorth, "Not worth it: NGC 2070: complete, 1 h 00 min of subs"},
		{"rewinds", choose.Choice{Up: time.Hour, Working: 20 * time.Minute, Worth: 15 * time.Minute, Factors: factors(0.33, 0.8, 1, 1, 1)},
			facts.NotWorth, "Not worth it: NGC 2070: turning takes 67 %, 20 min of subs"},
		{"never up", choose.Choice{NotUp: choose.NeverAbove, Factors: factors(1, 1, 1, 0.4, 1)}, facts.NotWorth, "Not worth it: NGC 2070: never above 25° and clear of the horizon in the dark"},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.choice.Target = target
			v := facts.VerdictOf(c.choice)
			assert.Equal(t, c.want, v.Worth)
			assert.Equal(t, c.choice.Working, v.Working())
			said := say.Verdict(v, kit.Example())
			assert.Equal(t, c.says, said[0])
			for i := 1; i < len(said); i++ {
				assert.LessOrEqual(t, len(said[i]), len(said[i-1]), "longest first: %q", said)
			}
		})
	}
}

// A ranking before dusk counts the whole night, one made later what is left; equal questions are equal.
func TestTheQuestionOfARanking(t *testing.T) {
	n := &night{t: t, kit: kit.Example()}
	open := checklist.OpenNight{Kit: "example"}
	before, later := n.at(dusk.Add(-time.Hour), open), n.at(dusk.Add(62*time.Minute))
	assert.True(t, before.RankingFor(facts.Picked{}).From.IsZero())
	assert.Equal(t, dusk.Add(62*time.Minute).Truncate(5*time.Minute), later.RankingFor(facts.Picked{}).From)
	assert.Equal(t, later.RankingFor(facts.Picked{Type: "galaxy"}), n.at(dusk.Add(62*time.Minute+30*time.Second)).RankingFor(facts.Picked{Type: "galaxy"}))
	assert.NotEqual(t, later.RankingFor(facts.Picked{}), n.at(dusk.Add(70*time.Minute)).RankingFor(facts.Picked{}))

	one := facts.Picked{NamePart: "NGC 2070", OneRun: true}
	ranking, err := facts.Rank(context.Background(), later.Night, later.RankingFor(one), choose.Targets(later.Night.Kit), nil, nil)
	require.NoError(t, err)
	assert.Empty(t, ranking.Choices, "its runs are shorter than the night")
	one.OneRun = false
	ranking, err = facts.Rank(context.Background(), later.Night, later.RankingFor(one), choose.Targets(later.Night.Kit), nil, nil)
	require.NoError(t, err)
	require.Len(t, ranking.Choices, 1)
	assert.Equal(t, 0, ranking.Place("NGC 2070"))
	assert.Equal(t, -1, ranking.Place("NGC 1365"))
	given, stop := context.WithCancel(context.Background())
	stop()
	_, err = facts.Rank(given, later.Night, later.RankingFor(one), choose.Targets(later.Night.Kit), nil, nil)
	assert.ErrorIs(t, err, context.Canceled)
}

// Nights of exposures of 64 minutes each: 60 of a minute with their 4 s, without dithers.
func TestGoalsOfEarlierNights(t *testing.T) {
	k := kit.Example()
	k.Subs.Filters = []kit.Filter{{Name: "L", Exposure: time.Minute, Count: 120}}
	k.Subs.DitherEvery = 0
	target := checklist.Target{Name: "NGC 2070", Star: k.Targets[0].Star}
	zero := k.Derotator.Min
	var events []journal.Event
	for day, key := range []string{"2026-12-04", "2026-12-05", "2026-12-07", "no night"} {
		log, begin := checklist.Night{}, dusk.AddDate(0, 0, day-1)
		for i, a := range []checklist.Action{checklist.ChooseTarget{Target: target}, checklist.TurnOn{Angle: &zero}, checklist.StartSubs{Filter: "L"}, checklist.StopSubs{}} {
			at := begin.Add(time.Duration(i/3) * 64 * time.Minute) // 60 subs of 60 s with their 4 s
			kind, body, err := checklist.Say(log, a, time.UTC)
			require.NoError(t, err)
			raw, err := json.Marshal(body)
			require.NoError(t, err)
			e := journal.Event{Ordinal: int64(len(events) + 1), Night: key, At: at, Kind: kind, Body: raw}
			events, log = append(events, e), log.Next(e)
		}
	}
	until := plan.Date{Year: 2026, Month: time.December, Day: 4}
	first := facts.GoalsOf(k, events, until, dusk)
	assert.Equal(t, time.Hour, first["NGC 2070"].Taken)
	assert.Equal(t, time.Hour, first["NGC 2070"].Left, "120 are wanted")
	assert.Equal(t, choose.Goal{Left: 2 * time.Hour}, first["NGC 1365"])
	both := facts.GoalsOf(k, events, date, dusk.Add(10*time.Hour))
	assert.Equal(t, choose.Goal{Taken: 2 * time.Hour}, both["NGC 2070"], "and nothing of a later night, nor of what is no night")
	assert.Nil(t, facts.GoalsOf(k, nil, date, dusk))
}

// The moisture stays while the air cools: 12 °C and 85 % have their dew point at 9.56 °C (by hand, Alduchov &
// Eskridge 1996); at 10 °C that leaves 0.4 K.
func TestDewByTheReadings(t *testing.T) {
	at := func(minutes int) time.Time { return dusk.Add(time.Duration(minutes) * time.Minute) }
	moist := []checklist.Humidity{{At: at(0), Percent: 60}, {At: at(100), Percent: 85}}
	warm, cold := checklist.Temperature{At: at(95), C: 12}, checklist.Temperature{At: at(180), C: 10}
	for _, c := range []struct {
		name         string
		temperatures []checklist.Temperature
		humidities   []checklist.Humidity
		risk         supplies.Risk
		none         string
	}{
		{"read together", []checklist.Temperature{{At: at(0), C: 15}, warm}, moist, supplies.DewNear, ""},
		{"the air has cooled", []checklist.Temperature{warm, cold}, moist, supplies.DewNow, ""},
		{"cooled below it: no air holds that", []checklist.Temperature{warm, {At: at(180), C: 8}}, moist, supplies.DewNow, ""},
		{"nothing read", nil, nil, supplies.Dry, "Dew: read thermometer and hygrometer: keys c and h."},
		{"no humidity", []checklist.Temperature{warm}, nil, supplies.Dry, "Dew: read thermometer and hygrometer: keys c and h."},
		{"too far apart", []checklist.Temperature{cold}, moist, supplies.Dry, "Dew: temperature and humidity were read too far apart; read both: keys c and h."},
		{"a broken hygrometer", []checklist.Temperature{warm}, []checklist.Humidity{{At: at(95)}}, supplies.Dry, "Dew: the relative humidity 0 % is out of range; give 1 to 100 %."},
	} {
		t.Run(c.name, func(t *testing.T) {
			dew, _, none := facts.DewOf(c.temperatures, c.humidities)
			assert.Equal(t, c.none, none)
			assert.Equal(t, c.risk, dew.Risk)
			if none == "" {
				now := c.temperatures[len(c.temperatures)-1].C
				assert.InDelta(t, min(now, 9.56), dew.PointC, 0.01, "to the digits of the hand's")
			}
		})
	}
}

func TestSuppliesSayWhatIsWrongFirst(t *testing.T) {
	k := kit.Example()
	n := &night{t: t, kit: k}
	run := n.at(dusk, checklist.OpenNight{Kit: "example"}, checklist.ReadTemperature{TempC: 12}, checklist.ReadHumidity{Percent: 50})
	told := say.Supplies(run.SuppliesAt(facts.Disk{FreeBytes: 1e9, OK: true}))
	require.Len(t, told, 3)
	assert.True(t, told[0].Urgent)
	assert.Contains(t, told[0].Text, "only 1.0 GB are free")
	assert.Contains(t, told[1].Text, "the glass stays dry until the air has cooled")
	assert.Contains(t, told[1].Text, "Read at 21:37.")
	assert.Contains(t, told[2].Text, "of the 480 usable") // 600 Wh · 0.8
	s := run.SuppliesAt(facts.Disk{None: "The disk is away."})
	assert.Contains(t, say.Supplies(s)[1].Text, "The disk is away.")
	assert.InDelta(t, 1, s.Left[0], 1e-9)
	assert.InDelta(t, s.Power.LeftShare, s.Left[len(s.Left)-1], 1e-9)

	k.Power.BatteryWh = 0
	s = facts.SuppliesFor(k, run.Night, 0, facts.Disk{})
	assert.Empty(t, s.Left)
	assert.Equal(t, "No more subs are planned.", say.Supplies(s)[1].Text)
	assert.Contains(t, say.Supplies(s)[2].Text, "give power.battery_wh in the kit")
}

func TestSubLengthsOfAnotherTarget(t *testing.T) {
	n := &night{t: t, kit: kit.Example()}
	run := n.at(dusk.Add(-2*time.Hour), checklist.OpenNight{Kit: "example"})
	own, other := run.SubLengthsOf(run.Target), run.SubLengthsOf(n.kit.Targets[1])
	require.True(t, own.OK && other.OK)
	assert.Equal(t, run.Windows[0].From.Add(n.kit.Subs.Settle), own.At, "not before it can be used, and guiding has settled")
	assert.Len(t, other.Filters, 4)
	assert.Empty(t, own.Lacks())
	words := say.SubLengths(own)
	assert.Contains(t, words[0], "The sky at the target has", "what holds for all filters comes first")
	seen := map[string]bool{}
	for _, w := range words {
		assert.False(t, seen[w], "twice: %s", w)
		seen[w] = true
	}
	run = n.at(dusk.Add(8 * time.Hour))
	assert.False(t, run.SubLengthsOf(run.Target).OK, "its last window is over")
}

// The step that chooses the target says of the Moon how bright it is, when it is up while the target is, and how near it
// comes: on 24 December 2026 it is full (almanacs; (memory)), and up all night beside M 42.
func TestTheStepThatChoosesTheTargetSaysTheMoon(t *testing.T) {
	k := kit.Example()
	k.Targets = nil
	target, err := k.FindTarget("M 42")
	require.NoError(t, err)
	k.Targets = append(k.Targets, target)
	for _, c := range []struct {
		name string
		day  int
		want string
	}{
		{"full", 23, `^Moon (9\d|100) % lit, up all the while, \d+° away at the nearest$`},
		{"half, and setting", 17, `^Moon [4-6]\d % lit, sets \d\d:\d\d, \d+° away at the nearest$`},
		{"new", 9, `^no Moon$`},
	} {
		t.Run(c.name, func(t *testing.T) {
			date := plan.Date{Year: 2026, Month: time.December, Day: c.day}
			noon := time.Date(2026, 12, c.day, 7, 0, 0, 0, time.UTC)
			run := facts.For(k, date, checklist.Night{}, noon, nil).At(noon)
			assert.Regexp(t, c.want, say.Known(run, facts.Stars{})["moon"])
		})
	}
}

// BenchmarkFirstScreenful is what Decide shows first, the kit's own targets ranked: at most 80 ms.
func BenchmarkFirstScreenful(b *testing.B) {
	k := kit.Example()
	tonight := facts.For(k, exampleDate, checklist.Night{}, dusk, nil)
	q := tonight.At(dusk).RankingFor(facts.Picked{})
	for b.Loop() {
		if _, err := facts.Rank(context.Background(), tonight.Night, q, k.Targets, nil, nil); err != nil {
			b.Fatal(err)
		}
	}
}
