package command_test

import (
	"encoding/json"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/plan/kit"
	"duskhand/ui/command"
)

func TestTargetsOfTheExampleNight(t *testing.T) {
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", "targets"), s.err)
	golden(t, "targets.txt", s.out)
	assert.Contains(t, s.out, "EXAMPLE")
	assert.Contains(t, s.out, "10 of 657")
	assert.Contains(t, s.out, "NGC 2070, Tarantula Nebula: up 6 h 35 min in the dark, 21:38 to 04:12", "the window of plan.txt")
	assert.Empty(t, s.err, "no progress where nobody watches")
}

func TestTargetsAsJSON(t *testing.T) {
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", "targets", "--type", "Galaxy", "--constellation", "fornax", "--least", "4", "--json"), s.err)
	golden(t, "targets.json", s.out)
	var got struct {
		Ranked  int
		Targets []struct {
			Name, Type, Constellation, Verdict string
			Worth                              float64 `json:"worth_s"`
			Up                                 float64 `json:"up_s"`
			Factors                            []struct{ Share float64 }
		}
	}
	require.NoError(t, json.Unmarshal([]byte(s.out), &got))
	require.NotEmpty(t, got.Targets)
	assert.Len(t, got.Targets, got.Ranked, "all of them, without --top")
	last := got.Targets[0].Worth
	for _, target := range got.Targets {
		assert.Equal(t, []string{"galaxy", "For"}, []string{target.Type, target.Constellation}, target.Name)
		assert.GreaterOrEqual(t, target.Up, 4*3600.0, target.Name)
		assert.LessOrEqual(t, target.Worth, last, "the best first: %s", target.Name)
		last = target.Worth
		share := 1.0
		for _, f := range target.Factors {
			share *= f.Share
		}
		assert.InDelta(t, target.Worth, target.Up*share, 0.005*target.Up, "the shares are the reasons: %s", target.Name) // shares to 0.001, five of them
	}
}

func TestTargetsThatAreWanted(t *testing.T) {
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", "targets", "--one-run", "--fits", "--top", "3"), s.err)
	assert.Contains(t, s.out, "3 of ")
	assert.Equal(t, 3, strings.Count(s.out, ", in one run"))
	require.Equal(t, command.Done, s.run("", "targets", "--name", "tarantula"), s.err)
	assert.Contains(t, s.out, "Worth it: NGC 2070 gives 6 h 13 min of subs")
	assert.Contains(t, s.out, "1 of 1")
	require.Equal(t, command.Done, s.run("", "targets", "--name", "no such thing"), s.err)
	assert.Contains(t, s.out, "No target of the kit or the catalogue is like that")
	require.Equal(t, command.Done, s.run("", "targets", "--name", "M 82"), s.err)
	assert.Contains(t, s.out, "Not worth it", "70° north, from 32° south")
	require.Equal(t, command.Done, s.run("", "targets", "--on", "2026-12-24", "--name", "NGC 2070"), s.err)
	assert.Contains(t, s.out, "night of 2026-12-24")
	assert.Regexp(t, `Moon (9[0-9]|100) % lit`, s.out, "full on the 24th") // USNO: full Moon 2026-12-24 01:28 UT (memory)
}

// In a night that is going on only what is left counts, and what the journal has of it and of earlier nights.
func TestTargetsLeftOfTheNight(t *testing.T) {
	s := newShell(t)
	s.ownKit()
	s.now = time.Date(2026, 12, 5, 13, 30, 0, 0, time.UTC) // midnight at the site
	require.Equal(t, command.Done, s.run("", "targets", "--name", "NGC 2070"), s.err)
	assert.Contains(t, s.out, "from 00:00 on")
	assert.Contains(t, s.out, "00:00 to 04:12")
	assert.NotContains(t, s.out, "wanted")

	j, err := journal.Open(s.home+"/.local/state/duskhand/journal.db", "test", func() time.Time { return s.now })
	require.NoError(t, err)
	zero, target := kit.Example().Derotator.Min.Degrees(), kit.Example().Targets[0]
	begin := s.now.Add(-26 * time.Hour)
	for i, e := range []struct {
		kind string
		body any
	}{
		{checklist.KindTargetChosen, checklist.TargetChosenBody{Name: target.Name, RADeg: target.Star.Place.RA.Degrees(), DecDeg: target.Star.Place.Dec.Degrees()}},
		{checklist.KindDerotatorOn, checklist.DerotatorOnBody{AngleDeg: &zero}},
		{checklist.KindSubsStarted, checklist.SubsStartedBody{Filter: "L"}},
		{checklist.KindSubsStopped, checklist.SubsStoppedBody{}},
	} {
		_, err := j.Append("2026-12-04", e.kind, begin.Add(time.Duration(i/3)*time.Hour), e.body)
		require.NoError(t, err)
	}
	require.NoError(t, j.Close())
	require.Equal(t, command.Done, s.run("", "targets", "--name", "NGC 2070"), s.err)
	assert.Contains(t, s.out, "left of what is begun")
}

func TestYearOfATarget(t *testing.T) {
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", "targets", "--year", "tarantula nebula"), s.err)
	golden(t, "targets-year.txt", s.out)
	assert.Contains(t, s.out, "NGC 2070 at Saltbush Flat, 365 nights from 2026-12-05 on")
	assert.Contains(t, s.out, "best around")
	require.Equal(t, command.Done, s.run("", "targets", "--year", "NGC 2070", "--json"), s.err)
	var got struct {
		Best   struct{ Date, First, Last string }
		Nights []struct {
			Date     string
			Dark     float64 `json:"dark_s"`
			Usable   float64 `json:"usable_s"`
			MoonFree float64 `json:"moon_free_s"`
		}
	}
	require.NoError(t, json.Unmarshal([]byte(s.out), &got))
	require.Len(t, got.Nights, 365)
	best := 0.0
	for i, n := range got.Nights {
		assert.GreaterOrEqual(t, n.Dark+1, n.Usable, n.Date) // whole seconds
		assert.GreaterOrEqual(t, n.Usable+1, n.MoonFree, n.Date)
		best = max(best, n.MoonFree)
		assert.Equal(t, time.Date(2026, 12, 5+i, 0, 0, 0, 0, time.UTC).Format("2006-01-02"), n.Date)
	}
	for _, n := range got.Nights {
		if n.Date == got.Best.Date {
			assert.InDelta(t, best, n.MoonFree, 60, "the most, to the minute")
		}
	}
	s.env["LANG"] = "C"
	require.Equal(t, command.Done, s.run("", "targets", "--year", "NGC 2070"), s.err)
	for _, r := range s.out {
		require.Less(t, r, rune(128), "ASCII only")
	}
}

func TestTargetsRefusesInWords(t *testing.T) {
	s := newShell(t)
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"--type", "galaxies"}, `--type is "galaxies"; give one of galaxy, galaxy group,`},
		{[]string{"--constellation", "Nowhere"}, `--constellation is "Nowhere"`},
		{[]string{"--least", "-1"}, "--least is -1 hours; give 0 to 24"},
		{[]string{"--least", "NaN"}, `--least is "NaN"; give a number`},
		{[]string{"--top", "0"}, "--top is 0; give 1 or more"},
		{[]string{"--on", "soon"}, "year-month-day"},
		{[]string{"--year", "NGC 207O"}, "NGC 2070"},
		{[]string{"--year", "NGC 2070", "--fits"}, "fits year"},
		{[]string{"NGC 2070"}, `duskhand targets takes no "NGC 2070"`},
	} {
		assert.Equal(t, command.WrongUse, s.run("", append([]string{"targets"}, c.args...)...), c.args)
		assert.Contains(t, s.err, c.says)
	}
}

func TestBudgetOfTheExampleNight(t *testing.T) {
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", "budget", "--temperature", "20", "--humidity", "50"), s.err)
	golden(t, "budget.txt", s.out)
	assert.Contains(t, s.out, "The dew point is 9.3 °C") // the project's handbook, section 11: 20 °C and 50 % → 9.26 °C
	assert.Contains(t, s.out, "Give --folder, or watch.folders in the kit")
	assert.Contains(t, s.out, "of the 480 usable", "600 Wh · 0.8")
	assert.Contains(t, s.out, "Subs of NGC 2070 that begin at 21:39", "a minute of settling after astronomical dusk")
	require.Equal(t, command.Done, s.run("", "budget", "--target", "NGC 1365", "--at", "23:20"), s.err)
	assert.Contains(t, s.out, "Subs of NGC 1365 that begin at 00:41", "by 00:39 it is out of the keyhole, wherever the axis stands")
	assert.Contains(t, s.out, "give the air's --temperature and --humidity")
	require.Equal(t, command.Done, s.run("", "budget", "--at", "05:00"), s.err)
	assert.Contains(t, s.out, "can't be used from then on this night")
}

func TestBudgetAsJSON(t *testing.T) {
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", "budget", "--json", "--temperature", "20", "--humidity", "50"), s.err)
	golden(t, "budget.json", s.out)
	require.Equal(t, command.Done, s.run("", "budget", "--json", "--folder", s.home), s.err)
	var got struct {
		Data struct {
			Subs  int
			Each  int64  `json:"bytes_each"`
			Bytes int64  `json:"bytes"`
			Free  *int64 `json:"free_bytes"`
			Fits  *bool
		}
		Dew *struct{}
	}
	require.NoError(t, json.Unmarshal([]byte(s.out), &got))
	assert.Equal(t, int64(52_191_360), got.Data.Each) // 6248 · 4176 · 2 in blocks of 2880, and two of header
	assert.Equal(t, int64(got.Data.Subs)*got.Data.Each, got.Data.Bytes)
	assert.Equal(t, 229, got.Data.Subs, "109 L and 40 each of R, G and B: plan.txt")
	require.NotNil(t, got.Data.Free)
	assert.Equal(t, *got.Data.Free >= got.Data.Bytes, *got.Data.Fits)
	assert.Nil(t, got.Dew)
}

// A kit that is silent on light and power loses those answers and no other.
func TestBudgetNamesWhatTheKitLacks(t *testing.T) {
	s := newShell(t)
	s.ownKit("read_noise_e = 1.5\n", "", "battery_wh = 600\n", "", "seeing_arcsec = 3\n", "")
	require.Equal(t, command.Done, s.run("", "budget", "--on", "2026-12-05"), s.err)
	for _, says := range []string{"The kit does not give", "give camera.read_noise_e", "site.seeing_arcsec", "A sub that begins now may last", "give power.battery_wh in the kit", "?"} {
		assert.Contains(t, s.out, says)
	}
	require.Equal(t, command.Done, s.run("", "budget", "--on", "2026-12-05", "--json"), s.err)
	assert.Contains(t, s.out, `"shortest_s": null`)
	assert.Contains(t, s.out, `"camera.read_noise_e"`)
	assert.Contains(t, s.out, `"usable_wh": null`)
}

func TestBudgetRefusesInWords(t *testing.T) {
	s := newShell(t)
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"--temperature", "10"}, "--temperature and --humidity go together"},
		{[]string{"--temperature", "68", "--humidity", "50"}, "give -40 to 50 °C"},
		{[]string{"--temperature", "10", "--humidity", "120"}, "give 1 to 100 %"},
		{[]string{"--target", "NGC 207O"}, "NGC 2070"},
		{[]string{"--at", "25:00"}, "2026-12-05 23:14"},
		{[]string{"--humidity", "wet"}, "wet"},
	} {
		assert.Equal(t, command.WrongUse, s.run("", append([]string{"budget"}, c.args...)...), c.args)
		assert.Contains(t, s.err, c.says)
	}
	require.Equal(t, command.Done, s.run("", "budget", "--folder", s.home+"/none"), s.err)
	assert.Contains(t, s.out, "could not be found")
}
